import { describe, expect, test } from 'vitest';
import { timelineRows } from '../../../app/timeline/items.ts';
import { nextItem } from '../../../app/timeline/keys.ts';
import { handMadeOutcome } from '../../unit/shop/outcome.ts';

const rows = timelineRows(handMadeOutcome());
const go = (from: string, key: string, whole = false) =>
  nextItem(rows, from, key, whole)?.id ?? null;

describe('keys of the timeline', () => {
  test('left and right go along the row in time and stop at its ends', () => {
    expect(go('layup:skin', 'ArrowRight')).toBe('watch:skin');
    expect(go('bag-off:skin', 'ArrowLeft')).toBe('cure:skin');
    expect(go('layup:skin', 'ArrowLeft')).toBeNull();
    expect(go('bag-off:skin', 'ArrowRight')).toBeNull();
  });

  test('up and down go to the nearest in time in the next row that has stages', () => {
    expect(go('cure:skin', 'ArrowUp')).toBe('release');
    expect(go('release', 'ArrowDown')).toBe('layup:skin');
    // Core, inner skin and the way off the mould have no stage in this build.
    expect(go('bag-off:skin', 'ArrowDown')).toBe('fair:1');
    expect(go('release', 'ArrowUp')).toBeNull();
  });

  test('Home and End go to the ends of the row, with Ctrl of the build', () => {
    expect(go('bag-off:skin', 'Home')).toBe('layup:skin');
    expect(go('layup:skin', 'End')).toBe('bag-off:skin');
    expect(go('bag-off:skin', 'Home', true)).toBe('release');
    expect(go('bag-off:skin', 'End', true)).toBe('outside:outside-1');
  });

  test('from nowhere the first stage is taken', () => {
    expect(nextItem(rows, null, 'ArrowRight', false)?.id).toBe('release');
  });
});
