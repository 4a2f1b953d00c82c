/** A new plan that disturbs the old one as little as it can. */
import type { Minute } from '../time/instant.ts';
import { runToEnd } from './generators.ts';
import { compile, modeOfPlaced, type Arc, type Compiled } from './compile.ts';
import { hasOvertime, RAISES_BEFORE_REPAIR } from './first.ts';
import { endFrom } from './length.ts';
import { lateMinutesOf, scoreOf, type Score } from './objective.ts';
import { placeByPriority, type Assignment } from './serial.ts';
import type { Placed, Problem, Schedule } from './problem.ts';
import {
  gapOf,
  solveSteps,
  toSchedule,
  type InterruptibleSearch,
  type SolveOptions,
} from './solve.ts';
import { arcCeiling, earliestStarts } from './windows.ts';

export interface StartChange {
  readonly stage: string;
  readonly from: Minute;
  readonly to: Minute;
}

export interface Replanned {
  readonly schedule: Schedule;
  /** Stages that start at another moment than before, in the order of the new plan. */
  readonly moved: readonly StartChange[];
}

export interface ReplanOptions extends SolveOptions {
  /** Printed or promised stages: they keep their moment as long as anything fits with it. */
  readonly keep?: ReadonlySet<string>;
  /** How many warnings each stage that is moved weighs; absent: no number of warnings. */
  readonly moveWeighs?: number;
}

/** Where nothing says what a move weighs, no warning outweighs one. */
const WEIGHS_ALL = 1_000_000;

/** Shares of the old plan, from its end backward, that may be planned again; 0: nothing moves earlier. */
const FREED_SHARES = [0, 0.25, 0.5, 0.75, 1];
const NO_STAGES: ReadonlySet<string> = new Set();

interface Attempt {
  readonly plan: Assignment;
  readonly score: Score;
  /** Stages of the old plan that were free to move. */
  readonly freed: ReadonlySet<string>;
}

/**
 * Plans again after a change. First nothing moves earlier and what is in the way moves later; only
 * when that is late is more and more of the old plan given up, its end first, kept stages last.
 * An old spot whose mode is not known (an empty one) keeps its moment in any mode.
 */
export const replan = (
  problem: Problem,
  previous: readonly Placed[],
  options: ReplanOptions,
): Replanned => runToEnd(replanSteps(problem, previous, options));

/** The same as a generator. */
export function* replanSteps(
  plain: Problem,
  previous: readonly Placed[],
  options: ReplanOptions,
): InterruptibleSearch<Replanned> {
  const starts = new Map(previous.map(({ stage, start }) => [stage, start]));
  const printed = { starts, warningsEach: options.moveWeighs ?? WEIGHS_ALL };
  const problem: Problem = { ...plain, printed };
  const compiled = compile(problem);
  if (compiled.obstacles.length > 0) return yield* planFromScratch(problem, previous, options);
  // Where everything has passed that was to begin, no moment of the old plan can be kept.
  if (previous.every(({ start }) => start < problem.from)) {
    return yield* planFromScratch(plain, previous, options);
  }
  const again = new Replanner(compiled, previous, options.keep ?? NO_STAGES);
  const kept = again.leastDisturbed();
  const { generated } = again;
  if (!kept || kept.score.late > 0) {
    const schedules = Math.max(1, options.schedules - generated);
    const fresh = yield* planFromScratch(problem, previous, { ...options, schedules });
    if (!kept || isBetter(compiled, fresh, kept)) return fresh;
  }
  const schedule = toSchedule(compiled, kept.plan, generated, false);
  const gap = options.schedules > 1 ? { gapMinutes: gapOf(compiled, kept.score.end) } : {};
  return { schedule: { ...schedule, ...gap }, moved: startChanges(schedule.placed, previous) };
}

function* planFromScratch(
  problem: Problem,
  previous: readonly Placed[],
  options: ReplanOptions,
): InterruptibleSearch<Replanned> {
  const schedule = yield* solveSteps(problem, {
    ...options,
    schedules: Math.max(1, options.schedules),
  });
  const moved = startChanges(schedule.placed, previous);
  return { schedule: problem.printed ? provenNear(schedule, moved) : schedule, moved };
}

/** A late plan is given up for one that is less late, or as late with fewer stages moved. */
function isBetter(compiled: Compiled, { schedule, moved }: Replanned, kept: Attempt): boolean {
  if (schedule.placed.length === 0) return false;
  const late = lateMinutesOf(compiled.problem, schedule);
  if (late !== kept.score.late) return late < kept.score.late;
  const { starts } = compiled.problem.printed!;
  const keptMoves = compiled.stages.filter(({ spec, index }) => {
    const was = starts.get(spec.id);
    return was !== undefined && was !== kept.plan.start[index];
  });
  return moved.length < keptMoves.length;
}

/** The price of moving is met by plans of any order: only one that moves nothing is proven best. */
const provenNear = (schedule: Schedule, moved: readonly StartChange[]): Schedule =>
  moved.length === 0 ? schedule : { ...schedule, provenBest: false };

/** What of an old plan starts at another moment in a new one, in the order of the new one. */
export function startChanges(
  placed: readonly Placed[],
  previous: readonly Pick<Placed, 'stage' | 'start'>[],
): StartChange[] {
  const old = new Map(previous.map((spot) => [spot.stage, spot.start]));
  return placed.flatMap(({ stage, start }) => {
    const from = old.get(stage);
    return from === undefined || from === start ? [] : [{ stage, from, to: start }];
  });
}

/** Less late; or as late at less, what moves counted with the warnings. */
const costsLess = ({ score: a }: Attempt, { score: b }: Attempt): boolean =>
  a.late < b.late || (a.late === b.late && a.warnings < b.warnings);

/** The old plan tried again with more and more of it free to move. */
class Replanner {
  private readonly c: Compiled;
  private readonly old: ReadonlyMap<string, Placed>;
  private readonly keep: ReadonlySet<string>;
  private readonly overtime: boolean;
  /** Stages that a greatest lag now forces before their old start: holding them would move what they follow. */
  private readonly drawn: ReadonlySet<string>;
  generated = 0;

  constructor(compiled: Compiled, previous: readonly Placed[], keep: ReadonlySet<string>) {
    this.c = compiled;
    this.old = new Map(previous.map((spot) => [spot.stage, spot]));
    this.keep = keep;
    this.overtime = hasOvertime(compiled);
    this.drawn = new Set(compiled.arcs.filter((arc) => this.draws(arc)).map((arc) => arc.spec.to));
  }

  /** True when the target's old start lies beyond what its source, where it was, now allows. */
  private draws(arc: Arc): boolean {
    const [from, to] = [this.old.get(arc.spec.from), this.old.get(arc.spec.to)];
    if (arc.atLeast || arc.ifStage >= 0 || !from || !to) return false;
    const { modes, spec } = this.c.stages[arc.from]!;
    const known = modes.filter((mode) => mode.spec.id === from.mode);
    const ends = (known.length > 0 ? known : modes).map((mode) => endFrom(mode, from.start));
    const end = spec.fixedEnd ?? Math.min(...ends);
    return to.start > arcCeiling(arc, arc.fromEnd ? end : from.start);
  }

  /** The least late plan, and among those in time the one that frees least. */
  leastDisturbed(): Attempt | null {
    let best: Attempt | null = null;
    for (const share of FREED_SHARES) {
      const attempt = this.freeing(this.lastShare(share));
      if (attempt && (!best || costsLess(attempt, best))) best = attempt;
      if (best?.score.late === 0) break;
    }
    return best?.score.late === 0 ? this.narrowed(best) : best;
  }

  /** Holds again what need not have been freed, half by half, what comes first before the rest. */
  private narrowed(attempt: Attempt): Attempt {
    let best = attempt;
    const hold = (ids: readonly string[]): void => {
      if (ids.length === 0) return;
      const given = new Set(ids);
      const freed = new Set([...best.freed].filter((id) => !given.has(id)));
      const next = this.freeing(freed);
      if (next?.score.late === 0 && next.score.warnings <= best.score.warnings) best = next;
      else if (ids.length > 1) {
        const half = Math.ceil(ids.length / 2);
        hold(ids.slice(0, half));
        hold(ids.slice(half));
      }
    };
    hold([...attempt.freed]);
    return best;
  }

  /** The last stages of the old plan that are no kept ones, in the order of their starts. */
  private lastShare(share: number): Set<string> {
    if (share === 0) return new Set();
    const spots = [...this.old.values()].sort((a, b) => a.start - b.start);
    const first = spots[0]?.start ?? 0;
    const last = spots.at(-1)?.start ?? 0;
    const from = last - share * (last - first + 1);
    const freed = spots.filter((spot) => spot.start >= from && !this.keep.has(spot.stage));
    return new Set(freed.map((spot) => spot.stage));
  }

  /** One pass that leaves all but the freed stages where they were, or later. */
  private freeing(freed: ReadonlySet<string>): Attempt | null {
    const { problem, stages } = this.c;
    const held = (id: string): Placed | undefined =>
      freed.has(id) || this.drawn.has(id) ? undefined : this.old.get(id);
    const windows = earliestStarts(this.c, {
      from: problem.from,
      modeOf: null,
      order: [],
      atLeast: stages.map(({ spec }) => held(spec.id)?.start ?? problem.from),
    });
    if (windows.broken >= 0) {
      this.generated++;
      return null;
    }
    const modeOf = stages.map((stage) => {
      const spot = held(stage.spec.id);
      return spot ? modeOfPlaced(stage, spot) : -1;
    });
    const priority = stages.map(({ spec }) => this.old.get(spec.id)?.start ?? problem.horizon);
    let best: Attempt | null = null;
    for (const allowOvertime of this.overtime ? [false, true] : [false]) {
      const result = placeByPriority(this.c, priority, {
        from: problem.from,
        modeOf,
        raisesBeforeRepair: RAISES_BEFORE_REPAIR,
        allowOvertime,
        earliest: windows.earliest,
      });
      this.generated += result.generated;
      if (!result.ok) continue;
      const score = scoreOf(this.c, result.plan);
      const attempt = { plan: result.plan, score, freed };
      if (!best || costsLess(attempt, best)) best = attempt;
      if (score.late === 0) break;
    }
    return best;
  }
}
