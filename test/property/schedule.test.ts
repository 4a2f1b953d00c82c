import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { violations } from '../../app/schedule/check.ts';
import { closingTime } from '../../app/schedule/closing.ts';
import { fitsFrom, solve } from '../../app/schedule/solve.ts';
import { randomBuild } from './random-builds.ts';

const effort = { schedules: 1, seed: 1 };

describe('plans of random builds', () => {
  it(
    'break no rule, and every stage has a place or the build an obstacle',
    { timeout: 120_000 },
    () => {
      let planned = 0;
      let total = 0;
      fc.assert(
        fc.property(randomBuild({ minStages: 2, maxStages: 14 }), (problem) => {
          const schedule = solve(problem, effort);
          total++;
          if (schedule.obstacles.length > 0) {
            expect(schedule.placed).toEqual([]);
            expect(schedule.fits).toBe(false);
            return;
          }
          planned++;
          expect(violations(problem, schedule.placed)).toEqual([]);
          const late = schedule.placed.some((spot) => spot.end > problem.due);
          expect(schedule.fits).toBe(!late);
        }),
        { numRuns: 2000, seed: 7 },
      );
      expect(planned / total).toBeGreaterThan(0.9);
    },
  );

  it('give the same plan twice', () => {
    fc.assert(
      fc.property(randomBuild({ minStages: 2, maxStages: 14 }), (problem) => {
        expect(solve(problem, effort)).toEqual(solve(problem, effort));
      }),
      { numRuns: 100, seed: 8 },
    );
  });

  it('keep every rule when all stages move to their latest starts', () => {
    fc.assert(
      fc.property(randomBuild({ minStages: 2, maxStages: 12 }), (problem) => {
        const { placed, obstacles } = solve(problem, effort);
        if (obstacles.length > 0 || placed.some((spot) => spot.latestStart === null)) return;
        const latest = placed.map((spot) => ({
          stage: spot.stage,
          mode: spot.mode,
          start: spot.latestStart!,
          end: spot.latestEnd!,
        }));
        // A late plan's latest starts lie before its first moment: only the start rule may give.
        const early = { ...problem, from: Math.min(problem.from, ...latest.map((s) => s.start)) };
        expect(violations(early, latest)).toEqual([]);
        for (const spot of latest) expect(spot.end).toBeLessThanOrEqual(problem.due);
      }),
      { numRuns: 600, seed: 9 },
    );
  });
});

describe('closing times of random builds', () => {
  it('are feasible, and proven ones cannot be beaten', { timeout: 120_000 }, () => {
    fc.assert(
      fc.property(randomBuild({ minStages: 2, maxStages: 10 }), (problem) => {
        const closing = closingTime(problem);
        if (closing.minute === null) {
          if (closing.proven) expect(solve(problem, effort).fits).toBe(false);
          return;
        }
        if (closing.proven) expect(fitsFrom(problem, closing.minute + 1)).toBe(false);
        expect(closing.closedBy).not.toBeNull();
      }),
      { numRuns: 300, seed: 10 },
    );
  });
});
