/** The schedule of one route: the usual hours first, the printed plan kept, history taken as it is. */
import { aroundHistory, type AroundHistory } from '../schedule/history.ts';
import { lateMinutesOf } from '../schedule/objective.ts';
import { offersOvertime, withoutOvertime } from '../schedule/overtime.ts';
import type { Problem, Schedule } from '../schedule/problem.ts';
import { replanSteps } from '../schedule/replan.ts';
import { solveSteps, type ScheduleSteps } from '../schedule/solve.ts';
import type { PlanContext } from './context.ts';
import { printedSpots } from './replanPrinted.ts';

interface Effort {
  readonly schedules: number;
  readonly seed: number;
}

/** Schedules a route piece by piece: every better plan as it is found. */
export function routeSchedule(
  context: PlanContext,
  whole: Problem,
  effort: Effort,
): ScheduleSteps<AroundHistory> {
  const printed = printedSpots(context, whole);
  return aroundHistory(whole, (problem) =>
    inUsualHours(problem, function* (one): ScheduleSteps<Schedule> {
      if (printed.length === 0) return yield* solveSteps(one, effort);
      return (yield* replanSteps(one, printed, effort)).schedule;
    }),
  );
}

/** Overtime is asked for only where a date is missed without it, and kept only where it helps. */
function* inUsualHours(
  problem: Problem,
  solve: (problem: Problem) => ScheduleSteps<Schedule>,
): ScheduleSteps<Schedule> {
  if (!offersOvertime(problem)) return yield* solve(problem);
  const usual = yield* solve(withoutOvertime(problem));
  if (usual.fits) return usual;
  const longer = yield* solve(problem);
  if (usual.placed.length === 0) return longer;
  if (longer.placed.length === 0) return usual;
  return lateMinutesOf(problem, longer) < lateMinutesOf(problem, usual) ? longer : usual;
}
