/** Which post-cures a part gets: on its mould, on supports after the last cure, or both. */
import { mouldOf } from '../document/library.ts';
import { postCureByCurve } from '../cure/post-cure.ts';
import {
  postCureFor,
  type HeatLimit,
  type PostCurePlace,
  type PostCurePlan,
  type PostCureStep,
} from '../cure/tg.ts';
import { coreLimitC } from '../part/checks.ts';
import { mouldGrowthAt } from '../part/growth.ts';
import { MINUTES_PER_DAY, MINUTES_PER_HOUR, type Calendar } from '../time/instant.ts';
import type { PlanContext } from './context.ts';
import type { GlassMember, RoomGlass } from './glassMembers.ts';
import { attendedMinutesOf, heatStartsOf } from './heatHours.ts';

type Possible = Extract<PostCurePlan, { possible: true }>;

/** One post-cure of a plan. */
export interface PostCureRun {
  /** 1, or 2 for a second one. */
  readonly number: number;
  readonly place: PostCurePlace;
  readonly plan: Possible;
  /** Somebody is in the shop for so long from heat on, minutes. */
  readonly attendedMinutes: number;
  /** Minutes at which the shop may switch the heat on. */
  readonly starts: Calendar;
  /** Weakest Tg that the ramp counts on when the heat comes on, C; null: not known. */
  readonly beginsTgC: number | null;
}

export const POST_CURE_WAYS = ['mould', 'supports', 'twice'] as const;
/** Once on the mould, once on supports after the last cure, or on the mould and then on supports. */
export type PostCureWay = (typeof POST_CURE_WAYS)[number];

/** Why a way of doing it is not taken. */
export type RejectionReason =
  | { readonly why: 'dearer'; readonly costMinor: number }
  | { readonly why: 'locks'; readonly growthMm: number; readonly heldC: number }
  | { readonly why: 'hours' }
  | {
      readonly why: 'limit';
      readonly limit: HeatLimit;
      readonly wantedC: number;
      readonly limitC: number;
    };

export interface PostCureChoice {
  readonly way: PostCureWay;
  readonly runs: readonly PostCureRun[];
  /** Hands, tent hours and days, minor units. */
  readonly costMinor: number;
  readonly others: readonly (RejectionReason & { readonly way: PostCureWay })[];
}

/** A member with what it is worth in the room. */
export interface Measured {
  readonly member: GlassMember;
  readonly room: RoomGlass;
}

export interface PostCureAnswer {
  /** Null: none is needed, or none can be done. */
  readonly choice: PostCureChoice | null;
  /** The heat that would bring what is needed, the shop's own tent left aside; null: none is needed. */
  readonly wanted: PostCurePlan | null;
  /** What keeps it out of the plan; null where it is in the plan or nothing needs it. */
  readonly blocked: RejectionReason | null;
}

const short = ({ member, room }: Measured): boolean =>
  room.withoutC !== null && room.withoutC < member.neededC;

/**
 * The cheapest way that the limits of mould, core and tent and the shop's hours allow; equal ones in
 * the order mould, supports, twice. What closes the edge between two visits is past any post-cure.
 */
export function choosePostCure(context: PlanContext, all: readonly Measured[]): PostCureAnswer {
  const needy = all.filter((one) => short(one) && one.member.made !== 'late');
  if (needy.length === 0) return { choice: null, wanted: null, blocked: null };
  const tentMaxC = context.build.room.tent?.maxC ?? null;
  const ways = tentMaxC === null ? [] : waysOf(context, needy, all, tentMaxC);
  const done = ways.filter((one): one is DoneWay => 'runs' in one);
  const best = done.reduce<DoneWay | null>(
    (least, one) => (least === null || one.costMinor < least.costMinor ? one : least),
    null,
  );
  if (best === null) {
    const wanted = wantedOf(waysOf(context, needy, all, Infinity));
    return { choice: null, wanted, blocked: refusalOf(ways) ?? noTent(wanted) };
  }
  const others = ways.flatMap((one) => {
    if (one === best) return [];
    const not: RejectionReason =
      'runs' in one ? { why: 'dearer', costMinor: one.costMinor } : one.not;
    return [{ way: one.way, ...not }];
  });
  const { way, runs, costMinor } = best;
  const wanted = hottestOf(runs);
  return { choice: { way, runs, costMinor, others }, wanted, blocked: null };
}

/** Without tent or oven: every heat is too hot, unless none would do. */
const noTent = (wanted: PostCurePlan): RejectionReason =>
  wanted.possible
    ? { why: 'limit', limit: 'tent', wantedC: wanted.holdC, limitC: -Infinity }
    : { why: 'limit', limit: wanted.reason, wantedC: wanted.wantedC, limitC: wanted.limitC };

interface DoneWay {
  readonly way: PostCureWay;
  readonly runs: readonly PostCureRun[];
  readonly costMinor: number;
}
interface RefusedWay {
  readonly way: PostCureWay;
  readonly not: RejectionReason;
  readonly refused: PostCurePlan;
}
type Way = DoneWay | RefusedWay;

const hottestOf = (runs: readonly PostCureRun[]): Possible =>
  runs.toSorted((a, b) => b.plan.holdC - a.plan.holdC)[0]!.plan;

/** Why the way with the fewest limits cannot be taken; null: it can. */
const refusalOf = (ways: readonly Way[]): RejectionReason | null => {
  const least = ways.find(({ way }) => way === 'supports');
  return least && 'not' in least ? least.not : null;
};

/** The heat of the cheapest way, else why the way with the fewest limits cannot be taken. */
function wantedOf(ways: readonly Way[]): PostCurePlan {
  const [first] = ways
    .filter((one): one is DoneWay => 'runs' in one)
    .toSorted((a, b) => a.costMinor - b.costMinor);
  if (first) return hottestOf(first.runs);
  return (ways.find(({ way }) => way === 'supports') as RefusedWay).refused;
}

/** Every way that makes sense for what needs heat; on supports always, as the mould limits it least. */
function waysOf(
  context: PlanContext,
  needy: readonly Measured[],
  all: readonly Measured[],
  tentMaxC: number,
): Way[] {
  const made = (list: readonly Measured[], where: GlassMember['made']) =>
    list.filter(({ member }) => member.made === where);
  const [chain, later] = [made(needy, 'chain'), made(needy, 'after-trim')];
  const onMould = { place: 'mould', needy: chain, heated: made(all, 'chain') } as const;
  const stops: Way[] = [];
  if (chain.length > 0 && later.length === 0) {
    stops.push(wayOf(context, 'mould', [onMould], tentMaxC));
  }
  const heated = all.filter(({ member }) => member.made !== 'late');
  stops.push(wayOf(context, 'supports', [{ place: 'supports', needy, heated }], tentMaxC));
  if (chain.length > 0 && later.length > 0) {
    // What was heated on the mould stands more than what is new.
    const after = { place: 'supports', needy: later, heated: made(all, 'after-trim') } as const;
    stops.push(wayOf(context, 'twice', [onMould, after], tentMaxC));
  }
  return stops;
}

/** One heat: for what needs it, over all that goes through it. */
interface HeatOver {
  readonly place: PostCurePlace;
  readonly needy: readonly Measured[];
  readonly heated: readonly Measured[];
}

function wayOf(
  context: PlanContext,
  way: PostCureWay,
  heats: readonly HeatOver[],
  tentMaxC: number,
): Way {
  const runs: PostCureRun[] = [];
  for (const [i, heat] of heats.entries()) {
    const { place } = heat;
    const plan = hardest(context, heat, tentMaxC);
    if (!plan.possible) {
      const { reason, wantedC, limitC } = plan;
      return { way, refused: plan, not: { why: 'limit', limit: reason, wantedC, limitC } };
    }
    const growth =
      place === 'mould' ? mouldGrowthAt(context.build, context.library, plan.holdC) : null;
    if (growth?.locks) {
      const { growthMm } = growth;
      return { way, refused: plan, not: { why: 'locks', growthMm, heldC: plan.holdC } };
    }
    const attendedMinutes = attendedMinutesOf(context, firstRampMinutes(plan.steps));
    const starts = heatStartsOf(context, { minutes: minutesOf(plan), attendedMinutes });
    if (starts.length === 0) return { way, refused: plan, not: { why: 'hours' } };
    runs.push({ number: i + 1, place, plan, attendedMinutes, starts, beginsTgC: beginsOf(heat) });
  }
  return { way, runs, costMinor: costOf(context, runs) };
}

/** Whole minutes of a post-cure, from heat on to cooled. */
export const minutesOf = ({ minutes }: Pick<Possible, 'minutes'>): number =>
  Math.max(1, Math.round(minutes));

/**
 * From heat on to the end of the first ramp, minutes. A hold before it, while the part is still too soft
 * for any heat, counts as well: the heater runs.
 */
export function firstRampMinutes(steps: readonly PostCureStep[]): number {
  const first = steps.findIndex(({ kind }) => kind === 'ramp');
  if (first < 0) return 0;
  const ends = steps.findIndex(({ kind }, i) => i > first && kind !== 'ramp');
  return steps.slice(0, ends < 0 ? steps.length : ends).reduce((sum, s) => sum + s.minutes, 0);
}

function costOf({ practice, part }: PlanContext, runs: readonly PostCureRun[]): number {
  const work =
    part.workFor('heat-setup').personMinutes + part.workFor('heat-takedown').personMinutes;
  const cost = runs.reduce((sum, { plan }) => {
    const hands = (work / MINUTES_PER_HOUR) * practice('labour-minor-per-h');
    const heat = (plan.minutes / MINUTES_PER_HOUR) * practice('tent-heat-minor-per-h');
    const days = ((work + plan.minutes) / MINUTES_PER_DAY) * practice('build-day-minor');
    return sum + hands + heat + days;
  }, 0);
  return Math.round(cost);
}

/** Weakest Tg of all that is heated, C; null: of something no curve tells it. */
function beginsOf({ heated }: HeatOver): number | null {
  const begins = heated
    .filter(({ member }) => member.standsC === null)
    .map(({ room }) => room.beginsTgC);
  const known = begins.filter((tgC) => tgC !== null);
  return known.length === 0 || known.length < begins.length ? null : Math.min(...known);
}

/**
 * The post-cure of what asks for most: one that cannot be done, then the hottest; and of those at its heat
 * the one that rises slowest, for what needs less of it may be softer on the way up.
 */
function hardest(
  context: PlanContext,
  { place, needy, heated }: HeatOver,
  tentMaxC: number,
): PostCurePlan {
  const plans = distinct(needy).map((one) => planFor(context, one, place, tentMaxC));
  const refused = plans.find(({ possible }) => !possible);
  if (refused) return refused;
  const most = (plans as Possible[]).reduce(longer);
  const risen = distinct(heated.filter(hasCurve)).map((one) =>
    planFor(context, heldAt(one, most.holdC), place, tentMaxC),
  );
  const tooSoft = risen.find(({ possible }) => !possible);
  return tooSoft ?? (risen as Possible[]).reduce(longer, most);
}

const longer = (most: Possible, one: Possible): Possible =>
  one.holdC > most.holdC || (one.holdC === most.holdC && one.minutes > most.minutes) ? one : most;

const hasCurve = ({ member: { standsC, settled } }: Measured): boolean =>
  standsC === null && Boolean(settled.model.kinetics);

/** The same, taken to a heat at the least. */
const heldAt = ({ member, room }: Measured, holdC: number): Measured => ({
  member: { ...member, bakeC: Math.max(member.bakeC ?? -Infinity, holdC) },
  room,
});

/** One of all that ask for the same: the search over heats takes time. */
function distinct(measured: readonly Measured[]): Measured[] {
  const keyOf = ({ member, room }: Measured) =>
    `${member.standsC} ${member.settled.hardener.id} ${member.neededC} ${member.bakeC} ${room.doseHours}`;
  return [...new Map(measured.map((one) => [keyOf(one), one])).values()];
}

function planFor(
  context: PlanContext,
  { member, room }: Measured,
  place: PostCurePlace,
  tentMaxC: number,
): PostCurePlan {
  const { build, library, practice } = context;
  const { hardener, model } = member.settled;
  const need = {
    neededTgC: member.neededC,
    bakeC: member.bakeC,
    fromC: build.room.temperatureC.day,
    mouldMaxC:
      place === 'mould'
        ? (build.mould.maxC ?? mouldOf(library, build.mould.material).maxC)
        : Infinity,
    coreMaxC: coreLimitC(build, library),
    tentMaxC,
    place,
  };
  if (member.standsC !== null) {
    // Such a filler has no row of its own for heat: the hold is that of the resin beside it.
    const hold = { tgFullC: null, postCure: hardener.postCure };
    return postCureFor({ ...need, hardener: hold }, practice);
  }
  if (hardener.tgFullC === null) {
    const { neededTgC } = need;
    return { possible: false, reason: 'sheet', wantedC: neededTgC, limitC: neededTgC };
  }
  if (!model.kinetics) return postCureFor({ ...need, hardener }, practice);
  return postCureByCurve({ ...need, hardener, model, doseHours: room.doseHours }, practice);
}
