/**
 * One plan run again and again with other lengths: earliest starts over its own relations and its own
 * resource order. Made for thousands of runs, so everything that does not change is laid out once.
 */
import { readStageId } from '../document/ids.ts';
import { relationWords } from '../messages/relations.ts';
import { compile, type Arc, type Compiled, type PlanMode } from '../schedule/compile.ts';
import { endFrom, FAR, NEVER, startFrom, startToEndFrom } from '../schedule/length.ts';
import { resourceOrder } from '../schedule/order.ts';
import type { Length, MonotoneMap, Placed, Problem, Relation } from '../schedule/problem.ts';
import { binds, fixedEndOf, type OrderArc } from '../schedule/windows.ts';
import { tableAddWork } from '../time/calendar.ts';

type Writable<T> = { -readonly [K in keyof T]: T[K] };

/** A booked slot: coming later than its grace costs another wait in the party's own hours. */
export interface Slot {
  readonly stage: string;
  readonly graceMinutes: number;
  readonly rebookMinutes: number;
}

interface RunArc {
  readonly arc: Arc;
  map: MonotoneMap | null;
  /** The last anchor asked for and the result: an anchor seldom changes within a run. */
  lastAnchor: number;
  lastValue: number;
}

export interface Replayer {
  readonly stages: readonly string[];
  /** Lengths as planned, minutes; 0 for a cure or wait whose end depends on its start. */
  readonly planned: Int32Array;
  /** Lengths of the next run, minutes; written by the caller. */
  readonly minutes: Int32Array;
  readonly start: Int32Array;
  readonly end: Int32Array;
  /** Runs once; the end of the last stage, or FAR when something never ends. */
  readonly run: () => number;
  /** Takes the lengths and lags of cures from another problem with the same stages and relations. */
  readonly useChemistryOf: (problem: Problem) => void;
}

/**
 * Lays a placed plan out for replays.
 * @param placed every stage of the problem with its mode and times
 * @throws RangeError when a stage of the problem is not placed
 */
export function replayer(
  problem: Problem,
  placed: readonly Placed[],
  slots: readonly Slot[] = [],
): Replayer {
  const compiled = compile(problem);
  const at = new Map([...placed, ...busySpots(compiled)].map((one) => [one.stage, one]));
  const modeOf = compiled.stages.map((stage) => {
    const one = at.get(stage.spec.id);
    if (!one) throw new RangeError(`${stage.spec.id} is not placed`);
    return Math.max(
      0,
      stage.modes.findIndex((mode) => mode.spec.id === one.mode),
    );
  });
  const starts = compiled.stages.map((stage) => at.get(stage.spec.id)!.start);
  const ends = compiled.stages.map((stage) => at.get(stage.spec.id)!.end);
  const sequence = compiled.stages
    .map((stage) => stage.index)
    .sort((a, b) => starts[a]! - starts[b]! || compiled.stages[a]!.rank - compiled.stages[b]!.rank);
  const assignment = { start: starts, end: ends, mode: modeOf, sequence, missedPins: [] };
  const order = resourceOrder(compiled, assignment);
  const lengths = starts.map((start, i) => ends[i]! - start);
  return layOut(compiled, { modeOf, order, sequence, slots, lengths });
}

/** Where other jobs stand: what they have is free again when they end. */
const busySpots = ({ stages }: Compiled): Placed[] =>
  stages
    .filter((stage) => stage.busy)
    .map(({ spec: { id, modes, fixedStart, fixedEnd } }) => ({
      stage: id,
      mode: modes[0]!.id,
      start: fixedStart!,
      end: fixedEnd!,
    }));

/** The end of what has no place yet in a run. */
const UNPLACED = NEVER;
/** Sweeps after which a window that still cannot hold is ignored in that run. */
const WINDOW_SWEEPS = 24;
const SWEEPS = 120;
/** Days tried for work that has to go on into the next without a break. */
const MOST_TRIES = 60;

/** Work by the clock that is begun the moment other unbroken work ends: the watched bag. */
function tiedTo(compiled: Compiled, modes: readonly (PlanMode | null)[]): Map<number, number> {
  const tied = new Map<number, number>();
  for (const arc of compiled.arcs) {
    const exact = !arc.atLeast && arc.fromEnd && arc.map === null && arc.lag === 0;
    const unbroken = (i: number) => modes[i]?.kind === 'unbroken';
    if (exact && unbroken(arc.from) && unbroken(arc.to)) tied.set(arc.from, arc.to);
  }
  return tied;
}

/** The window of a look at the gel may be missed in a replay: the look is then late, the plan goes on. */
const isLook = (arc: Arc): boolean => !arc.atLeast && readStageId(arc.spec.to)?.what === 'gel-look';

const relationKey = ({ type, from, anchor, to, onlyIf, why }: Relation): string =>
  [type, from, anchor, to, onlyIf?.stage, onlyIf?.mode, relationWords(why)].join('\n');

/** What a room changes: the map of each arc and the length of each stage; undefined: as it was. */
interface RoomChemistry {
  readonly maps: readonly (MonotoneMap | null | undefined)[];
  readonly lengths: readonly (Extract<Length, { kind: 'function' }> | undefined)[];
}

interface Layout {
  readonly modeOf: readonly number[];
  readonly order: readonly OrderArc[];
  readonly sequence: readonly number[];
  readonly slots: readonly Slot[];
  /** Minutes from start to end of each stage as it was placed. */
  readonly lengths: readonly number[];
}

function layOut(compiled: Compiled, { modeOf, order, sequence, slots, lengths }: Layout): Replayer {
  const { stages, problem } = compiled;
  const count = stages.length;
  const modes = stages.map((stage, i): Writable<PlanMode> | null => {
    const mode = stage.modes[modeOf[i]!];
    return mode ? { ...mode } : null;
  });
  const planned = Int32Array.from(modes, (mode, i) =>
    mode?.kind === 'function' ? lengths[i]! : (mode?.minutes ?? 0),
  );
  const minutes = planned.slice();
  const start = new Int32Array(count);
  const end = new Int32Array(count);
  const slotOf = stages.map((stage) => slots.find((slot) => slot.stage === stage.spec.id) ?? null);

  const orderInto: OrderArc[][] = stages.map(() => []);
  for (const arc of order) orderInto[arc.to]!.push(arc);
  const arcsInto: RunArc[][] = stages.map(() => []);
  const all = compiled.arcs
    .map((arc) => ({ arc, map: arc.map, lastAnchor: NaN, lastValue: 0 }))
    .filter(({ arc }) => binds(arc, compiled, modeOf) && !isLook(arc));
  for (const run of all) arcsInto[run.arc.to]!.push(run);
  const floorsInto = arcsInto.map((arcs) => arcs.filter(({ arc }) => arc.atLeast));
  const limitsInto = arcsInto.map((arcs) => arcs.filter(({ arc }) => !arc.atLeast));
  const tied = tiedTo(compiled, modes);
  const follows = new Set(tied.values());

  /** Unbroken work begins where its planned length fits the hours; people stay on when it runs over. */
  const begun = (i: number, mode: PlanMode, minute: number): number => {
    if (follows.has(i)) return minute;
    const next = tied.get(i);
    if (next === undefined) return startFrom(mode, minute);
    const watch = modes[next]!;
    let first = startFrom(mode, minute);
    for (let tries = 0; tries < MOST_TRIES && first !== NEVER; tries++) {
      const handed = first + mode.minutes;
      const watched = startFrom(watch, handed);
      if (watched === handed) return first;
      if (watched === NEVER) return NEVER;
      first = startToEndFrom(mode, watched, first);
    }
    return first;
  };

  /** First start at or after a minute that the stage's calendar and slot allow. */
  const aligned = (i: number, minute: number): number => {
    const mode = modes[i];
    if (!mode) return minute;
    const first = begun(i, mode, minute);
    if (first === NEVER) return FAR;
    const slot = slotOf[i];
    const opens = stages[i]!.spec.release;
    if (!slot || opens === null || first <= opens + slot.graceMinutes) return first;
    const again = mode.table ? tableAddWork(mode.table, minute, slot.rebookMinutes) : minute;
    const later = again < 0 ? NEVER : startFrom(mode, again);
    return later === NEVER ? FAR : later;
  };
  const endOf = (i: number): number => {
    const stage = stages[i]!;
    if (stage.spec.fixedStart !== null) return fixedEndOf(stage, modes[i] ?? undefined);
    const mode = modes[i];
    if (!mode) return start[i]!;
    if (start[i]! >= FAR) return FAR;
    if (mode.kind === 'unbroken') return start[i]! + minutes[i]!;
    const minute = endFrom(mode, start[i]!);
    if (minute === NEVER) return FAR;
    // What runs by itself has no work to lengthen: an order that slips comes so much later.
    return mode.kind === 'function' ? minute + minutes[i]! - planned[i]! : minute;
  };
  let changed = false;
  const raise = (i: number, minute: number): void => {
    if (minute <= start[i]! || stages[i]!.spec.fixedStart !== null) return;
    start[i] = minute >= FAR ? FAR : aligned(i, minute);
    end[i] = endOf(i);
    changed = true;
  };
  const floorOf = (run: RunArc): number => {
    const anchor = run.arc.fromEnd ? end[run.arc.from]! : start[run.arc.from]!;
    if (anchor >= FAR) return FAR;
    if (!run.map) return anchor + run.arc.lag;
    if (anchor !== run.lastAnchor) {
      run.lastValue = run.map.apply(anchor) ?? FAR;
      run.lastAnchor = anchor;
    }
    return run.lastValue;
  };
  /** Where a greatest lag would be exceeded, its source starts later. */
  const draw = (run: RunArc): void => {
    const { arc } = run;
    const to = start[arc.to]!;
    if (to >= FAR) return;
    if (run.map) {
      const anchor = arc.fromEnd ? end[arc.from]! : start[arc.from]!;
      const limit = anchor >= FAR ? FAR : (run.map.apply(anchor) ?? FAR);
      if (to <= limit) return;
    }
    const anchor = run.map ? (run.map.earliest(to) ?? FAR) : to - arc.lag;
    const mode = modes[arc.from];
    const over = mode?.kind === 'unbroken' ? minutes[arc.from]! - mode.minutes : 0;
    if (!arc.fromEnd || !mode) raise(arc.from, anchor);
    else if (anchor >= FAR) raise(arc.from, FAR);
    else if (anchor > end[arc.from]!) {
      raise(arc.from, startToEndFrom(mode, anchor - over, start[arc.from]!));
    }
  };

  /** The latest of all that a stage waits for, of what has its place in this run. */
  const waitsFor = (i: number): number => {
    let floor = UNPLACED;
    for (const arc of orderInto[i]!) {
      if (end[arc.from]! !== UNPLACED) floor = Math.max(floor, end[arc.from]! + arc.gap);
    }
    for (const one of floorsInto[i]!) {
      if (end[one.arc.from]! !== UNPLACED) floor = Math.max(floor, floorOf(one));
    }
    return floor;
  };
  /** A stage for the first time in a run, after what comes before it in the plan. */
  const begin = (i: number): void => {
    const { fixedStart, release } = stages[i]!.spec;
    const mode = modes[i];
    if (mode && mode.kind !== 'function' && mode.kind !== 'unbroken') mode.minutes = minutes[i]!;
    const opens = Math.max(problem.from, release ?? problem.from);
    // A slot that is missed is booked again from the moment at which it was missed.
    const floor = slotOf[i] ? opens : Math.max(opens, waitsFor(i));
    start[i] = fixedStart ?? (floor >= FAR ? FAR : aligned(i, floor));
    end[i] = endOf(i);
  };

  const run = (): number => {
    end.fill(UNPLACED);
    for (const i of sequence) begin(i);
    for (let sweep = 0; sweep < SWEEPS; sweep++) {
      changed = false;
      for (const i of sequence) {
        if (slotOf[i]) {
          for (const arc of orderInto[i]!) raise(i, end[arc.from]! + arc.gap);
          for (const one of floorsInto[i]!) raise(i, floorOf(one));
        } else raise(i, waitsFor(i));
        if (sweep < WINDOW_SWEEPS) for (const one of limitsInto[i]!) draw(one);
      }
      if (!changed) break;
    }
    let last = -Infinity;
    for (let i = 0; i < count; i++) if (!stages[i]!.busy) last = Math.max(last, end[i]!);
    return last;
  };

  /** Lags and lengths of the same route in another room, by what they are of. */
  const chemistryOf = ({ relations, stages: others }: Problem): RoomChemistry => {
    const lags = new Map(relations.map((relation) => [relationKey(relation), relation.lag]));
    const modesOf = new Map(others.map((stage) => [stage.id, stage.modes]));
    return {
      maps: all.map(({ arc }) => {
        const lag = lags.get(relationKey(arc.spec));
        return typeof lag === 'number' ? null : lag;
      }),
      lengths: modes.map((mode, i) => {
        if (mode?.kind !== 'function') return undefined;
        const others = modesOf.get(stages[i]!.spec.id);
        const length = others?.find((one) => one.id === mode.spec.id)?.length;
        return length?.kind === 'function' ? length : undefined;
      }),
    };
  };
  const chemistries = new Map<Problem, RoomChemistry>();
  const useChemistryOf = (other: Problem): void => {
    // In another room a rule may be laid that is not here, or the other way round: those stay as they were.
    const chemistry = chemistries.get(other) ?? chemistryOf(other);
    chemistries.set(other, chemistry);
    all.forEach((one, k) => {
      const map = chemistry.maps[k];
      if (map !== undefined) one.map = map;
      one.lastAnchor = NaN;
    });
    chemistry.lengths.forEach((length, i) => {
      const mode = modes[i];
      if (!length || !mode) return;
      mode.endOf = length.endOf;
      mode.latestStart = length.latestStart;
    });
  };
  const ids = stages.map((stage) => stage.spec.id);
  return { stages: ids, planned, minutes, start, end, run, useChemistryOf };
}
