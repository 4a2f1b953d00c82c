/** From a problem to the best plan that a count of schedules finds. */
import { runToEnd, mapYields, type Lazy, type Interruptible } from './generators.ts';
import { earliestEnd } from './bounds.ts';
import { violations } from './check.ts';
import { compile, modeOfPlaced, type Compiled } from './compile.ts';
import { exactSteps } from './exact.ts';
import { firstPlan, type Found } from './first.ts';
import { withFloats } from './floats.ts';
import { forSize } from './forSize.ts';
import { scoreOf } from './objective.ts';
import { withoutIdleOvertime } from './overtime.ts';
import { pushPerishables } from './perish.ts';
import type { Assignment } from './serial.ts';
import type { Obstacle, Placed, Problem, Schedule, StageSpec } from './problem.ts';
import { seededRandom } from './random.ts';
import { improveSteps } from './search.ts';
import { canSearchWindows, WindowSearch } from './windowed.ts';

export interface SolveOptions {
  /** Most schedules generated, repairs of a pass included; at least one pass is made. */
  readonly schedules: number;
  readonly seed: number;
}

/** A search as a generator: it yields better schedules, and null where the caller may stop it. */
export type InterruptibleSearch<R> = Interruptible<Lazy<Schedule>, R>;

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
    end: compiled.problem.stages.length > 0 ? score.end : null,
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
  const at = compiled.stages.map(({ spec, busy }) =>
    busy ? fixedSpot(spec) : spots.get(spec.id)!,
  );
  const plan: Assignment = {
    start: at.map((spot) => spot.start),
    end: at.map((spot) => spot.end),
    mode: compiled.stages.map((stage, i) => Math.max(0, modeOfPlaced(stage, at[i]!))),
    missedPins: [],
  };
  return toSchedule(compiled, plan, 1, false);
}

const fixedSpot = ({ fixedStart, fixedEnd, modes }: StageSpec) => ({
  start: fixedStart!,
  end: fixedEnd!,
  mode: modes[0]!.id,
});

/**
 * Plans a problem: the best plan found within a count of schedules, or what stands in the way.
 * Deterministic for a seed. Bounded in time for any input.
 * @throws Error when a relation names a stage that does not exist.
 */
export const solve = (problem: Problem, options: SolveOptions): Schedule =>
  runToEnd(solveSteps(problem, options));

/** The same as a generator: yields every better plan as it is found. */
export function* solveSteps(
  problem: Problem,
  options: SolveOptions,
): InterruptibleSearch<Schedule> {
  const compiled = compile(problem);
  if (compiled.obstacles.length > 0) {
    return { ...blocked(compiled.obstacles, 0), provenBest: true };
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
  const left = options.schedules - found.generated;
  if (left <= 0) return first;
  yield () => first;
  const best = yield* improve(compiled, found, { ...options, schedules: left });
  return { ...best, gapMinutes: best.end === null ? 0 : gapOf(compiled, best.end) };
}

/** Improves a first plan and yields each better one. */
function* improve(
  compiled: Compiled,
  found: Found,
  options: SolveOptions,
): InterruptibleSearch<Schedule> {
  const { schedules, seed } = options;
  const from = compiled.problem.from;
  const first = { plan: found.plan!, score: found.score! };
  const steps = improveSteps(compiled, first, { from, schedules, seed });
  const { plan, generated, proven } = yield* mapYields(
    steps,
    (better) => () => toSchedule(compiled, better, found.generated, false),
  );
  return toSchedule(compiled, plan, found.generated + generated, proven);
}

/** Nodes that even a first answer may spend before it says that nothing fits together. */
const LEAST_NODES = 60;

/** A window that no order was found to keep, where the proof that none is there is out of reach. */
function noOrderFound({ obstacle }: Found): Obstacle | null {
  if (obstacle?.reason !== 'window-cannot-hold') return obstacle;
  return { ...obstacle, args: { what: 'no-order', proven: false } };
}

/** The complete search where urgency alone found no plan: for any plan, or for the proof of none. */
function* searchFor(compiled: Compiled, found: Found, options: SolveOptions) {
  const { from, horizon } = compiled.problem;
  const schedules = forSize(options.schedules, compiled.stages.length);
  const least = forSize(LEAST_NODES, compiled.stages.length);
  const nodes = Math.max(least, schedules - found.generated);
  const { seed } = options;
  if (canSearchWindows(compiled) && compiled.stages.every(({ modes }) => modes.length === 1)) {
    const search = new WindowSearch(
      compiled,
      compiled.stages.map(() => 0),
      {
        from,
        schedules: nodes,
        random: seededRandom(seed),
        endBy: compiled.stages.map(() => horizon),
      },
    );
    const outcome = yield* search.findFirst();
    const generated = found.generated + search.generated;
    if (!search.starts) {
      const exhausted = outcome === 'exhausted';
      const obstacle = exhausted ? found.obstacle : noOrderFound(found);
      return { found: { ...found, obstacle, generated }, exhausted };
    }
    const plan = search.plan();
    const score = scoreOf(compiled, plan);
    return { found: { plan, score, obstacle: null, generated }, exhausted: false };
  }
  const result = yield* exactSteps(compiled, {
    from,
    nodes,
    better: null,
    stopAtFirst: true,
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

/** True when all that is not yet begun still fits when started at or after `from`. */
export function fitsFrom(problem: Problem, from: number): boolean {
  const compiled = compile(problem);
  if (compiled.obstacles.length > 0) return false;
  return firstPlan(compiled, Math.max(from, problem.from)).score?.late === 0;
}
