import { describe, expect, test } from 'vitest';
import { lanesOf } from '../../../app/timeline/items.ts';
import { nextItem } from '../../../renderer/timeline/keys.ts';
import { handMadeOutcome } from '../../unit/shop/outcome.ts';

const lanes = lanesOf(handMadeOutcome());
const go = (from: string, key: string, whole = false) =>
  nextItem(lanes, from, key, whole)?.id ?? null;

describe('keys of the timeline', () => {
  test('left and right go along the lane in time and stop at its ends', () => {
    expect(go('release', 'ArrowRight')).toBe('layup:skin');
    expect(go('layup:skin', 'ArrowLeft')).toBe('release');
    expect(go('release', 'ArrowLeft')).toBeNull();
    expect(go('outside:outside-1', 'ArrowRight')).toBeNull();
  });

  test('up and down go to the nearest in time in the next lane', () => {
    expect(go('cure:skin', 'ArrowUp')).toBe('watch:skin');
    expect(go('fair:1', 'ArrowDown')).toBe('cure:skin');
    expect(go('release', 'ArrowUp')).toBeNull();
  });

  test('Home and End go to the ends of the lane, with Ctrl of the build', () => {
    expect(go('bag-off:skin', 'Home')).toBe('release');
    expect(go('bag-off:skin', 'End')).toBe('fair:1');
    expect(go('bag-off:skin', 'End', true)).toBe('outside:outside-1');
  });

  test('from nowhere the first stage is taken', () => {
    expect(nextItem(lanes, null, 'ArrowRight', false)?.id).toBe('release');
  });
});
