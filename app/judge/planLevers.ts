/** Levers that depend on a plan: another route, a later slot. Their ids hold all that applying them needs. */
import {
  boundaryId,
  leverId,
  outsideStageId,
  readChainId,
  type LeverRef,
} from '../document/ids.ts';
import type { Build, JointState } from '../document/schema.ts';
import { buildSchema } from '../document/schema.ts';
import type { Join } from '../messages/joints.ts';
import { leverWords } from '../messages/levers.ts';
import type { PlanContext } from '../plan/context.ts';
import type { RoutePlan } from '../plan/routePlan.ts';
import { localToMinute, minuteToLocal } from '../time/zone.ts';
import type { Minute } from '../time/instant.ts';
import { slotsMissed } from './dates.ts';
import type { LeverEdit } from './buildLevers.ts';
import { isPossible, type JudgedRoute } from './rank.ts';

type RouteLever = Extract<LeverRef, { lever: 'route' }>;
type SlotLever = Extract<LeverRef, { lever: 'slot' }>;
type StiffenLever = Extract<LeverRef, { lever: 'stiffen' }>;

/** Most merges offered in place of a chosen route that does not fit. */
const MOST_MERGES = 2;

/**
 * Routes that fit and only merge what the chosen route keeps apart, least merged first. Empty while
 * the program picks the route, since it has then looked at them all.
 */
export function mergeLevers(
  document: Build,
  taken: RoutePlan,
  routes: readonly JudgedRoute[],
): LeverEdit[] {
  if (document.route === undefined || document.route === 'best') return [];
  return routes
    .filter((judged) => isPossible(judged) && judged.plan.schedule.fits)
    .filter(({ plan }) => onlyMerges(taken.route.joints, plan.route.joints))
    .slice(0, MOST_MERGES)
    .flatMap(({ plan }) => routeEdit(document, routeLever(plan), namesOf(plan)) ?? []);
}

/** The first route that can be done and keeps apart what a chosen one merges. */
export function apartLevers(
  document: Build,
  taken: RoutePlan,
  routes: readonly JudgedRoute[],
): LeverEdit[] {
  if (document.route === undefined || document.route === 'best') return [];
  const apart = routes.find(
    (judged) =>
      isPossible(judged) &&
      judged.plan.lateMinutes !== null &&
      onlyMerges(judged.plan.route.joints, taken.route.joints),
  );
  if (!apart) return [];
  return [routeEdit(document, routeLever(apart.plan), namesOf(apart.plan)) ?? []].flat();
}

const routeLever = ({ route }: RoutePlan): RouteLever => ({ lever: 'route', route: route.id });

const MERGING: Readonly<Record<JointState, number>> = { apart: 0, tack: 1, 'one-bag': 2 };
type Joints = Readonly<Record<string, JointState>>;

function onlyMerges(from: Joints, to: Joints): boolean {
  const steps = Object.keys(to).map((id) => MERGING[to[id]!] - MERGING[from[id] ?? 'apart']);
  return steps.every((step) => step >= 0) && steps.some((step) => step > 0);
}

type Names = Readonly<Record<string, string>>;
const namesOf = (plan: RoutePlan): Names =>
  Object.fromEntries(
    plan.route.cures.flatMap((cure) => cure.layups.map((layup) => [layup.id, layup.name])),
  );

/**
 * The edit that a route's lever stands for; null when it names no boundary.
 * @param names of the layups by id, for the words; the id itself where there is none
 */
export function routeEdit(document: Build, ref: RouteLever, names: Names = {}): LeverEdit | null {
  const chain = readChainId(ref.route);
  const joints: Record<string, JointState> = {};
  const merges: Join[] = [];
  for (const [i, state] of chain.joints.entries()) {
    const [before, after] = [chain.layups[i]!, chain.layups[i + 1]!];
    joints[boundaryId(before, after)] = state;
    if (state === 'apart') continue;
    merges.push({ before: names[before] ?? before, after: names[after] ?? after, state });
  }
  if (Object.keys(joints).length === 0) return null;
  return {
    id: leverId(ref),
    ...leverWords('route', { merges }),
    document: { ...document, route: { joints } },
    addedMinor: 0,
  };
}

/** A later slot for every outside party whose booked one the plan misses. */
export function slotLevers(context: PlanContext, document: Build, plan: RoutePlan): LeverEdit[] {
  return slotsMissed(plan).flatMap(({ stage, at }) => {
    const party = context.build.outside.find((one) => outsideStageId(one.id) === stage.id);
    if (!party) return [];
    const zone = party.zone ?? context.build.zone;
    const day = firstDayFrom(context.outsideHours[party.id] ?? [], at.start, zone);
    return day === null ? [] : (slotEdit(document, { lever: 'slot', party: party.id, day }) ?? []);
  });
}

/** Ids of slots so many of the party's working days after each booked one. */
export function laterSlotIds(context: PlanContext, workingDays: readonly number[]): string[] {
  return context.build.outside.flatMap((party) => {
    if (party.slot === null) return [];
    const zone = party.zone ?? context.build.zone;
    const dates = (context.outsideHours[party.id] ?? []).map(
      (hours) => minuteToLocal(hours.start, zone).date,
    );
    const later = [...new Set(dates)].filter((date) => date > party.slot!);
    return workingDays.flatMap((days) => {
      const date = later[days - 1];
      return date === undefined ? [] : [leverId({ lever: 'slot', party: party.id, day: date })];
    });
  });
}

/** The first day whose opening is at or after the moment the part is there. */
function firstDayFrom(
  hours: readonly { readonly start: Minute }[],
  from: Minute,
  zone: string,
): string | null {
  const opened = hours.find((one) => one.start >= from && opensItsDay(hours, one.start, zone));
  return opened ? minuteToLocal(opened.start, zone).date : null;
}

const opensItsDay = (
  hours: readonly { readonly start: Minute }[],
  start: Minute,
  zone: string,
): boolean => {
  const before = hours.findLast((one) => one.start < start);
  return !before || minuteToLocal(before.start, zone).date < minuteToLocal(start, zone).date;
};

/** The edit that a slot's lever stands for; null when it names no party of the build. */
export function slotEdit(document: Build, ref: SlotLever): LeverEdit | null {
  const { day } = ref;
  const parties = buildSchema.parse(document).outside;
  const index = parties.findIndex((party) => party.id === ref.party);
  const party = parties[index];
  if (!party) return null;
  const outside = (document.outside ?? []).map((one, i) =>
    i === index ? { ...one, slot: day } : one,
  );
  const zone = party.zone ?? document.zone;
  const noon = localToMinute(`${day}T12:00`, zone)?.minute ?? 0;
  return {
    id: leverId(ref),
    ...leverWords('slot', { party: party.name, noon, zone }),
    document: { ...document, outside },
    addedMinor: 0,
  };
}

/** Local plies of the outer cloth at 0 and 45 in turn; null when it names no zone of the build. */
export function stiffenEdit(
  document: Build,
  ref: StiffenLever,
  place: 'between' | 'after' = 'between',
): LeverEdit | null {
  const { zone: zoneId, plies } = ref;
  const { zones } = buildSchema.parse(document).part;
  const zone = zones.find((one) => one.id === zoneId);
  const cloth = zone?.outer.at(-1)?.cloth ?? zone?.inner.at(-1)?.cloth;
  if (!zone || !cloth || !(plies >= 1)) return null;
  const added = Array.from({ length: plies }, (_, i) => ({
    cloth,
    angleDeg: i % 2 === 0 ? 0 : 45,
    place,
  }));
  const changed = document.part.zones.map((one, i) =>
    zones[i] === zone ? { ...one, local: [...(one.local ?? []), ...added] } : one,
  );
  return {
    id: leverId(ref),
    ...leverWords('stiffen', { plies, place, zone: zone.name }),
    document: { ...document, part: { ...document.part, zones: changed } },
    addedMinor: 0,
  };
}
