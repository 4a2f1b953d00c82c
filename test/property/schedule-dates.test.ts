import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Problem } from '../../app/schedule/problem.ts';
import { scheduleOf, solve } from '../../app/schedule/solve.ts';
import { forAll, tally } from '../support/draws.ts';
import { randomBuild } from './random-builds.ts';

/** Later than any date of a drawn build. */
const LATER = 100_000;

/** The same problem with every date put off but one: a stage's own due moment, or (null) the plan's. */
function onlyDate(problem: Problem, kept: string | null): Problem {
  return {
    ...problem,
    due: kept === null ? problem.due : problem.due + LATER,
    stages: problem.stages.map((stage) => ({
      ...stage,
      due: stage.id === kept ? stage.due : null,
    })),
  };
}

describe('the date that a latest start depends on', () => {
  it('holds it alone: with every other date put off, the latest start stays', () => {
    const seen = tally('the plan', 'a stage of its own date', 'a pin', 'itself');
    forAll(
      fc.property(randomBuild({ minStages: 2, maxStages: 12 }), (drawn) => {
        // Every third stage gets a date of its own, as a booked slot is.
        const { placed } = solve(drawn, { schedules: 1, seed: 1 });
        if (placed.length === 0) return;
        const ends = new Map(placed.map(({ stage, end }) => [stage, end]));
        const problem = {
          ...drawn,
          due: Math.max(drawn.due, ...ends.values()),
          // What perishes would move with its date, and the order of the plan with it.
          stages: drawn.stages.map((stage, i) => ({
            ...stage,
            perishable: false,
            due: i % 3 === 0 ? ends.get(stage.id)! : stage.due,
          })),
        };
        const plan = scheduleOf(problem, placed)!.placed;
        for (const { stage, boundBy, latestStart } of plan) {
          if (latestStart === null) continue;
          const spec = problem.stages.find(({ id }) => id === boundBy);
          seen.saw(
            boundBy === stage
              ? 'itself'
              : boundBy === null
                ? 'the plan'
                : spec?.fixedStart == null
                  ? 'a stage of its own date'
                  : 'a pin',
          );
          const alone = scheduleOf(onlyDate(problem, boundBy), placed)!.placed;
          expect(alone.find((one) => one.stage === stage)!.latestStart).toBe(latestStart);
        }
      }),
      { numRuns: 150, seed: 21, seen, least: 20 },
    );
  });
});
