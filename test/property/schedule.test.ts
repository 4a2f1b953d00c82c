import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { violations } from '../../app/schedule/check.ts';
import { closingTime } from '../support/closing.ts';
import type { Schedule, StageSpec } from '../../app/schedule/problem.ts';
import { fitsFrom, solve, solveSteps } from '../../app/schedule/solve.ts';
import { runToEnd } from '../../app/schedule/generators.ts';
import { randomBuild } from './random-builds.ts';
import { forAll, tally } from '../support/draws.ts';

const effort = { schedules: 1, seed: 1 };

describe('plans of random builds', () => {
  it(
    'break no rule, and every stage has a place or the build an obstacle',
    { timeout: 300_000 },
    () => {
      const seen = tally('obstacle', 'in time', 'late');
      forAll(
        fc.property(randomBuild({ minStages: 2, maxStages: 14 }), (problem) => {
          const schedule = solve(problem, effort);
          if (schedule.obstacles.length > 0) {
            seen.saw('obstacle');
            expect(schedule.placed).toEqual([]);
            expect(schedule.fits).toBe(false);
            return;
          }
          expect(violations(problem, schedule.placed)).toEqual([]);
          const dueOf = new Map(
            problem.stages.map((stage) => [stage.id, stage.due ?? problem.due]),
          );
          const late = schedule.placed.some(
            (spot) => spot.end > Math.min(problem.due, dueOf.get(spot.stage)!),
          );
          seen.saw(late ? 'late' : 'in time');
          expect(schedule.fits).toBe(!late && schedule.missedPins.length === 0);
        }),
        { numRuns: 10_000, seed: 7, seen, least: 30 },
      );
      expect(seen.counts.obstacle).toBeLessThan(1000);
    },
  );

  it('give the same plan twice', () => {
    const seen = tally('placed', 'obstacle');
    forAll(
      fc.property(randomBuild({ minStages: 2, maxStages: 14 }), (problem) => {
        const schedule = solve(problem, effort);
        seen.saw(schedule.placed.length > 0 ? 'placed' : 'obstacle');
        expect(solve(problem, effort)).toEqual(schedule);
      }),
      { numRuns: 100, seed: 8, seen },
    );
  });

  it('never get worse by thinking longer, nor break a rule', { timeout: 120_000 }, () => {
    const seen = tally('bettered', 'first plan kept');
    forAll(
      fc.property(randomBuild({ minStages: 2, maxStages: 12 }), (problem) => {
        const first = solve(problem, effort);
        const streamed: Schedule[] = [];
        const best = runToEnd(solveSteps(problem, { schedules: 80, seed: 3 }), (better) => {
          if (better) streamed.push(better());
        });
        expect(best.generated).toBeLessThanOrEqual(Math.max(80, first.generated));
        if (first.placed.length === 0) return;
        seen.saw(streamed.length > 1 ? 'bettered' : 'first plan kept');
        expect(violations(problem, best.placed)).toEqual([]);
        const late = (schedule: Schedule) => Math.max(0, schedule.end! - problem.due);
        expect(late(best)).toBeLessThanOrEqual(Math.max(0, late(first)));
        expect(best.gapMinutes).toBeGreaterThanOrEqual(0);
        expect(streamed[0]).toEqual({ ...first, generated: streamed[0]!.generated });
        expect(streamed.at(-1)!.placed).toEqual(best.placed);
      }),
      { numRuns: 300, seed: 12, seen, least: 10 },
    );
  });

  it('can be left between two pieces, long before their schedules are spent', () => {
    const seen = tally('left', 'ended before');
    forAll(
      fc.property(randomBuild({ minStages: 10, maxStages: 14 }), (problem) => {
        let pieces = 0;
        for (const better of solveSteps(problem, { schedules: 1_000_000, seed: 1 })) {
          if (better) expect(better().generated).toBeLessThan(10_000);
          pieces += 1;
          if (pieces === 5) break;
        }
        seen.saw(pieces === 5 ? 'left' : 'ended before');
      }),
      { numRuns: 20, seed: 13, seen, least: 1 },
    );
  });

  it('keep every rule when all stages move to their latest starts', () => {
    const seen = tally('moved to latest starts');
    forAll(
      fc.property(randomBuild({ minStages: 2, maxStages: 12 }), (problem) => {
        const { placed, obstacles } = solve(problem, effort);
        // A pin after the due moment leaves what follows it no latest start that holds.
        const isPinned = (s: StageSpec) => s.fixedStart !== null && s.fixedEnd === null;
        if (problem.stages.some(isPinned)) return;
        if (obstacles.length > 0 || placed.some((spot) => spot.latestStart === null)) return;
        seen.saw('moved to latest starts');
        const latest = placed.map((spot) => ({
          stage: spot.stage,
          mode: spot.mode,
          start: spot.latestStart!,
          end: spot.latestEnd!,
        }));
        // A late plan's latest starts lie before its first moment: only the start rules may give.
        const early = {
          ...problem,
          from: Math.min(problem.from, ...latest.map((spot) => spot.start)),
          stages: problem.stages.map((spec) => ({ ...spec, release: null })),
        };
        expect(violations(early, latest)).toEqual([]);
        const isFixed = new Set(
          problem.stages.filter((s) => s.fixedStart !== null).map((s) => s.id),
        );
        for (const spot of latest) {
          if (!isFixed.has(spot.stage)) expect(spot.end).toBeLessThanOrEqual(problem.due);
        }
      }),
      { numRuns: 600, seed: 9, seen, least: 100 },
    );
  });
});

describe('closing times of random builds', () => {
  it('are feasible, and proven ones cannot be beaten', { timeout: 120_000 }, () => {
    const seen = tally('proven', 'not proven', 'never feasible');
    forAll(
      fc.property(randomBuild({ minStages: 2, maxStages: 10 }), (problem) => {
        if (problem.stages.every((stage) => stage.fixedStart !== null)) return;
        const closing = closingTime(problem);
        if (closing.minute === null) seen.saw('never feasible');
        else seen.saw(closing.proven ? 'proven' : 'not proven');
        if (closing.minute === null) {
          if (closing.proven) expect(solve(problem, effort).fits).toBe(false);
          return;
        }
        if (closing.proven) expect(fitsFrom(problem, closing.minute + 1)).toBe(false);
        expect(closing.closedBy).not.toBeNull();
      }),
      { numRuns: 300, seed: 10, seen },
    );
  });
});
