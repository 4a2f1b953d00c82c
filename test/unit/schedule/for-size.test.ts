import { describe, expect, it } from 'vitest';
import { forSize, ORDINARY_STAGES } from '../../../app/schedule/forSize.ts';

describe('effort by size', () => {
  it('leaves an ordinary network all that it is given', () => {
    expect(forSize(5000, 76)).toBe(5000);
    expect(forSize(5000, ORDINARY_STAGES)).toBe(5000);
  });

  it('gives a larger one less, so that all of it takes no longer', () => {
    expect(forSize(5000, 2 * ORDINARY_STAGES)).toBe(1250);
    expect(forSize(80, 500)).toBe(5);
  });

  it('never falls below the least, nor gives more than was given', () => {
    expect(forSize(5000, 5000, 100)).toBe(100);
    expect(forSize(16, 5000, 100)).toBe(16);
  });
});
