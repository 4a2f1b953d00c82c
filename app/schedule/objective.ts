/** What makes one plan better than another, in stated order. */
import type { Compiled } from './compile.ts';
import type { Assignment } from './place.ts';
import type { Problem, Schedule } from './problem.ts';
import { dueOf } from './windows.ts';

/** Smaller is better, first difference decides. */
export interface Score {
  /** Minutes late, summed over the plan's end, every due moment and every pin that gave way. */
  readonly late: number;
  readonly repairs: number;
  readonly overtimeMinutes: number;
  readonly end: number;
  /** Sum of ends of what does not perish: as soon as possible. */
  readonly sum: number;
}

/** A score that every plan that meets all dates beats, and no other plan does. */
export const ANY_LATE: Score = { late: 1, repairs: -1, overtimeMinutes: -1, end: 0, sum: 0 };

export function scoreOf(compiled: Compiled, plan: Assignment): Score {
  let late = 0;
  let repairs = 0;
  let overtimeMinutes = 0;
  let end = -Infinity;
  let sum = 0;
  for (const stage of compiled.stages) {
    const i = stage.index;
    const mode = stage.modes[plan.mode[i]!];
    late += Math.max(0, plan.end[i]! - dueOf(compiled, stage));
    if (mode?.repair) repairs++;
    overtimeMinutes += mode?.overtimeMinutes ?? 0;
    end = Math.max(end, plan.end[i]!);
    if (!stage.spec.perishable) sum += plan.end[i]! - compiled.problem.from;
  }
  for (const pin of plan.missedPins) late += pin.byMinutes;
  return { late, repairs, overtimeMinutes, end, sum };
}

/** Minutes late of a finished schedule, counted as in a score. */
export function lateMinutesOf(problem: Problem, { placed, missedPins }: Schedule): number {
  const dues = new Map(problem.stages.map((stage) => [stage.id, stage.due ?? problem.due]));
  const late = placed.map(({ stage, end }) => end - Math.min(dues.get(stage)!, problem.due));
  const pins = missedPins.map((pin) => pin.byMinutes);
  return [...late, ...pins].reduce((sum, minutes) => sum + Math.max(0, minutes), 0);
}

/** Negative when `a` is better. */
export function compareScores(a: Score, b: Score): number {
  return (
    a.late - b.late ||
    a.repairs - b.repairs ||
    a.overtimeMinutes - b.overtimeMinutes ||
    a.end - b.end ||
    a.sum - b.sum
  );
}
