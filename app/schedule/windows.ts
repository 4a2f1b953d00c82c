/**
 * Earliest and latest starts by relations alone, propagated both ways to a fixed point. Resources
 * come in as extra order arcs of a plan; a stage without a chosen mode takes its best in each way.
 */
import { memoByObject } from '../document/memo.ts';
import type { Arc, Compiled, PlanMode, PlanStage } from './compile.ts';
import {
  endFrom,
  FAR,
  NEVER,
  startFrom,
  startToEndBy,
  startToEndFrom,
  startUpTo,
} from './length.ts';

/** `to` starts at or after the end of `from`, plus a settling time: the plan's own order. */
export interface OrderArc {
  readonly from: number;
  readonly to: number;
  readonly gap: number;
  /** Index of the resource behind it; -1 for the room's air. */
  readonly resource: number;
}

export interface Windows {
  readonly earliest: number[];
  /** Stage that cannot start within the calendars, -1 when there is none. */
  readonly broken: number;
  /** The greatest lag that raised a stage last; null when none did. */
  readonly window: Arc | null;
  /** Rounds over all stages that it took: many where a window moves on by one shift a round. */
  readonly sweeps: number;
}

export interface WindowOptions {
  readonly from: number;
  /** Mode of each stage as an index into its `modes`; null or -1: any. */
  readonly modeOf: readonly number[] | null;
  readonly order: readonly OrderArc[];
  /** The same by target, where it is known. */
  readonly orderInto?: readonly (readonly OrderArc[])[];
  /** Order of the sweeps; any order gives the same answer, a plan's own order gives it soonest. */
  readonly sequence?: readonly number[];
  /** Starts known to be no later than the answer: a search hands on what it has. */
  readonly atLeast?: readonly number[];
  /** A start raised beyond this is of no use to the caller: the propagation ends there as broken. */
  readonly notAfter?: number;
  /** A latest start lowered below its stage's own of these ends the sweeps: there is no room. */
  readonly notBefore?: readonly number[];
}

const sweepLimit = (stages: number): number => 4 * stages + 60;

/** Usable modes of a stage under a choice. */
export function modesOf(stage: PlanStage, modeOf: readonly number[] | null): readonly PlanMode[] {
  const chosen = modeOf ? modeOf[stage.index]! : -1;
  return chosen >= 0 ? [stage.modes[chosen]!] : stage.modes;
}

/** The same without those that begin and end like another one: who does it is nothing to a window. */
function shapesOf(stage: PlanStage, modeOf: readonly number[] | null): readonly PlanMode[] {
  const modes = modesOf(stage, modeOf);
  return modes.length === 1 ? modes : shapesAmong(modes);
}

const shapesAmong = memoByObject((modes: readonly PlanMode[]): readonly PlanMode[] =>
  modes.filter((mode, m) => !modes.slice(0, m).some((other) => runsLike(mode, other))),
);

const runsLike = (a: PlanMode, b: PlanMode): boolean =>
  a.kind === b.kind &&
  a.minutes === b.minutes &&
  a.table === b.table &&
  a.starts === b.starts &&
  a.endOf === b.endOf &&
  a.latestStart === b.latestStart;

/** True when the arc binds under the choice of modes; an open choice leaves a condition off. */
export function binds(arc: Arc, compiled: Compiled, modeOf: readonly number[] | null): boolean {
  if (arc.ifStage < 0) return true;
  const chosen = modeOf ? modeOf[arc.ifStage]! : -1;
  return chosen >= 0 && compiled.stages[arc.ifStage]!.modes[chosen]!.index === arc.ifMode;
}

/** Earliest start at or after `minute` over the modes; FAR when none is left. */
function earliestStart(modes: readonly PlanMode[], minute: number): number {
  let best = FAR;
  for (const mode of modes) {
    const start = startFrom(mode, minute);
    if (start !== NEVER && start < best) best = start;
  }
  return best;
}

/** Earliest end over the modes for a start at or after `minute`; FAR when it never ends. */
function earliestEnd(modes: readonly PlanMode[], minute: number): number {
  let best = FAR;
  for (const mode of modes) {
    const start = startFrom(mode, minute);
    if (start === NEVER) continue;
    const end = endFrom(mode, start);
    if (end !== NEVER && end < best) best = end;
  }
  return best;
}

/** The least value of start(to) that an at-least arc allows, given the least start of its source. */
export function arcFloor(arc: Arc, anchor: number): number {
  if (anchor >= FAR) return FAR;
  return arc.map ? (arc.map.apply(anchor) ?? FAR) : anchor + arc.lag;
}

/** The greatest value of start(to) that an at-most arc allows; FAR for no limit. */
export function arcCeiling(arc: Arc, anchor: number): number {
  return arc.map ? (arc.map.apply(anchor) ?? FAR) : anchor + arc.lag;
}

/** The least anchor of the source for which an at-most arc lets its target start at `minute`. */
export function anchorFor(arc: Arc, minute: number): number {
  return arc.map ? (arc.map.earliest(minute) ?? FAR) : minute - arc.lag;
}

/** The greatest anchor of the source after which an at-least arc lets its target start at `minute`. */
export function anchorBefore(arc: Arc, minute: number): number {
  return arc.map ? (arc.map.latest(minute) ?? NEVER) : minute - arc.lag;
}

/** Least start of a stage whose end is to be at or after `end`, over the modes. */
export function startForEnd(modes: readonly PlanMode[], end: number, from: number): number {
  if (end >= FAR) return FAR;
  let best = FAR;
  for (const mode of modes) {
    const start = startToEndFrom(mode, end, from);
    if (start !== NEVER && start < best) best = start;
  }
  return best;
}

/** End of a stage whose start is fixed: recorded, or its mode's own. */
export function fixedEndOf(stage: PlanStage, mode: PlanMode | undefined): number {
  const { fixedStart, fixedEnd } = stage.spec;
  if (fixedEnd !== null) return fixedEnd;
  if (!mode) return fixedStart!;
  const end = endFrom(mode, fixedStart!);
  return end === NEVER ? fixedStart! : end;
}

function fixedEarliestEnd(stage: PlanStage, modes: readonly PlanMode[]): number {
  if (stage.spec.fixedEnd !== null || modes.length === 0) return fixedEndOf(stage, undefined);
  return Math.min(...modes.map((mode) => fixedEndOf(stage, mode)));
}

/** Earliest starts from `from`; FAR marks a stage that cannot start within the calendars. */
export function earliestStarts(compiled: Compiled, options: WindowOptions): Windows {
  const { stages } = compiled;
  const modes = stages.map((stage) => shapesOf(stage, options.modeOf));
  const earliest = stages.map((stage, i) =>
    stage.spec.fixedStart !== null
      ? stage.spec.fixedStart
      : earliestStart(
          modes[i]!,
          Math.max(
            options.from,
            stage.spec.release ?? options.from,
            options.atLeast?.[i] ?? options.from,
          ),
        ),
  );
  // Ends are asked for far more often than starts change.
  const ends = new Array<number>(stages.length).fill(NEVER);
  const endOf = (i: number): number => {
    if (ends[i] === NEVER) ends[i] = firstEnd(stages[i]!, modes[i]!, earliest[i]!);
    return ends[i]!;
  };
  let changed: boolean;
  const news = newsOf(stages.length);
  let window: Arc | null = null;
  let beyond = -1;
  const notAfter = options.notAfter ?? FAR;
  const raise = (i: number, minute: number): void => {
    if (minute <= earliest[i]! || stages[i]!.spec.fixedStart !== null) return;
    const start = minute >= FAR ? FAR : earliestStart(modes[i]!, minute);
    if (start > earliest[i]!) {
      earliest[i] = start;
      ends[i] = NEVER;
      changed = true;
      news.moved(i);
      if (start > notAfter) beyond = i;
    }
  };
  const order = options.orderInto ?? orderByTarget(stages.length, options.order);
  const limit = sweepLimit(stages.length);
  let sweeps = 0;
  while (sweeps < limit) {
    sweeps++;
    changed = false;
    for (const i of options.sequence ?? compiled.topological) {
      const since = news.lookAt(i);
      for (const arc of order?.[i] ?? NO_ORDER) {
        if (news.hasMoved(arc.from, since)) raise(i, endOf(arc.from) + arc.gap);
      }
      for (const arc of compiled.arcsInto[i]!) {
        const isNews = news.hasMoved(arc.from, since) || (!arc.atLeast && news.hasMoved(i, since));
        if (!isNews || !binds(arc, compiled, options.modeOf)) continue;
        if (arc.atLeast)
          raise(i, arcFloor(arc, arc.fromEnd ? endOf(arc.from) : earliest[arc.from]!));
        else if (earliest[i]! < FAR && earliest[i]! > NEVER) {
          const anchor = anchorFor(arc, earliest[i]!);
          const before = earliest[arc.from]!;
          raise(arc.from, arc.fromEnd ? startForEnd(modes[arc.from]!, anchor, before) : anchor);
          if (earliest[arc.from]! > before) window = arc;
        }
      }
    }
    if (beyond >= 0) return { earliest, broken: beyond, window, sweeps };
    if (!changed) break;
    if (sweeps === limit) return { earliest, broken: mostRaised(earliest), window, sweeps };
  }
  return { earliest, broken: earliest.findIndex((minute) => minute >= FAR), window, sweeps };
}

/** When each stage moved last and was looked at last: an arc between two that have not moved says nothing new. */
function newsOf(stages: number) {
  let count = 1;
  const movedAt = new Int32Array(stages).fill(1);
  const seenAt = new Int32Array(stages);
  return {
    moved: (i: number): void => {
      movedAt[i] = ++count;
    },
    /** Begins a look at a stage: what moves from here on is news at the next one. */
    lookAt: (i: number): number => {
      const since = seenAt[i]!;
      seenAt[i] = count;
      return since;
    },
    hasMoved: (i: number, since: number): boolean => movedAt[i]! > since,
  };
}

const mostRaised = (earliest: readonly number[]): number => earliest.indexOf(Math.max(...earliest));

const NO_ORDER: readonly OrderArc[] = [];

function orderByTarget(count: number, order: readonly OrderArc[]): OrderArc[][] | null {
  if (order.length === 0) return null;
  const grouped = Array.from({ length: count }, (): OrderArc[] => []);
  for (const arc of order) grouped[arc.to]!.push(arc);
  return grouped;
}

function firstEnd(stage: PlanStage, modes: readonly PlanMode[], start: number): number {
  if (start >= FAR) return FAR;
  if (stage.spec.fixedStart !== null) return fixedEarliestEnd(stage, modes);
  return earliestEnd(modes, start);
}

/** Latest end that a stage's own due moment and the problem's leave it; another job is never late. */
export const dueOf = (compiled: Compiled, stage: PlanStage): number =>
  stage.busy ? FAR : Math.min(stage.spec.due ?? compiled.problem.due, compiled.problem.due);

/** Latest starts by which every stage is done by its due moment; NEVER where there is none. */
export function latestStarts(compiled: Compiled, options: WindowOptions): number[] {
  const { stages } = compiled;
  const modes = stages.map((stage) => shapesOf(stage, options.modeOf));
  const latest = stages.map((stage, i) => {
    if (stage.spec.fixedStart !== null) return stage.spec.fixedStart;
    return latestStart(modes[i]!, dueOf(compiled, stage), FAR);
  });
  let changed: boolean;
  const news = newsOf(stages.length);
  let roomless = false;
  const { notBefore } = options;
  const lower = (i: number, start: number): void => {
    if (start >= latest[i]! || stages[i]!.spec.fixedStart !== null) return;
    latest[i] = start;
    changed = true;
    news.moved(i);
    if (notBefore && start < notBefore[i]!) roomless = true;
  };
  const lowerEnd = (i: number, end: number): void => {
    if (end === NEVER) lower(i, NEVER);
    else lower(i, latestStart(modes[i]!, end, latest[i]!));
  };
  const lowerStart = (i: number, minute: number): void => {
    if (minute < latest[i]!) lower(i, minute === NEVER ? NEVER : latestUpTo(modes[i]!, minute));
  };
  const endAt = (i: number): number => {
    if (stages[i]!.spec.fixedStart !== null) return fixedEarliestEnd(stages[i]!, modes[i]!);
    let end = NEVER;
    for (const mode of modes[i]!) {
      const start = startUpTo(mode, latest[i]!);
      if (start !== NEVER) end = Math.max(end, endFrom(mode, start));
    }
    return end;
  };
  const order = orderByTarget(stages.length, options.order);
  const sequence = options.sequence ?? compiled.topological;
  const limit = sweepLimit(stages.length);
  for (let sweep = 0; sweep < limit; sweep++) {
    changed = false;
    for (let k = sequence.length - 1; k >= 0; k--) {
      const i = sequence[k]!;
      const since = news.lookAt(i);
      for (const arc of order?.[i] ?? NO_ORDER) {
        if (!news.hasMoved(i, since)) break;
        lowerEnd(arc.from, latest[i]! === NEVER ? NEVER : latest[i]! - arc.gap);
      }
      for (const arc of compiled.arcsInto[i]!) {
        if (!news.hasMoved(arc.atLeast ? i : arc.from, since)) continue;
        if (!binds(arc, compiled, options.modeOf)) continue;
        if (!arc.atLeast) {
          if (latest[arc.from]! === NEVER) continue;
          const anchor = arc.fromEnd ? endAt(arc.from) : latest[arc.from]!;
          if (anchor !== NEVER) lowerStart(i, arcCeiling(arc, anchor));
          continue;
        }
        const anchor = latest[i]! === NEVER ? NEVER : anchorBefore(arc, latest[i]!);
        if (arc.fromEnd) lowerEnd(arc.from, anchor);
        else lowerStart(arc.from, anchor);
      }
    }
    if (!changed || roomless) break;
  }
  return latest;
}

function latestStart(modes: readonly PlanMode[], end: number, notAfter: number): number {
  let best = NEVER;
  for (const mode of modes) best = Math.max(best, startToEndBy(mode, end));
  return Math.min(best, notAfter);
}

function latestUpTo(modes: readonly PlanMode[], minute: number): number {
  let best = NEVER;
  for (const mode of modes) best = Math.max(best, startUpTo(mode, minute));
  return best;
}
