/** The last moment at which all that is not yet begun can still be done in time. */
import { mapYields, type Interruptible } from './generators.ts';
import { compile, type Compiled } from './compile.ts';
import { planPasses, type PlanPasses } from './floats.ts';
import { exactSearch } from './exact.ts';
import { endFrom, FAR } from './length.ts';
import { ANY_LATE } from './objective.ts';
import { peopleOf } from './people.ts';
import type { Assignment } from './serial.ts';
import type { Minute } from '../time/instant.ts';
import type { Placed, Problem } from './problem.ts';
import { firstPlan, type Found } from './first.ts';
import { forSize } from './forSize.ts';
import { refuted } from './refute.ts';
import { improveSteps } from './search.ts';
import { tieOf } from './tight.ts';
import { earliestStarts, fixedEndOf, latestStarts } from './windows.ts';

export interface Closing {
  /** Largest minute for which a plan was verified; null when none fits even at once. */
  readonly minute: Minute | null;
  /** True when no later minute is possible; false: at least that minute. */
  readonly proven: boolean;
  /**
   * The stage that cannot wait any longer and what holds it: a resource id, `air` or `time` (the
   * lengths and lags alone).
   */
  readonly closedBy: { readonly stage: string; readonly resource: string } | null;
  /** The plan that was verified, begun at that minute; null when it was found by other means. */
  readonly fitting: readonly Placed[] | null;
}

/** Plans tried between the verified moment and the bound; each halves what is left between. */
const MOST_TRIALS = 18;
/** Searches that follow where single passes stop short of the bound, and schedules for each. */
const MOST_SEARCHES = 5;
const SEARCH_SCHEDULES = 400;
const SEARCH_SEED = 1;
/** Branches spent on the proof that the minute after is too late. */
const PROOF_NODES = 80;
/** Schedules that even the largest network has for each of those searches. */
const LEAST_SCHEDULES = 10;

const proofNodes = ({ stages }: Compiled): number => forSize(PROOF_NODES, stages.length);

const isOpen = (compiled: Compiled, i: number): boolean =>
  compiled.stages[i]!.spec.fixedStart === null;

function leastLatest(
  compiled: Compiled,
  latest: readonly number[],
): { minute: number; stage: number } {
  let stage = -1;
  for (let i = 0; i < latest.length; i++) {
    if (!isOpen(compiled, i)) continue;
    if (stage < 0 || latest[i]! < latest[stage]!) stage = i;
  }
  return { stage, minute: stage < 0 ? FAR : latest[stage]! };
}

interface Verified {
  readonly minute: number;
  readonly stage: number;
  readonly plan: Assignment;
  readonly passes: PlanPasses;
}

/** A fitting plan pushed as late as its own order allows: all of it at or after its first start. */
function verify(compiled: Compiled, found: Found, from: number): Verified | null {
  if (!found.plan || found.score!.late > 0) return null;
  const passes = planPasses(compiled, found.plan);
  const { minute, stage } = leastLatest(compiled, passes.latest);
  return { minute: Math.max(from, minute), stage, plan: found.plan, passes };
}

/** Every plan that fits has each open stage start at or before this bound by relations alone. */
function upperBound(compiled: Compiled): { minute: number; stage: number } {
  const latest = latestStarts(compiled, { from: compiled.problem.from, modeOf: null, order: [] });
  return leastLatest(compiled, latest);
}

/** The largest minute up to `high` that certain orders alone do not refute; `low` is known to fit. */
function bisect(low: number, high: number, refutedAt: (minute: number) => boolean): number {
  let [from, to] = [low, high];
  while (from < to) {
    const middle = from + Math.ceil((to - from) / 2);
    if (refutedAt(middle)) to = middle - 1;
    else from = middle;
  }
  return from;
}

/**
 * The largest minute t for which a plan exists that has every open stage at or after t and meets
 * the due moments. Bounded in time; `proven` when the minute after is refuted. As a generator: null where
 * the caller may stop it.
 * @param fitsFrom a moment from which a plan is known to fit, however it was found
 */
export function* closingSteps(
  problem: Problem,
  fitsFrom: Minute | null = null,
): Interruptible<null, Closing> {
  const compiled = compile(problem);
  if (compiled.obstacles.length > 0)
    return { minute: null, proven: true, closedBy: null, fitting: null };
  const bound = upperBound(compiled);
  const first = firstPlan(compiled, problem.from);
  const fitting = verify(compiled, first, problem.from);
  if (!fitting) return neverOpen(compiled, first, bound);
  const reach: Reach = { best: fitting, low: fitting.minute, high: bound.minute };
  if (reach.low < reach.high) {
    reach.high = bisect(reach.low, reach.high, (minute) => refuted(compiled, minute, 1));
    yield* climb(compiled, reach, MOST_TRIALS, function* (minute): Interruptible<null, Found> {
      yield null;
      return firstPlan(compiled, minute);
    });
  }
  reach.low = Math.max(reach.low, Math.min(fitsFrom ?? reach.low, reach.high));
  // Most first passes end at the last moment there is: the proof comes before the longer search.
  let proven = isLast(compiled, reach);
  if (!proven) {
    const { low } = reach;
    yield* climb(compiled, reach, MOST_SEARCHES, (minute) => searched(compiled, minute));
    proven = reach.low > low && isLast(compiled, reach);
  }
  const { best, low } = reach;
  const byRelations = low >= bound.minute;
  return {
    minute: low === FAR ? null : low,
    proven,
    closedBy:
      byRelations && bound.stage >= 0 ? byTime(compiled, bound.stage) : closedBy(compiled, best),
    fitting: best.minute >= low && low !== FAR ? begunAt(compiled, best, low) : null,
  };
}

/** The verified plan in its own order and modes, as soon as may be from a moment on. */
function begunAt(compiled: Compiled, { plan, passes }: Verified, from: number): Placed[] | null {
  if (plan.missedPins.length > 0) return null;
  const modeOf = compiled.stages.map((stage) =>
    stage.modes.length > 0 ? plan.mode[stage.index]! : -1,
  );
  const { order, sequence } = passes;
  const { earliest, broken } = earliestStarts(compiled, { from, modeOf, order, sequence });
  if (broken >= 0) return null;
  const end = compiled.stages.map((stage, i) => {
    const mode = stage.modes[modeOf[i]!];
    const fixed = stage.spec.fixedStart !== null || !mode;
    return fixed ? fixedEndOf(stage, mode) : endFrom(mode, earliest[i]!);
  });
  const people = peopleOf(compiled, { start: earliest, end, mode: modeOf });
  const own = compiled.stages.filter((stage) => !stage.busy);
  return own.map(({ index: i, spec, modes }) => ({
    stage: spec.id,
    mode: modes[modeOf[i]!]?.spec.id ?? '',
    start: earliest[i]!,
    end: end[i]!,
    ...(people.has(i) ? { people: people.get(i)! } : {}),
  }));
}

/** How late a plan has been found, and the bound that no plan passes. */
interface Reach {
  best: Verified;
  low: number;
  high: number;
}

/** Looks for later plans between the two; the bound itself is the likeliest answer, so it comes first. */
function* climb(
  compiled: Compiled,
  reach: Reach,
  trials: number,
  planFrom: (minute: number) => Interruptible<null, Found>,
): Interruptible<null, void> {
  let { high } = reach;
  for (let trial = 0; trial < trials && reach.low < high; trial++) {
    const middle = trial === 0 ? high : reach.low + Math.ceil((high - reach.low) / 2);
    const next = verify(compiled, yield* planFrom(middle), middle);
    if (next) {
      reach.best = next;
      reach.low = Math.max(reach.low, next.minute);
    } else high = middle - 1;
  }
}

/** A first plan from a moment on, searched over until it fits. */
function* searched(compiled: Compiled, from: number): Interruptible<null, Found> {
  const found = firstPlan(compiled, from);
  if (!found.plan || found.score!.late === 0) return found;
  const first = { plan: found.plan, score: found.score! };
  const steps = improveSteps(compiled, first, {
    from,
    schedules: forSize(SEARCH_SCHEDULES, compiled.stages.length, LEAST_SCHEDULES),
    seed: SEARCH_SEED,
    stopWhenFits: true,
  });
  const { plan, score } = yield* mapYields(steps, () => null);
  return { ...found, plan, score };
}

/** True when nothing fits from the minute after the best plan on, as far as a short proof goes. */
const isLast = (compiled: Compiled, { low, high }: Reach): boolean =>
  low >= high ||
  refuted(compiled, low + 1, proofNodes(compiled)) ||
  exhaustivelyRefuted(compiled, low + 1);

/** True when the complete search shows within a few nodes that nothing fits from a moment on. */
function exhaustivelyRefuted(compiled: Compiled, from: number): boolean {
  const result = exactSearch(compiled, {
    from,
    nodes: proofNodes(compiled),
    better: ANY_LATE,
    stopWhenFits: true,
  });
  return result.exhausted && result.plan === null;
}

const byTime = (compiled: Compiled, stage: number) => ({
  stage: compiled.stages[stage]!.spec.id,
  resource: 'time',
});

function neverOpen(
  compiled: Compiled,
  found: Found,
  bound: { minute: number; stage: number },
): Closing {
  const proven = bound.minute < compiled.problem.from;
  if (proven && bound.stage >= 0)
    return { minute: null, proven, closedBy: byTime(compiled, bound.stage), fitting: null };
  if (!found.plan) {
    const stage = found.obstacle?.stage ?? compiled.stages[bound.stage]?.spec.id ?? '';
    return { minute: null, proven, closedBy: { stage, resource: 'time' }, fitting: null };
  }
  const passes = planPasses(compiled, found.plan);
  const { stage, minute } = leastLatest(compiled, passes.latest);
  return {
    minute: null,
    proven,
    closedBy: stage < 0 ? null : closedBy(compiled, { plan: found.plan, passes, stage, minute }),
    fitting: null,
  };
}

/** Follows what ties the stage to its limit; the first resource handed on along the way is it. */
function closedBy(
  compiled: Compiled,
  verified: Verified,
): { stage: string; resource: string } | null {
  if (verified.stage < 0) return null;
  const { plan, passes } = verified;
  const stage = compiled.stages[verified.stage]!.spec.id;
  let at = verified.stage;
  for (let steps = 0; steps <= compiled.stages.length; steps++) {
    const tie = tieOf(compiled, plan, passes, at);
    if (!tie) break;
    if (tie.resource !== null) return { stage, resource: resourceName(compiled, tie.resource) };
    at = tie.to;
  }
  return { stage, resource: 'time' };
}

/** A resource's id, one of a group of people for all of them, or the room's air. */
function resourceName({ problem, groups }: Compiled, resource: number): string {
  if (resource < 0) return 'air';
  const own = problem.resources[resource];
  return own ? own.id : (groups.find((group) => group.resource === resource)?.people[0] ?? 'air');
}
