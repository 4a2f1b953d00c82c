/** The schedule of one route: in the usual hours first, near the printed plan, around what is recorded. */
import { practiceIf } from '../document/library.ts';
import { solveAroundRecords, type SolvedAroundRecords } from '../schedule/history.ts';
import { usualHoursFirst } from '../schedule/overtime.ts';
import type { Problem, Schedule } from '../schedule/problem.ts';
import { replanSteps } from '../schedule/replan.ts';
import { solveSteps, type InterruptibleSearch } from '../schedule/solve.ts';
import type { PlanContext } from './context.ts';
import { printedSpots } from './replanPrinted.ts';

interface Effort {
  readonly schedules: number;
  readonly seed: number;
}

/** Schedules a route as a generator: yields every better plan as it is found. */
export function routeSchedule(
  context: PlanContext,
  whole: Problem,
  effort: Effort,
): InterruptibleSearch<SolvedAroundRecords> {
  const printed = printedSpots(context, whole);
  const weight = practiceIf(context.library, 'printed-move-weighs');
  const moveWeighs = weight === null ? {} : { moveWeighs: weight };
  return solveAroundRecords(whole, (problem) =>
    usualHoursFirst(problem, function* (one): InterruptibleSearch<Schedule> {
      if (printed.length === 0) return yield* solveSteps(one, effort);
      return (yield* replanSteps(one, printed, { ...effort, ...moveWeighs })).schedule;
    }),
  );
}
