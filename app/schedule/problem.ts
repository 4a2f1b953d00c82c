/**
 * The scheduling problem as data: stages, modes, resources, relations. Engine, answer and checker
 * live apart. A plain project problem (no calendars, no cures) is the same thing with
 * `calendar: null` and elapsed lengths.
 */
import type { AirKind, StageKind } from '../document/schema.ts';
import type { ObstacleArgs } from '../messages/obstacles.ts';
import type { RelationReason, StartReason } from '../messages/relations.ts';
import type { Calendar, Minute } from '../time/instant.ts';

/** A renewable resource. */
export interface Resource {
  readonly id: string;
  readonly name: string;
  readonly capacity: number;
  /**
   * Hours in which somebody is there; heeded where people are asked for by number. Absent or null:
   * always. Those with the same hours share one calendar.
   */
  readonly calendar?: Calendar | null;
  /** Holidays and other jobs that its hours leave out, in the user's words. */
  readonly away?: readonly string[];
}

export interface Use {
  readonly resource: string;
  readonly amount: number;
}

/** So many of these, whoever is free: each a resource of capacity 1, each taken once. */
export interface AnyOf {
  readonly people: readonly string[];
  readonly count: number;
}

/**
 * How long a stage lasts, as a nondecreasing function from its start to its end.
 * - elapsed: runs through, whatever the calendar;
 * - work: counted inside the mode's calendar; unbroken work lies within one calendar interval;
 * - function: a cure. `endOf` gives the end, or null when it is never reached;
 *   `latestStart(end)` the largest start whose end is at or before `end`, or null.
 */
export type Length =
  | { readonly kind: 'elapsed'; readonly minutes: number }
  | { readonly kind: 'work'; readonly minutes: number; readonly unbroken: boolean }
  | {
      readonly kind: 'function';
      readonly endOf: (start: Minute) => Minute | null;
      readonly latestStart: (end: Minute) => Minute | null;
    };

/** A rule about when a mode may begin: its minutes, as half-open intervals in order. */
export interface StartWindow {
  readonly open: Calendar;
  /** Worded with the other messages. */
  readonly why: StartReason;
}

/** One way of doing a stage: who, with what, how long. */
export interface Mode {
  readonly id: string;
  readonly uses: readonly Use[];
  /**
   * People asked for by number; who they are is settled as the plan is made. Work counts in the
   * hours that the mode's calendar and all of theirs have in common.
   */
  readonly anyOf?: readonly AnyOf[];
  /**
   * When hands may be on it; null: at any time. An elapsed or function length with a calendar
   * begins in an open minute and then runs through.
   */
  readonly calendar: Calendar | null;
  /** Rules about when it may begin, beside its calendar; it begins at a minute that keeps them all. */
  readonly starts?: readonly StartWindow[];
  readonly length: Length;
  /**
   * A last resort: a repair that a missed window forces, or work with fewer people than it takes. When
   * absent: in a stage whose modes some relation's `onlyIf` names, the modes it does not name are repairs.
   */
  readonly repair?: boolean;
  /** Warnings that a plan in this mode gets beside a repair's, each as dear as one: wet work that tires. */
  readonly warnings?: number;
  /** A surface that has gone stale is abraded, washed and wiped in this mode. */
  readonly abrades?: boolean;
  /** What the stage is called where it is done in this mode, if that is another name. */
  readonly name?: string;
  /** A surface that is covered as it is stripped, because stripping takes longer than it keeps bare. */
  readonly covered?: boolean;
  /** Done in a way that leaves the room's air clean, whatever the stage does to it in other modes. */
  readonly keepsAirClean?: boolean;
  /** Done in air that other work makes dusty or wet, at the price of a warning; a last resort. */
  readonly sharesAir?: boolean;
  /** Minutes of this mode that are overtime by permission; used only where a date needs it. */
  readonly overtimeMinutes?: number;
}

/** True where no other kind of air may be in the room while the mode is at work. */
export const wantsOwnAir = ({ keepsAirClean, sharesAir }: Mode): boolean =>
  !keepsAirClean && !sharesAir;

export interface StageSpec {
  readonly id: string;
  readonly name: string;
  readonly kind: StageKind;
  readonly cure: string | null;
  /** At least one; an empty list is a stage that nothing can ever hold. */
  readonly modes: readonly Mode[];
  /** Never before this minute. */
  readonly release: Minute | null;
  /** Ends at or before this minute. */
  readonly due: Minute | null;
  /** The floor has recorded it, or has recorded what can only come after it: its times stay as they are. */
  readonly begun?: true;
  /** Fixed by hand or by the floor's records. */
  readonly fixedStart: Minute | null;
  readonly fixedEnd: Minute | null;
  /** What it does to the room's air; different kinds exclude each other. */
  readonly air: AirKind | null;
  /** Placed as late as possible once the rest stands: release, stripped peel ply, warmed resin. */
  readonly perishable: boolean;
  /** Of use only while `stage` is done in one of `modes`: otherwise nothing waits for it, and it is not told. */
  readonly neededIf?: { readonly stage: string; readonly modes: readonly string[] };
}

/**
 * A nondecreasing map over minutes with both inverses, so that a relation can be pushed either way.
 * `latest(y)`: the largest x with apply(x) <= y. `earliest(y)`: the smallest x with apply(x) >= y.
 */
export interface MonotoneMap {
  readonly apply: (x: Minute) => Minute | null;
  readonly latest: (y: Minute) => Minute | null;
  readonly earliest: (y: Minute) => Minute | null;
}

export const RELATION_TYPES = ['at-least', 'at-most'] as const;
export type RelationType = (typeof RELATION_TYPES)[number];

/**
 * What each kind of relation asks for, picked by the kind of one. A place that treats them apart goes
 * by this, so that a further kind does not compile until that place serves it.
 */
export const byRelation = <T>(type: RelationType, cases: Readonly<Record<RelationType, T>>): T =>
  cases[type];

/**
 * Whether a relation is a least one, for places that take every other one as a greatest one. While
 * there are two kinds it is a boolean; with a third it is `void`, which the compiler lets nobody ask,
 * so that each of those places fails to compile until it tells three kinds apart.
 */
export type IsAtLeast = [Exclude<RelationType, 'at-least' | 'at-most'>] extends [never]
  ? boolean
  : void;

/** start(to) >= map(anchor of from), or start(to) <= map(anchor of from). */
export interface Relation {
  readonly type: RelationType;
  readonly from: string;
  readonly anchor: 'start' | 'end';
  readonly to: string;
  /** Minutes of lag, or a cure milestone. */
  readonly lag: number | MonotoneMap;
  /** Holds only while `stage` is done in `mode` (a window that may lapse). */
  readonly onlyIf?: { readonly stage: string; readonly mode: string };
  /** Worded with the other messages. */
  readonly why: RelationReason;
}

/** True for a window: a moment after which the target may not begin any more. */
export const closes = ({ type }: Pick<Relation, 'type'>): boolean =>
  byRelation(type, { 'at-least': false, 'at-most': true });

/** A resource kept from the start of one stage to the end of another: the mould until demould. */
export interface Hold {
  readonly resource: string;
  readonly amount: number;
  readonly from: string;
  readonly to: string;
  /** Stages in between that need it as well and ask for no more of it. */
  readonly through?: readonly string[];
}

/** Some of a resource is with another job, [start, end): no stage of the plan, and none can have it. */
export interface Busy {
  readonly id: string;
  /** The other job, in the user's words. */
  readonly what: string;
  readonly resource: string;
  readonly amount: number;
  readonly start: Minute;
  readonly end: Minute;
  /** Stages that cannot be done before it begins, and so begin only when it has ended. */
  readonly holdsUp?: readonly string[];
}

export interface Problem {
  /** No unstarted stage starts before. */
  readonly from: Minute;
  /** The last stage is to end by then. */
  readonly due: Minute;
  /** Nothing is placed after; calendars and profiles are expanded up to here. */
  readonly horizon: Minute;
  readonly resources: readonly Resource[];
  readonly stages: readonly StageSpec[];
  readonly relations: readonly Relation[];
  /** Minutes to clean and settle between two different kinds of air. */
  readonly airSettleMinutes: number;
  readonly holds?: readonly Hold[];
  readonly busy?: readonly Busy[];
  /** What hangs on the wall: starting at another moment is allowed, at a price. */
  readonly printed?: PrintedStarts;
}

/** Starts as they were printed, and how many warnings each that is moved weighs. */
export interface PrintedStarts {
  readonly starts: ReadonlyMap<string, Minute>;
  readonly warningsEach: number;
}

export interface Placed {
  readonly stage: string;
  readonly mode: string;
  readonly start: Minute;
  readonly end: Minute;
  /** Who does it, of those its mode asks for by number, in the order of its lists. */
  readonly people?: readonly string[];
}

/** The air that a placed stage has for itself; null where it takes no time or other work may share it. */
export function ownAirOf({ air, modes }: StageSpec, { mode, start, end }: Placed): AirKind | null {
  const way = modes.find(({ id }) => id === mode);
  return end > start && (!way || wantsOwnAir(way)) ? air : null;
}

/** One stage of a plan with its room to move. */
export interface PlacedWithFloat extends Placed {
  readonly earliestStart: Minute | null;
  readonly latestStart: Minute | null;
  readonly latestEnd: Minute | null;
  /** In the stage's own calendar for work, elapsed for cures; negative when late. */
  readonly floatMinutes: number | null;
  /** The stage whose date the latest start depends on (a slot, a pin); null: the date of the plan. */
  readonly boundBy: string | null;
  readonly critical: boolean;
}

/** Why a plan could not be made. */
export interface Obstacle {
  readonly stage: string;
  readonly reason:
    | 'no-mode'
    | 'never-fits-calendar'
    | 'never-ends'
    | 'cycle'
    | 'window-cannot-hold'
    | 'no-capacity'
    | 'beyond-horizon';
  /** What stands in the way; worded with the other messages. */
  readonly args: ObstacleArgs;
}

/** A fixed start of a stage not yet begun that the rest cannot keep; the plan places it later. */
export interface MissedPin {
  readonly stage: string;
  readonly byMinutes: number;
}

export interface Schedule {
  /** In start order, ties by id. Empty when `obstacles` is not. */
  readonly placed: readonly PlacedWithFloat[];
  readonly obstacles: readonly Obstacle[];
  /** End of the last stage. */
  readonly end: Minute | null;
  readonly fits: boolean;
  /** Schedules generated, as design.md counts them. */
  readonly generated: number;
  /** No better plan exists; with obstacles: no plan exists at all. */
  readonly provenBest: boolean;
  /**
   * Minutes by which the plan ends after the earliest end that lengths, lags and calendars alone
   * allow: no plan is shorter by more. Left out of a first answer.
   */
  readonly gapMinutes?: number;
  /** Pins that could not hold; the plan does not fit while there are any. */
  readonly missedPins: readonly MissedPin[];
}
