/**
 * A problem whose modes are settled, laid out for the search by windows: each stage has one length, one
 * calendar and one need, and every relation that binds is known.
 */
import type { Arc, Compiled, PlanMode } from './compile.ts';
import { addLag, emptyClosure } from './closure.ts';
import {
  endFrom,
  FAR,
  NEVER,
  startFrom,
  startToEndBy,
  startToEndFrom,
  startUpTo,
} from './length.ts';
import type { MonotoneMap } from './problem.ts';
import { binds, fixedEndOf } from './windows.ts';

export interface Tasks {
  readonly n: number;
  readonly resources: number;
  /** Mode of each stage; null for one that is recorded or pinned. */
  readonly modes: readonly (PlanMode | null)[];
  readonly fixedStart: Int32Array;
  readonly fixedEnd: Int32Array;
  /** Least length of each stage, whenever it starts. */
  readonly least: Int32Array;
  /** 1 where the length is the same at every start and the start is free: its least says all. */
  readonly simple: Uint8Array;
  /** `demand[i * resources + k]` */
  readonly demand: Int32Array;
  readonly capacity: Int32Array;
  /** Pairs that never run at once, flat: i, j, minutes between them. */
  readonly apart: Int32Array;
  /** Stages that take time and something of which there is not enough for all. */
  readonly active: Int32Array;
  /** Relations whose minutes depend on the moment. */
  readonly moving: readonly Arc[];
  /** Lags that hold whatever the moment; null when they contradict each other. */
  readonly closure: Int32Array | null;
}

/** Steps, and else stretches, of a map looked at for its least lag. */
const MOST_STEPS = 600;
const STRETCHES = 150;

/** Lays out a problem under a choice of modes. */
export function tasksOf(compiled: Compiled, modeOf: readonly number[]): Tasks {
  const { stages, problem, capacity } = compiled;
  const n = stages.length;
  const resources = capacity.length;
  const isFixed = (i: number): boolean => stages[i]!.spec.fixedStart !== null;
  const modes = stages.map((stage, i) => (isFixed(i) ? null : stage.modes[modeOf[i]!]!));
  const fixedStart = Int32Array.from(stages, (stage) => stage.spec.fixedStart ?? NEVER);
  const fixedEnd = Int32Array.from(stages, (stage, i) =>
    isFixed(i) ? fixedEndOf(stage, stage.modes[modeOf[i]!]) : NEVER,
  );
  const least = Int32Array.from(stages, (_, i) =>
    modes[i] ? leastMinutes(modes[i], problem) : fixedEnd[i]! - fixedStart[i]!,
  );
  const simple = Uint8Array.from(modes, (mode) =>
    Number(mode === null || (mode.kind === 'elapsed' && mode.table === null)),
  );
  const demand = new Int32Array(n * resources);
  stages.forEach((stage, i) => {
    for (const use of stage.modes[modeOf[i]!]?.uses ?? []) {
      demand[i * resources + use.resource]! += use.amount;
    }
  });
  const moving: Arc[] = [];
  const closure = emptyClosure(n);
  let consistent = true;
  const know = (i: number, j: number, lag: number): void => {
    consistent &&= addLag(closure, n, i, j, lag);
  };
  for (const arc of compiled.arcs) {
    if (!binds(arc, compiled, modeOf) || (isFixed(arc.from) && isFixed(arc.to))) continue;
    const exact = arc.map === null && (!arc.fromEnd || simple[arc.from] === 1);
    if (!exact) moving.push(arc);
    if (arc.atLeast) {
      const lag = arc.map ? leastLag(arc.map, problem) : Math.ceil(arc.lag);
      know(arc.from, arc.to, lag + (arc.fromEnd ? least[arc.from]! : 0));
    } else if (exact) {
      const lag = Math.floor(arc.lag) + (arc.fromEnd ? least[arc.from]! : 0);
      know(arc.to, arc.from, -lag);
    }
  }
  const takes = (i: number): boolean =>
    (least[i]! > 0 || modes[i]?.kind === 'function') &&
    capacity.some((_, k) => demand[i * resources + k]! > 0);
  return {
    n,
    resources,
    modes,
    fixedStart,
    fixedEnd,
    least,
    simple,
    demand,
    capacity: Int32Array.from(capacity),
    apart: apartPairs(compiled, modeOf, least),
    active: Int32Array.from(stages.map((stage) => stage.index).filter(takes)),
    moving,
    closure: consistent ? closure : null,
  };
}

/** Pairs whose needs exceed a capacity together, or that want different air. */
function apartPairs(compiled: Compiled, modeOf: readonly number[], least: Int32Array): Int32Array {
  const { stages, capacity, problem } = compiled;
  const pairs: number[] = [];
  for (let i = 0; i < stages.length; i++) {
    const a = stages[i]!.modes[modeOf[i]!];
    if (!a || least[i] === 0) continue;
    for (let j = i + 1; j < stages.length; j++) {
      const b = stages[j]!.modes[modeOf[j]!];
      if (!b || least[j] === 0) continue;
      if (stages[i]!.spec.fixedStart !== null && stages[j]!.spec.fixedStart !== null) continue;
      if (a.air >= 0 && b.air >= 0 && a.air !== b.air) pairs.push(i, j, problem.airSettleMinutes);
      else if (tooMuch(a, b, capacity)) pairs.push(i, j, 0);
    }
  }
  return Int32Array.from(pairs);
}

const tooMuch = (a: PlanMode, b: PlanMode, capacity: readonly number[]): boolean =>
  a.uses.some((use) =>
    b.uses.some(
      (other) =>
        other.resource === use.resource && use.amount + other.amount > capacity[use.resource]!,
    ),
  );

interface Span {
  readonly from: number;
  readonly horizon: number;
}

/** Least minutes a mode takes, whenever it is begun. */
function leastMinutes(mode: PlanMode, { from, horizon }: Span): number {
  if (mode.kind !== 'function') return mode.minutes;
  return Math.max(0, leastStep(mode.endOf!, mode.latestStart!, from, horizon) ?? 0);
}

/** Least minutes that a map adds, whatever the moment. */
const leastLag = (map: MonotoneMap, { from, horizon }: Span): number =>
  leastStep(map.apply, map.latest, from, horizon) ?? -(horizon - from);

/**
 * On each step of a map that never falls, the last moment is the one to which it adds least. A map of very
 * many steps is bounded stretch by stretch instead.
 */
function leastStep(
  apply: (x: number) => number | null,
  latest: (y: number) => number | null,
  from: number,
  horizon: number,
): number | null {
  let least = Infinity;
  let x = from;
  for (let steps = 0; x <= horizon; steps++) {
    const y = apply(x);
    if (y === null) break;
    const last = latest(y);
    if (last === null || last < x) return null;
    if (steps === MOST_STEPS) return Math.min(least, leastByStretches(apply, x, horizon));
    least = Math.min(least, y - last);
    x = last + 1;
  }
  return least === Infinity ? null : least;
}

/** A map adds to no moment of a stretch less than to the last, counted from its value at the first. */
function leastByStretches(
  apply: (x: number) => number | null,
  from: number,
  horizon: number,
): number {
  const stretch = Math.max(1, Math.ceil((horizon - from) / STRETCHES));
  let least = Infinity;
  for (let x = from; x <= horizon; x += stretch) {
    const y = apply(x);
    if (y === null) break;
    least = Math.min(least, y - (x + stretch));
  }
  return least;
}

/** End of a stage begun at a start; FAR when it has none. */
export function taskEnd({ modes, fixedEnd }: Tasks, i: number, start: number): number {
  const mode = modes[i];
  if (!mode) return fixedEnd[i]!;
  if (mode.kind === 'elapsed') return start + mode.minutes;
  const end = endFrom(mode, start);
  return end === NEVER ? FAR : end;
}

/** First start at or after a minute; FAR when there is none. */
export function taskStartFrom({ modes, fixedStart }: Tasks, i: number, minute: number): number {
  const mode = modes[i];
  if (!mode) return minute <= fixedStart[i]! ? fixedStart[i]! : FAR;
  const start = minute >= FAR ? NEVER : startFrom(mode, minute);
  return start === NEVER ? FAR : start;
}

/** Last start at or before a minute; NEVER when there is none. */
export function taskStartUpTo({ modes, fixedStart }: Tasks, i: number, minute: number): number {
  const mode = modes[i];
  if (!mode) return minute >= fixedStart[i]! ? fixedStart[i]! : NEVER;
  return minute <= NEVER ? NEVER : startUpTo(mode, minute);
}

/** Last start with an end at or before a minute; NEVER when there is none. */
export function taskStartToEndBy(tasks: Tasks, i: number, minute: number): number {
  const mode = tasks.modes[i];
  if (!mode) return minute >= tasks.fixedEnd[i]! ? tasks.fixedStart[i]! : NEVER;
  return minute <= NEVER ? NEVER : startToEndBy(mode, minute);
}

/** First start at or after `from` with an end at or after a minute; FAR when there is none. */
export function taskStartToEndFrom(tasks: Tasks, i: number, minute: number, from: number): number {
  const mode = tasks.modes[i];
  if (!mode) return tasks.fixedEnd[i]! >= minute ? tasks.fixedStart[i]! : FAR;
  if (minute >= FAR) return FAR;
  const start = startToEndFrom(mode, minute, from);
  return start === NEVER ? FAR : start;
}
