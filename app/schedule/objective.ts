/** What makes one plan better than another, in stated order. */
import type { Compiled } from './compile.ts';
import type { Board } from './board.ts';
import type { Assignment } from './serial.ts';
import type { Problem, Schedule } from './problem.ts';
import type { Minute } from '../time/instant.ts';
import { dueOf } from './windows.ts';

/** Smaller is better, first difference decides. */
export interface Score {
  /** Minutes late, summed over the plan's end, every due moment and every pin that gave way. */
  readonly late: number;
  /** Surfaces abraded again, long wet work and the like, each as dear as another; printed stages that are moved. */
  readonly warnings: number;
  readonly overtimeMinutes: number;
  readonly end: number;
  /** Sum of ends of what does not perish: as soon as possible. */
  readonly sum: number;
}

/** A score that every plan that meets all dates beats, and no other plan does. */
export const ANY_LATE: Score = { late: 1, warnings: -1, overtimeMinutes: -1, end: 0, sum: 0 };

export function scoreOf(compiled: Compiled, plan: Assignment): Score {
  let late = 0;
  let warnings = 0;
  let overtimeMinutes = 0;
  let end = -Infinity;
  let sum = 0;
  const printed = printedOf(compiled);
  for (const stage of compiled.stages) {
    if (stage.busy) continue;
    const i = stage.index;
    const mode = stage.modes[plan.mode[i]!];
    if (printed) warnings += movePrice(printed, i, plan.start[i]!);
    late += Math.max(0, plan.end[i]! - dueOf(compiled, stage));
    warnings += mode?.warnings ?? 0;
    overtimeMinutes += mode?.overtimeMinutes ?? 0;
    end = Math.max(end, plan.end[i]!);
    if (!stage.spec.perishable) sum += plan.end[i]! - compiled.problem.from;
  }
  for (const pin of plan.missedPins) late += pin.byMinutes;
  return { late, warnings, overtimeMinutes, end, sum };
}

/** Printed starts in the order of the stages, NaN where none was; null where moving costs nothing. */
interface PrintedRow {
  readonly starts: Float64Array;
  readonly each: number;
}

function printedOf({ problem, stages }: Compiled): PrintedRow | null {
  const { printed } = problem;
  if (!printed || printed.warningsEach <= 0) return null;
  const starts = Float64Array.from(stages, ({ spec }) => printed.starts.get(spec.id) ?? NaN);
  return { starts, each: printed.warningsEach };
}

/** What it costs that a stage starts then and not when it was printed. */
function movePrice({ starts, each }: PrintedRow, i: number, start: Minute): number {
  const was = starts[i]!;
  return Number.isNaN(was) || was === start ? 0 : each;
}

/** Scores of what stands on a board, told apart by which way it was pushed. */
export interface Scorer {
  /** @param missedMinutes by which pins gave way */
  readonly left: (board: Board, missedMinutes: number) => Score;
  /**
   * Of a schedule pushed right against a common end: the later it begins, the better.
   * @param misplaced stages that found no place
   * @param lateFirst the beginning counts before warnings and overtime
   */
  readonly right: (board: Board, open: Int32Array, misplaced: number, lateFirst: boolean) => Score;
}

/** Lays out what the scores of one problem need. */
export function scorerOf(compiled: Compiled): Scorer {
  const { problem } = compiled;
  const stages = compiled.stages.filter((stage) => !stage.busy);
  const due = Float64Array.from(stages, (stage) => dueOf(compiled, stage));
  const counts = Uint8Array.from(stages, (stage) => Number(!stage.spec.perishable));
  const single = stages.every(
    ({ modes }) => modes.length < 2 && !modes[0]?.warnings && !modes[0]?.overtimeMinutes,
  );
  const printed = printedOf(compiled);
  const moves = ({ at }: Board): number => {
    let price = 0;
    for (let i = 0; printed && i < stages.length; i++) price += movePrice(printed, i, at[2 * i]!);
    return price;
  };
  const prices = (board: Board): { warnings: number; overtimeMinutes: number } => {
    let warnings = 0;
    let overtimeMinutes = 0;
    for (let i = 0; !single && i < stages.length; i++) {
      const mode = stages[i]!.modes[board.mode[i]!];
      warnings += mode?.warnings ?? 0;
      overtimeMinutes += mode?.overtimeMinutes ?? 0;
    }
    return { warnings, overtimeMinutes };
  };
  return {
    left: (board, missedMinutes) => {
      const { at } = board;
      let late = missedMinutes;
      let end = -Infinity;
      let sum = 0;
      for (let i = 0; i < stages.length; i++) {
        const own = at[2 * i + 1]!;
        if (own > due[i]!) late += own - due[i]!;
        if (own > end) end = own;
        if (counts[i]) sum += own - problem.from;
      }
      const { warnings, overtimeMinutes } = prices(board);
      return { late, warnings: warnings + moves(board), overtimeMinutes, end, sum };
    },
    right: (board, open, misplaced, lateFirst) => {
      let first = Infinity;
      let sum = 0;
      for (let k = 0; k < open.length; k++) {
        const start = board.at[2 * open[k]!]!;
        if (start < first) first = start;
        sum -= start;
      }
      const late = lateFirst ? -first : misplaced;
      return { late, ...prices(board), end: -first, sum };
    },
  };
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
    a.warnings - b.warnings ||
    a.overtimeMinutes - b.overtimeMinutes ||
    a.end - b.end ||
    a.sum - b.sum
  );
}

/** True when `a` is better by more than the sum of ends. */
export const isSooner = (a: Score, b: Score): boolean =>
  compareScores({ ...a, sum: 0 }, { ...b, sum: 0 }) < 0;
