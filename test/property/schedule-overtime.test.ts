/** Overtime by permission on random shops of two: never where the usual hours do. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { runToEnd } from '../../app/schedule/generators.ts';
import { violations } from '../../app/schedule/check.ts';
import { usualHoursFirst } from '../../app/schedule/overtime.ts';
import type { Mode, Problem, StageSpec } from '../../app/schedule/problem.ts';
import { solve, solveSteps } from '../../app/schedule/solve.ts';
import { workBetween } from '../../app/time/calendar.ts';
import { after, hour, problem, SHIFT, stage, work } from '../unit/schedule/make-problem.ts';
import { forAll, tally } from '../support/draws.ts';

const LONG = SHIFT.map(({ start, end }) => ({ start, end: end + 180 }));
const stays = (mode: Mode): Mode => ({
  ...mode,
  id: `${mode.id}:stays`,
  calendar: LONG,
  overtimeMinutes: mode.length.kind === 'work' ? mode.length.minutes : 1,
});

const shop = fc
  .record({
    stages: fc.array(
      fc.record({
        hours: fc.integer({ min: 1, max: 9 }),
        who: fc.constantFrom('ann', 'bo', 'either'),
        unbroken: fc.boolean(),
        mayStay: fc.boolean(),
        after: fc.integer({ min: 0, max: 6 }),
        dries: fc.integer({ min: 0, max: 14 }),
      }),
      { minLength: 2, maxLength: 6 },
    ),
    dueHours: fc.integer({ min: 6, max: 96 }),
  })
  .map(({ stages, dueHours }): Problem => {
    const specs = stages.map(({ hours, who, unbroken, mayStay }, i): StageSpec => {
      const people = who === 'either' ? ['ann', 'bo'] : [who];
      const usual = people.map((one) => work(Math.min(hours, 8), one, unbroken));
      return stage(`s${i}`, mayStay ? [...usual, ...usual.map(stays)] : usual);
    });
    const relations = stages.flatMap(({ after: back, dries }, i) =>
      back > 0 && back <= i ? [after(`s${i - back}`, `s${i}`, dries)] : [],
    );
    return problem(specs, relations, { due: hour(0, 8) + dueHours * 60 });
  });

const effort = { schedules: 400, seed: 1 };
const planned = (p: Problem) => runToEnd(usualHoursFirst(p, (one) => solveSteps(one, effort)));
const usualOnly = (p: Problem): Problem => ({
  ...p,
  stages: p.stages.map((s) => ({ ...s, modes: s.modes.filter((m) => !m.overtimeMinutes) })),
});

describe('overtime by permission', () => {
  it('is never used where the plan fits without', () => {
    const seen = tally('fits in usual hours', 'needs overtime');
    forAll(
      fc.property(shop, (p) => {
        const schedule = planned(p);
        expect(violations(p, schedule.placed)).toEqual([]);
        const isUsualEnough = solve(usualOnly(p), effort).fits;
        seen.saw(isUsualEnough ? 'fits in usual hours' : 'needs overtime');
        if (!isUsualEnough) return;
        expect(schedule.fits).toBe(true);
        expect(schedule.placed.filter((spot) => spot.mode.endsWith(':stays'))).toEqual([]);
      }),
      { numRuns: 300, seed: 5, seen, least: 20 },
    );
  });

  it('is worked wherever it is named, and never makes a plan later', () => {
    const seen = tally('overtime');
    forAll(
      fc.property(shop, (p) => {
        const schedule = planned(p);
        const usual = solve(usualOnly(p), effort);
        expect(schedule.end!).toBeLessThanOrEqual(Math.max(usual.end!, p.due));
        for (const spot of schedule.placed.filter((one) => one.mode.endsWith(':stays'))) {
          seen.saw('overtime');
          const minutes = workBetween(SHIFT, spot.start, spot.end);
          expect(minutes).toBeLessThan(workBetween(LONG, spot.start, spot.end));
        }
      }),
      { numRuns: 300, seed: 6, seen, least: 21 },
    );
  });
});
