/** From a problem to the best plan that a count of schedules finds. */
import { compile, type Compiled } from './compile.ts';
import { exactSearch } from './exact.ts';
import { withFloats } from './floats.ts';
import { compareScores, scoreOf, type Score } from './objective.ts';
import { pushPerishables } from './perish.ts';
import { endFrom, NEVER } from './length.ts';
import { obstacleFor, windowObstacle } from './obstacles.ts';
import { place, type Assignment } from './place.ts';
import { plainModelOf } from './plain/from-problem.ts';
import type { PlainModel } from './plain/model.ts';
import { solvePlain } from './plain/solve-plain.ts';
import type { Obstacle, Problem, Schedule } from './problem.ts';
import { improvePlan } from './search.ts';
import { earliestStarts, latestStarts } from './windows.ts';

export interface SolveOptions {
  /** Most schedules generated, repairs of a pass included; at least one pass is made. */
  readonly schedules: number;
  readonly seed: number;
  readonly onBetter?: (schedule: Schedule) => void;
  readonly shouldStop?: () => boolean;
}

export interface Found {
  readonly plan: Assignment | null;
  readonly score: Score | null;
  readonly obstacle: Obstacle | null;
  readonly generated: number;
}

/** Raises tried for a window that may lapse before its repair is taken. */
const PATIENCE = 8;

/** Choices that a first plan may use, in order: repairs and overtime only where they help. */
const TIERS = [
  { patience: PATIENCE, allowOvertime: false },
  { patience: PATIENCE, allowOvertime: true },
  { patience: 0, allowOvertime: false },
  { patience: 0, allowOvertime: true },
] as const;

/** One good plan by urgency, from the stated moment on. */
export function firstPlan(compiled: Compiled, from: number): Found {
  const windows = earliestStarts(compiled, { from, modeOf: null, order: [] });
  if (windows.broken >= 0) {
    const own = brokenStage(compiled, windows.broken, from);
    const obstacle =
      windows.window && own.reason === 'beyond-horizon'
        ? windowObstacle(compiled, windows.window)
        : own;
    return { plan: null, score: null, obstacle, generated: 0 };
  }
  const priority = latestStarts(compiled, { from, modeOf: null, order: [] });
  const has = {
    repair: compiled.stages.some((stage) => stage.modes.some((mode) => mode.repair)),
    overtime: compiled.stages.some((stage) => stage.modes.some((mode) => mode.overtimeMinutes > 0)),
  };
  let best: Found = { plan: null, score: null, obstacle: null, generated: 0 };
  for (const tier of TIERS) {
    if ((tier.patience === 0 && !has.repair) || (tier.allowOvertime && !has.overtime)) continue;
    const result = place(compiled, {
      from,
      priority,
      modeOf: null,
      earliest: windows.earliest,
      ...tier,
    });
    const generated = best.generated + result.generated;
    if (!result.ok) {
      best = { ...best, obstacle: best.obstacle ?? result.obstacle, generated };
      continue;
    }
    const score = scoreOf(compiled, result.plan);
    const better = best.score === null || compareScores(score, best.score) < 0;
    best = better
      ? { plan: result.plan, score, obstacle: null, generated }
      : { ...best, generated };
    if (score.late === 0) break;
  }
  return best;
}

function brokenStage(compiled: Compiled, stage: number, from: number): Obstacle {
  const { spec, modes } = compiled.stages[stage]!;
  const mode = modes[0];
  const own = mode ? obstacleFor(compiled, stage, mode, from) : null;
  if (own && own.reason !== 'beyond-horizon') return own;
  const upstream = brokenUpstream(compiled, stage, from);
  if (upstream) return upstream;
  return own ?? { stage: spec.id, reason: 'no-mode', detail: `Nobody can do ${spec.name}.` };
}

/** A stage that never ends or never opens makes all that follow it late without end: name it. */
function brokenUpstream(compiled: Compiled, stage: number, from: number): Obstacle | null {
  for (const i of compiled.topological) {
    if (i === stage) continue;
    const { modes } = compiled.stages[i]!;
    if (modes.length === 0) continue;
    const obstacles = modes.map((mode) => obstacleFor(compiled, i, mode, from));
    const [first] = obstacles;
    if (first && obstacles.every((o) => o.reason !== 'beyond-horizon')) return first;
  }
  return null;
}

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
  const late: Assignment = { ...plan, start: [...plan.start], end: [...plan.end] };
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

/**
 * Plans a problem: the best plan found within a count of schedules, or what stands in the way.
 * Deterministic for a seed. Bounded in time for any input.
 * @throws Error when a relation names a stage that does not exist.
 */
export function solve(problem: Problem, options: SolveOptions): Schedule {
  const compiled = compile(problem);
  if (compiled.obstacles.length > 0) {
    return { ...blocked(compiled.obstacles, 0), provenBest: true };
  }
  const plain = options.schedules > 1 ? plainModelOf(compiled) : null;
  if (plain) return solveAsPlain(compiled, plain, options);
  let found = firstPlan(compiled, problem.from);
  if (!found.plan) {
    const searched = searchFor(compiled, found, options);
    found = searched.found;
    if (!found.plan) {
      const obstacles = found.obstacle ? [found.obstacle] : [];
      return { ...blocked(obstacles, found.generated), provenBest: searched.exhausted };
    }
  }
  const first = toSchedule(compiled, found.plan, found.generated, false);
  options.onBetter?.(first);
  const left = options.schedules - found.generated;
  if (left <= 0) return first;
  const result = improvePlan(
    compiled,
    { plan: found.plan, score: found.score! },
    {
      from: problem.from,
      schedules: left,
      seed: options.seed,
      shouldStop: options.shouldStop,
      onBetter: (plan) => options.onBetter?.(toSchedule(compiled, plan, found.generated, false)),
    },
  );
  const generated = found.generated + result.generated;
  const schedule = toSchedule(compiled, result.plan, generated, result.proven);
  return { ...schedule, gapMinutes: result.score.end - earliestEnd(compiled, problem.from) };
}

/** Nodes that even a first answer may spend before it says that nothing fits together. */
const LEAST_NODES = 60;

/** The complete search where urgency alone found no plan: for any plan, or for the proof of none. */
function searchFor(compiled: Compiled, found: Found, options: SolveOptions) {
  const { from } = compiled.problem;
  const nodes = Math.max(LEAST_NODES, options.schedules - found.generated);
  const { shouldStop } = options;
  const result = exactSearch(compiled, {
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
    const detail = result.infeasible
      ? 'No order of the stages keeps every window with the people and gear there are.'
      : 'No order of the stages was found that keeps every window.';
    const obstacle: Obstacle = { stage, reason: 'window-cannot-hold', detail };
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
  const schedule = { ...toSchedule(compiled, plan, result.generated, proven), gapMinutes };
  options.onBetter?.(schedule);
  return schedule;
}

/** True when all that is not yet begun still fits when started at or after `from`. */
export function fitsFrom(problem: Problem, from: number): boolean {
  const compiled = compile(problem);
  if (compiled.obstacles.length > 0) return false;
  return firstPlan(compiled, Math.max(from, problem.from)).score?.late === 0;
}
