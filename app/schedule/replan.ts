/** A new plan that disturbs the old one as little as it can. */
import { compile, type Compiled } from './compile.ts';
import type { Minute } from '../time/instant.ts';
import { compareScores, scoreOf, type Score } from './objective.ts';
import { place, type Assignment } from './place.ts';
import type { Placed, Problem, Schedule } from './problem.ts';
import { solve, toSchedule, type SolveOptions } from './solve.ts';
import { earliestStarts } from './windows.ts';

export interface Moved {
  readonly stage: string;
  readonly from: Minute;
  readonly to: Minute;
}

export interface Replanned {
  readonly schedule: Schedule;
  /** Stages that start at another moment than before, in the order of the new plan. */
  readonly moved: readonly Moved[];
}

export interface ReplanOptions extends SolveOptions {
  /** Printed or promised stages: they keep their moment as long as anything fits with it. */
  readonly keep?: ReadonlySet<string>;
}

/** Shares of the old plan, from its end backward, that may be planned anew; 0: nothing moves earlier. */
const FREED_SHARES = [0, 0.25, 0.5, 0.75, 1];

interface Attempt {
  readonly plan: Assignment;
  readonly score: Score;
  readonly generated: number;
}

/**
 * Plans again after a change. First nothing moves earlier and what is in the way moves later; only
 * when that is late is more and more of the old plan given up, its end first, kept stages last.
 */
export function replan(
  problem: Problem,
  previous: readonly Placed[],
  options: ReplanOptions,
): Replanned {
  const compiled = compile(problem);
  if (compiled.obstacles.length > 0) return anew(problem, previous, options);
  const old = new Map(previous.map((spot) => [spot.stage, spot]));
  let best: Attempt | null = null;
  let generated = 0;
  for (const share of FREED_SHARES) {
    const attempt = tryKeeping(compiled, old, share, options.keep ?? new Set());
    generated += attempt?.generated ?? 1;
    if (!attempt) continue;
    if (!best || compareScores(attempt.score, best.score) < 0) {
      if (!best || attempt.score.late < best.score.late) best = attempt;
    }
    if (best.score.late === 0) break;
  }
  if (!best || (best.score.late > 0 && options.schedules > generated)) {
    const fresh = anew(problem, previous, { ...options, schedules: options.schedules - generated });
    const wins = !best || (fresh.schedule.fits && best.score.late > 0);
    if (wins || !best) return fresh;
  }
  const schedule = toSchedule(compiled, best.plan, generated, false);
  return { schedule, moved: movedOf(schedule.placed, previous) };
}

function anew(problem: Problem, previous: readonly Placed[], options: ReplanOptions): Replanned {
  const schedules = Math.max(1, options.schedules);
  const schedule = solve(problem, { ...options, schedules });
  return { schedule, moved: movedOf(schedule.placed, previous) };
}

function movedOf(placed: readonly Placed[], previous: readonly Placed[]): Moved[] {
  const old = new Map(previous.map((spot) => [spot.stage, spot.start]));
  return placed.flatMap(({ stage, start }) => {
    const from = old.get(stage);
    return from === undefined || from === start ? [] : [{ stage, from, to: start }];
  });
}

/** One pass that leaves the earlier part of the old plan where it was, or later. */
function tryKeeping(
  compiled: Compiled,
  old: ReadonlyMap<string, Placed>,
  freedShare: number,
  keep: ReadonlySet<string>,
): Attempt | null {
  const { problem, stages } = compiled;
  const starts = [...old.values()].map((spot) => spot.start);
  const first = Math.min(...starts);
  const freedFrom = Math.max(...starts) - freedShare * (Math.max(...starts) - first + 1);
  const isFree = (id: string): boolean =>
    freedShare > 0 && !keep.has(id) && (old.get(id)?.start ?? Infinity) >= freedFrom;
  const earliest = earliestStarts(compiled, {
    from: problem.from,
    modeOf: null,
    order: [],
    atLeast: stages.map(({ spec }) =>
      isFree(spec.id) ? problem.from : (old.get(spec.id)?.start ?? problem.from),
    ),
  });
  if (earliest.broken >= 0) return null;
  const modeOf = stages.map((stage) => {
    const spot = old.get(stage.spec.id);
    if (!spot || isFree(stage.spec.id)) return -1;
    return stage.modes.findIndex((mode) => mode.spec.id === spot.mode);
  });
  const result = place(compiled, {
    from: problem.from,
    priority: stages.map(({ spec }) => old.get(spec.id)?.start ?? problem.horizon),
    modeOf,
    patience: 8,
    allowOvertime: false,
    earliest: earliest.earliest,
  });
  if (!result.ok) return null;
  return { plan: result.plan, score: scoreOf(compiled, result.plan), generated: result.generated };
}
