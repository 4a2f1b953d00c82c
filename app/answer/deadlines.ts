/** The next moment that cannot move, and what is to spare before each date that binds. */
import { readStageId } from '../document/ids.ts';
import type { PlanResult, RouteResult } from '../document/schema.ts';
import type { PlanContext } from '../plan/context.ts';
import type { RoutePlan } from '../plan/routePlan.ts';
import { closedBeforeStart, type Closings } from '../judge/merge.ts';
import type { PlacedWithFloat } from '../schedule/problem.ts';
import { byRoom } from '../shop/words.ts';
import { workBetween } from '../time/calendar.ts';
import type { Calendar, Minute } from '../time/instant.ts';
import { minuteToIso } from '../time/zone.ts';

/**
 * The next moment that cannot move. Once closing times are known it is the closing time of the taken
 * route, with the stage that has to begin then: the same moment wherever it is shown, and one that no
 * other plan of the route puts off where `proven` says so. Before that it is the least latest start of
 * the plan in its own order, which another plan may still put off.
 */
export function nextDeadlineOf(
  context: PlanContext,
  taken: RoutePlan,
  closings: Closings,
): NonNullable<PlanResult['nextDeadline']> | null {
  const iso = (minute: Minute) => minuteToIso(minute, context.build.zone);
  const closing = closings.get(taken.route.id);
  const closes = closing?.minute ?? null;
  if (closing?.closedBy && closes !== null && !closedBeforeStart(context, closes)) {
    const { closedBy, proven } = closing;
    return { at: iso(closes), stage: closedBy.stage, by: 'closing', proven };
  }
  const first = ahead(taken).reduce<PlacedWithFloat | null>(
    (least, one) => (least === null || one.latestStart! < least.latestStart! ? one : least),
    null,
  );
  return first && { at: iso(first.latestStart!), stage: first.stage, by: 'plan', proven: false };
}

/** Stages that have not begun and that some date limits. */
const ahead = ({ network, schedule }: RoutePlan): PlacedWithFloat[] => {
  const begun = new Set(
    network.problem.stages.filter((stage) => stage.begun === true).map(({ id }) => id),
  );
  return schedule.placed.filter((one) => one.latestStart !== null && !begun.has(one.stage));
};

/**
 * What is to spare before each date that binds: of the stages that depend on it, the one with the least
 * room in the shop's hours. The nearest date comes first.
 */
export function spareOf(context: PlanContext, taken: RoutePlan): NonNullable<PlanResult['spare']> {
  const tightest = new Map<string | null, Room>();
  for (const one of ahead(taken)) {
    if (readStageId(one.stage)?.what === 'outside' || one.stage === one.boundBy) continue;
    const room = roomOf(one, context.shopHours);
    const least = tightest.get(one.boundBy);
    if (!least || compare(room, least) < 0) tightest.set(one.boundBy, room);
  }
  // A plan without a place in time has nothing to count, and the hours need not be gone through.
  if (tightest.size === 0) return [];
  const perDay = minutesPerDay(context.shopHours);
  const rows = [...tightest].map(([before, room]) => ({
    before,
    at: before === null ? context.deadline : (taken.placed.get(before)?.start ?? context.deadline),
    room,
  }));
  return rows
    .sort((a, b) => a.at - b.at || ((a.before ?? '') < (b.before ?? '') ? -1 : 1))
    .map(({ before, at, room }) => ({
      before,
      at: minuteToIso(at, context.build.zone),
      ...inDays(room.workMinutes, perDay),
      elapsedMinutes: room.elapsedMinutes,
      tightest: room.stage,
    }));
}

/** What is to spare before the date that leaves the least; null where nothing limits the plan. */
export function leastSpareOf(context: PlanContext, plan: RoutePlan): RouteResult['spare'] {
  const [least] = spareOf(context, plan).sort(byRoom);
  if (!least) return null;
  const { before, workDays, workMinutes } = least;
  return { before, workDays, workMinutes };
}

interface Room {
  readonly stage: string;
  /** Negative: too late by so much. */
  readonly workMinutes: number;
  readonly elapsedMinutes: number;
}

const compare = (a: Room, b: Room): number =>
  a.workMinutes - b.workMinutes || a.elapsedMinutes - b.elapsedMinutes;

function roomOf({ stage, earliestStart, latestStart }: PlacedWithFloat, hours: Calendar): Room {
  const [from, to] = [earliestStart!, latestStart!];
  const elapsedMinutes = to - from;
  const workMinutes = to >= from ? workBetween(hours, from, to) : -workBetween(hours, to, from);
  return { stage, workMinutes, elapsedMinutes };
}

const MINUTES_PER_DAY = 24 * 60;

/** Average length of a day on which somebody is there, minutes. */
function minutesPerDay(hours: Calendar): number {
  const days = new Set(hours.map(({ start }) => Math.floor(start / MINUTES_PER_DAY)));
  const open = hours.reduce((sum, { start, end }) => sum + end - start, 0);
  return days.size === 0 ? MINUTES_PER_DAY : Math.max(1, Math.round(open / days.size));
}

/** Whole working days and the minutes beyond them, both negative where it is too late. */
function inDays(minutes: number, perDay: number) {
  const workDays = Math.trunc(minutes / perDay);
  return { workDays, workMinutes: minutes - workDays * perDay };
}
