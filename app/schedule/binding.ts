/**
 * Why a stage of a finished plan stands where it stands. Reads a problem and a placement, and asks
 * of an earlier start which rule it would break; the engine is not asked.
 */
import type { StartReason } from '../messages/relations.ts';
import { addWork, containingInterval } from '../time/calendar.ts';
import type { Calendar, Minute } from '../time/instant.ts';
import {
  byRelation,
  ownAirOf,
  type Mode,
  type Placed,
  type Problem,
  type Relation,
  type StageSpec,
} from './problem.ts';

/** One rule that keeps a stage from starting at some earlier minute. */
export type Binding =
  | { readonly kind: 'now' }
  | { readonly kind: 'release' }
  /** Nobody is in, or the work would not be done before a pause. */
  | { readonly kind: 'hours' }
  /** A rule about when it may begin. */
  | { readonly kind: 'start-window'; readonly why: StartReason }
  | { readonly kind: 'never-ends' }
  /** `other` is the stage at the other end of the relation. */
  | { readonly kind: 'relation'; readonly relation: Relation; readonly other: string }
  /** `others` are the stages, or other jobs by name, that have the resource then. */
  | { readonly kind: 'resource'; readonly resource: string; readonly others: readonly string[] }
  | { readonly kind: 'air'; readonly other: string };

/** An earlier start and the rules that it would break; none: nothing hinders it. */
export interface EarlierStart {
  readonly start: Minute;
  readonly bindings: readonly Binding[];
}

export interface StartExplanation {
  readonly spot: Placed;
  /** Its start is not the plan's choice. */
  readonly fixed: 'recorded' | 'pinned' | null;
  /** One minute earlier; null where the start is fixed or the stage has no mode. */
  readonly minuteBefore: EarlierStart | null;
  /** The last earlier minute at which hands may begin; null where there is none, or as above. */
  readonly lastOpenBefore: EarlierStart | null;
}

/** A relation with the room that the plan leaves in it. */
export interface RelationSlack {
  readonly relation: Relation;
  /** False while the mode that the relation depends on is not the chosen one. */
  readonly inForce: boolean;
  /** Minutes between the start of `to` and its limit; negative: broken; null: there is no limit. */
  readonly slackMinutes: number | null;
}

type Spots = ReadonlyMap<string, Placed>;

const spotsOf = (placed: readonly Placed[]): Map<string, Placed> =>
  new Map(placed.map((spot) => [spot.stage, spot]));

/**
 * Every relation of the problem with the minutes that the plan leaves in it, in the problem's order.
 * @param placed a plan of the problem
 */
export function relationSlacks(problem: Problem, placed: readonly Placed[]): RelationSlack[] {
  const spots = spotsOf(placed);
  return problem.relations.map((relation) => ({
    relation,
    inForce: inForce(relation, spots),
    slackMinutes: slackOf(relation, spots),
  }));
}

/**
 * Why a stage starts when it does: whether its start is fixed, and which rules an earlier start would break.
 * @param placed a plan of the problem
 * @param id of a stage in the plan
 * @throws Error when the stage is not in the plan
 */
export function explainStart(
  problem: Problem,
  placed: readonly Placed[],
  id: string,
): StartExplanation {
  const stage = problem.stages.find((one) => one.id === id);
  const spot = placed.find((one) => one.stage === id);
  if (!stage || !spot) throw new Error(`${id} is not in the plan`);
  const mode = stage.modes.find((one) => one.id === spot.mode);
  const fixed =
    stage.fixedEnd !== null ? 'recorded' : stage.fixedStart === spot.start ? 'pinned' : null;
  if (fixed !== null || !mode) return { spot, fixed, minuteBefore: null, lastOpenBefore: null };
  const at = (start: Minute): EarlierStart => ({
    start,
    bindings: bindingsAt(problem, placed, stage, mode, start),
  });
  const open = lastStartBefore(mode, spot.start);
  return {
    spot,
    fixed,
    minuteBefore: at(spot.start - 1),
    lastOpenBefore: open === null ? null : at(open),
  };
}

/**
 * The rules that would be broken were a stage of the plan to start at another moment.
 * @returns null where the stage is not in the plan, or has no known mode
 */
export function whatHinders(
  problem: Problem,
  placed: readonly Placed[],
  id: string,
  start: Minute,
): readonly Binding[] | null {
  const stage = problem.stages.find((one) => one.id === id);
  const spot = placed.find((one) => one.stage === id);
  const mode = stage?.modes.find((one) => one.id === spot?.mode);
  return stage && mode ? bindingsAt(problem, placed, stage, mode, start) : null;
}

/** The rules that the plan keeps and would break were the stage to start at `start` instead. */
function bindingsAt(
  problem: Problem,
  placed: readonly Placed[],
  stage: StageSpec,
  mode: Mode,
  start: Minute,
): Binding[] {
  const before = spotsOf(placed);
  const end = endOf(mode, start);
  if (end === null) return [{ kind: 'never-ends' }];
  const after = new Map(before).set(stage.id, { stage: stage.id, mode: mode.id, start, end });
  const out: Binding[] = [];
  if (start < problem.from) out.push({ kind: 'now' });
  if (stage.release !== null && start < stage.release) out.push({ kind: 'release' });
  for (const { holdsUp, what, resource, end: free } of problem.busy ?? []) {
    if (!holdsUp?.includes(stage.id) || start >= free) continue;
    out.push({ kind: 'resource', resource, others: [what] });
  }
  if (!mayBegin(mode, start, end)) out.push({ kind: 'hours' });
  for (const { open, why } of mode.starts ?? []) {
    if (!containingInterval(open, start)) out.push({ kind: 'start-window', why });
  }
  for (const relation of problem.relations) {
    if (relation.from !== stage.id && relation.to !== stage.id) continue;
    if (!inForce(relation, before)) continue;
    const other = relation.from === stage.id ? relation.to : relation.from;
    if (keeps(relation, before) && !keeps(relation, after)) {
      out.push({ kind: 'relation', relation, other });
    }
  }
  for (const { id } of problem.resources) {
    const others = overbooking(problem, after, stage.id, id);
    if (others.length > 0 && overbooking(problem, before, stage.id, id).length === 0) {
      out.push({ kind: 'resource', resource: id, others });
    }
  }
  const airBefore = sharingAir(problem, before, stage);
  for (const other of sharingAir(problem, after, stage)) {
    if (!airBefore.includes(other)) out.push({ kind: 'air', other });
  }
  return out;
}

// ---------------------------------------------------------------------------------------------
// Relations

const inForce = ({ onlyIf }: Relation, spots: Spots): boolean =>
  !onlyIf || spots.get(onlyIf.stage)?.mode === onlyIf.mode;

function slackOf(relation: Relation, spots: Spots): number | null {
  const [from, to] = [spots.get(relation.from), spots.get(relation.to)];
  if (!from || !to) return null;
  const anchor = relation.anchor === 'end' ? from.end : from.start;
  const limit =
    typeof relation.lag === 'number' ? anchor + relation.lag : relation.lag.apply(anchor);
  if (limit === null) return null;
  return byRelation(relation.type, {
    'at-least': to.start - limit,
    'at-most': limit - to.start,
  });
}

function keeps(relation: Relation, spots: Spots): boolean {
  const slack = slackOf(relation, spots);
  if (slack !== null) return slack >= 0;
  // A milestone that is never reached bars what waits for it, and limits nothing.
  return byRelation(relation.type, { 'at-least': false, 'at-most': true });
}

// ---------------------------------------------------------------------------------------------
// Hours

function endOf({ length, calendar }: Mode, start: Minute): Minute | null {
  if (length.kind === 'function') return length.endOf(start);
  if (length.kind === 'elapsed' || length.unbroken || calendar === null) {
    return start + length.minutes;
  }
  return addWork(calendar, start, length.minutes);
}

function mayBegin({ length, calendar }: Mode, start: Minute, end: Minute): boolean {
  if (calendar === null) return true;
  if (length.kind === 'work' && !length.unbroken && length.minutes === 0) return true;
  const open = containingInterval(calendar, start);
  if (open === null) return false;
  return length.kind !== 'work' || !length.unbroken || end <= open.end;
}

/** The last minute before `start` at which the mode's calendar lets the stage begin. */
function lastStartBefore({ length, calendar }: Mode, start: Minute): Minute | null {
  if (calendar === null) return start - 1;
  const room = length.kind === 'work' && length.unbroken ? length.minutes : 1;
  return lastRoom(calendar, room, start - 1);
}

function lastRoom(calendar: Calendar, minutes: number, upTo: Minute): Minute | null {
  for (const open of calendar.toReversed()) {
    const start = Math.min(upTo, open.end - minutes);
    if (start >= open.start) return start;
  }
  return null;
}

// ---------------------------------------------------------------------------------------------
// Resources and air

interface Stretch {
  readonly stage: string;
  readonly start: Minute;
  readonly end: Minute;
  readonly amount: number;
}

/** Who has a resource when; a hold counts as the stage that begins it. */
function stretchesOf(problem: Problem, spots: Spots, resource: string): Stretch[] {
  const used = problem.stages.flatMap((stage): Stretch[] => {
    const spot = spots.get(stage.id);
    const uses = stage.modes.find((mode) => mode.id === spot?.mode)?.uses ?? [];
    return uses
      .filter((use) => use.resource === resource)
      .map(({ amount }) => ({ stage: stage.id, start: spot!.start, end: spot!.end, amount }));
  });
  const held = (problem.holds ?? []).flatMap((hold): Stretch[] => {
    const [from, to] = [spots.get(hold.from), spots.get(hold.to)];
    if (hold.resource !== resource || !from || !to) return [];
    return [{ stage: hold.from, start: from.start, end: to.end, amount: hold.amount }];
  });
  const others = (problem.busy ?? []).flatMap((block): Stretch[] =>
    block.resource === resource ? [{ ...block, stage: block.what }] : [],
  );
  return [...used, ...held, ...others].filter((one) => one.end > one.start && one.amount > 0);
}

/** The stages that, with this one, take more of a resource than there is; none: there is enough. */
function overbooking(problem: Problem, spots: Spots, stage: string, resource: string): string[] {
  const capacity = problem.resources.find((one) => one.id === resource)!.capacity;
  const stretches = stretchesOf(problem, spots, resource);
  const own = stretches.filter((one) => one.stage === stage);
  for (const { start } of stretches) {
    if (!own.some((one) => one.start <= start && start < one.end)) continue;
    const running = stretches.filter((one) => one.start <= start && start < one.end);
    if (running.reduce((sum, one) => sum + one.amount, 0) <= capacity) continue;
    return [...new Set(running.map((one) => one.stage))].filter((id) => id !== stage);
  }
  return [];
}

/** Stages of another kind of air that run, or have not settled, while this one runs. */
function sharingAir(problem: Problem, spots: Spots, stage: StageSpec): string[] {
  const airOf = (one: StageSpec) => {
    const spot = spots.get(one.id);
    return spot ? ownAirOf(one, spot) : null;
  };
  const [own, air] = [spots.get(stage.id)!, airOf(stage)];
  if (air === null) return [];
  return problem.stages
    .filter((other) => ![null, air].includes(airOf(other)))
    .filter((other) => {
      const spot = spots.get(other.id)!;
      const settle = problem.airSettleMinutes;
      return own.end + settle > spot.start && spot.end + settle > own.start;
    })
    .map((other) => other.id);
}
