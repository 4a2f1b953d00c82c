/** From a problem to the best plan that a count of schedules finds. */
import { runToEnd, mapYields } from './steps.ts';
import { violations } from './check.ts';
import { compile, type Compiled } from './compile.ts';
import { exactSteps } from './exact.ts';
import { firstPlan, type Found } from './first.ts';
import { withFloats } from './floats.ts';
import { endFrom, NEVER } from './length.ts';
import { scoreOf } from './objective.ts';
import { withoutIdleOvertime } from './overtime.ts';
import { pushPerishables } from './perish.ts';
import type { Assignment } from './place.ts';
import { plainModelOf } from './plain/from-problem.ts';
import type { PlainModel } from './plain/model.ts';
import { solvePlain } from './plain/solve-plain.ts';
import type { Obstacle, Placed, Problem, Schedule } from './problem.ts';
import { improveSteps } from './search.ts';
import { earliestStarts } from './windows.ts';

export interface SolveOptions {
  /** Most schedules generated, repairs of a pass included; at least one pass is made. */
  readonly schedules: number;
  readonly seed: number;
  readonly onBetter?: (schedule: Schedule) => void;
  readonly shouldStop?: () => boolean;
}

/** A search as a generator: it yields better schedules, and null where the caller may stop it. */
export type ScheduleSteps<R> = Generator<Schedule | null, R, void>;

/** The answer of a problem that cannot be planned. */
function blocked(obstacles: readonly Obstacle[], generated: number): Schedule {
  return {
    placed: [],
    obstacles,
    end: null,
    fits: false,
    generated,
    provenBest: false,
    missedPins: [],
  };
}

/** A found assignment as the answer, perishables pushed right. */
export function toSchedule(
  compiled: Compiled,
  plan: Assignment,
  generated: number,
  provenBest: boolean,
): Schedule {
  const late = withoutIdleOvertime(compiled, plan);
  pushPerishables(compiled, late);
  const score = scoreOf(compiled, late);
  return {
    placed: withFloats(compiled, late),
    obstacles: [],
    end: compiled.stages.length > 0 ? score.end : null,
    fits: score.late === 0,
    generated,
    provenBest,
    missedPins: plan.missedPins,
  };
}

/** A plan that is known, as an answer; null when it breaks a rule of the problem. */
export function scheduleOf(problem: Problem, placed: readonly Placed[]): Schedule | null {
  const compiled = compile(problem);
  const spots = new Map(placed.map((spot) => [spot.stage, spot]));
  if (compiled.obstacles.length > 0 || violations(problem, placed).length > 0) return null;
  const at = compiled.stages.map(({ spec }) => spots.get(spec.id)!);
  const plan: Assignment = {
    start: at.map((spot) => spot.start),
    end: at.map((spot) => spot.end),
    mode: compiled.stages.map((stage, i) =>
      Math.max(
        0,
        stage.modes.findIndex((mode) => mode.spec.id === at[i]!.mode),
      ),
    ),
    sequence: [],
    missedPins: [],
  };
  return toSchedule(compiled, plan, 1, false);
}

/**
 * Plans a problem: the best plan found within a count of schedules, or what stands in the way.
 * Deterministic for a seed. Bounded in time for any input.
 * @throws Error when a relation names a stage that does not exist.
 */
export function solve(problem: Problem, options: SolveOptions): Schedule {
  return runToEnd(solveSteps(problem, options), (better) => {
    if (better) options.onBetter?.(better);
  });
}

/** The same as a generator: yields every better plan as it is found. */
export function* solveSteps(problem: Problem, options: SolveOptions): ScheduleSteps<Schedule> {
  const compiled = compile(problem);
  if (compiled.obstacles.length > 0) {
    return { ...blocked(compiled.obstacles, 0), provenBest: true };
  }
  const plain = options.schedules > 1 ? plainModelOf(compiled) : null;
  if (plain) {
    const schedule = solveAsPlain(compiled, plain, options);
    if (schedule.placed.length > 0) yield schedule;
    return schedule;
  }
  let found = firstPlan(compiled, problem.from);
  if (!found.plan) {
    const searched = yield* searchFor(compiled, found, options);
    found = searched.found;
    if (!found.plan) {
      const obstacles = found.obstacle ? [found.obstacle] : [];
      return { ...blocked(obstacles, found.generated), provenBest: searched.exhausted };
    }
  }
  const first = toSchedule(compiled, found.plan, found.generated, false);
  yield first;
  const left = options.schedules - found.generated;
  if (left <= 0) return first;
  const best = yield* improve(compiled, found, { ...options, schedules: left });
  return { ...best, gapMinutes: best.end === null ? 0 : gapOf(compiled, best.end) };
}

/** Improves a first plan and yields each better one. */
function* improve(
  compiled: Compiled,
  found: Found,
  options: SolveOptions,
): ScheduleSteps<Schedule> {
  const { schedules, seed, shouldStop } = options;
  const from = compiled.problem.from;
  const first = { plan: found.plan!, score: found.score! };
  const steps = improveSteps(compiled, first, { from, schedules, seed, shouldStop });
  const { plan, generated, proven } = yield* mapYields(steps, (better) =>
    toSchedule(compiled, better, found.generated, false),
  );
  return toSchedule(compiled, plan, found.generated + generated, proven);
}

/** Nodes that even a first answer may spend before it says that nothing fits together. */
const LEAST_NODES = 60;

/** The complete search where urgency alone found no plan: for any plan, or for the proof of none. */
function* searchFor(compiled: Compiled, found: Found, options: SolveOptions) {
  const { from } = compiled.problem;
  const nodes = Math.max(LEAST_NODES, options.schedules - found.generated);
  const { shouldStop } = options;
  const result = yield* exactSteps(compiled, {
    from,
    nodes,
    better: null,
    stopAtFirst: true,
    shouldStop,
  });
  const generated = found.generated + result.generated;
  const { plan, score, exhausted } = result;
  return {
    found: plan ? { plan, score, obstacle: null, generated } : { ...found, generated },
    exhausted,
  };
}

/** Minutes by which an end lies after the earliest that lengths, lags and calendars alone allow. */
export const gapOf = (compiled: Compiled, end: number): number =>
  end - earliestEnd(compiled, compiled.problem.from);

/** The earliest end of everything if nobody and nothing were scarce. */
function earliestEnd(compiled: Compiled, from: number): number {
  const { earliest } = earliestStarts(compiled, { from, modeOf: null, order: [] });
  const ends = compiled.stages.map((stage, i) => {
    if (stage.spec.fixedEnd !== null) return stage.spec.fixedEnd;
    const own = stage.modes.map((mode) => endFrom(mode, earliest[i]!)).filter((t) => t !== NEVER);
    return own.length > 0 ? Math.min(...own) : earliest[i]!;
  });
  return Math.max(...ends);
}

/** Without calendars, cures and choices the search of the plain case takes over. */
function solveAsPlain(compiled: Compiled, model: PlainModel, options: SolveOptions): Schedule {
  const { problem } = compiled;
  const result = solvePlain(model, options);
  if (result.starts === null) {
    const window = compiled.arcs.find((arc) => !arc.atLeast || arc.lag < 0);
    const stage = problem.stages[window?.to ?? 0]!.id;
    const args = { what: 'no-order', proven: result.infeasible } as const;
    const obstacle: Obstacle = { stage, reason: 'window-cannot-hold', args };
    return { ...blocked([obstacle], result.generated), provenBest: result.infeasible };
  }
  const start = result.starts.slice(1, -1).map((minute) => minute + problem.from);
  const plan: Assignment = {
    start,
    end: start.map((minute, i) => minute + model.duration[i + 1]!),
    mode: start.map(() => 0),
    sequence: [],
    missedPins: [],
  };
  const proven = result.makespan === result.lowerBound;
  const gapMinutes = result.makespan! - result.lowerBound;
  return { ...toSchedule(compiled, plan, result.generated, proven), gapMinutes };
}

/** True when all that is not yet begun still fits when started at or after `from`. */
export function fitsFrom(problem: Problem, from: number): boolean {
  const compiled = compile(problem);
  if (compiled.obstacles.length > 0) return false;
  return firstPlan(compiled, Math.max(from, problem.from)).score?.late === 0;
}
