import { describe, expect, it } from 'vitest';
import { paceFor } from '../../../app/schedule/pace.ts';

describe('the pace of the genetic search', () => {
  it('is broad where there are schedules for it, and brisk with fewer or very many', () => {
    const tournaments = [8, 16, 31, 41, 160].map((each) => paceFor(each * 60, 60).tournament);
    expect(tournaments).toEqual([3, 2, 2, 3, 3]);
  });

  it('widens the populations with the schedules, up to three times', () => {
    const perRoot = (each: number) => paceFor(each * 60, 60).size / Math.sqrt(each * 60);
    expect(perRoot(80) / perRoot(40)).toBeCloseTo(2);
    expect(perRoot(1000) / perRoot(40)).toBeCloseTo(3);
  });
});
