import { describe, expect, it } from 'vitest';
import { solve } from '../../../app/schedule/solve.ts';
import { dress } from '../../bench/dressing.ts';
import type { Instance } from '../../bench/psplib-read.ts';

const OTHERS = 20;
const LENGTH = 5;

/**
 * One machine; twenty stages that nothing binds, and behind them two of five units each, of which neither may
 * begin more than so many units after the other.
 */
function tiedPair(mostApart: number): Instance {
  const duration = [0, ...Array.from({ length: OTHERS }, () => 3), LENGTH, LENGTH, 0];
  const last = duration.length - 1;
  const [a, b] = [last - 2, last - 1];
  return {
    duration,
    demand: duration.map((units) => [units > 0 ? 1 : 0]),
    capacity: [1],
    arcs: [
      ...duration.slice(1, last).flatMap((units, k) => [
        { from: 0, to: k + 1, lag: 0 },
        { from: k + 1, to: last, lag: units },
      ]),
      { from: a, to: b, lag: -mostApart },
      { from: b, to: a, lag: -mostApart },
    ],
  };
}

describe('orders that cannot be, where minutes depend on the moment', () => {
  it('two stages of which neither can be first are found among many others', () => {
    const { problem } = dress(tiedPair(LENGTH - 1), 5);
    const schedule = solve(problem, { schedules: 200, seed: 1 });
    expect(schedule.placed).toEqual([]);
    expect(schedule.provenBest).toBe(true);
    expect(schedule.generated).toBeLessThan(60);
  });

  it('one unit more lets them follow each other', () => {
    const { problem } = dress(tiedPair(LENGTH), 5);
    const schedule = solve(problem, { schedules: 200, seed: 1 });
    expect(schedule.placed).toHaveLength(OTHERS + 4);
  });
});
