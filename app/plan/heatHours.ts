/** When tent or oven may heat: what the shop allows while nobody is in it, as starts. */
import type { HeatAlone } from '../document/schema.ts';
import { LONGEST_BREAK_MINUTES, subtract } from '../time/calendar.ts';
import { MINUTES_PER_HOUR, type Calendar, type Interval, type Minute } from '../time/instant.ts';
import { dayTimeToMinute, localDayNumber } from '../time/zone.ts';
import type { WarmUpSetup } from '../schedule/network/input.ts';
import type { PlanContext } from './context.ts';

/** Hours of the shop, or of one of its people, with breaks filled. */
export function staffedHours(hours: Calendar): Calendar {
  const staffed: { start: Minute; end: Minute }[] = [];
  for (const { start, end } of hours) {
    const last = staffed.at(-1);
    if (last && start - last.end <= LONGEST_BREAK_MINUTES) last.end = end;
    else staffed.push({ start, end });
  }
  return staffed;
}

/**
 * Runs of days of the shop's clock on which nobody works a minute, a holiday or a lone Sunday as well: from
 * the end of the night before, when the shop's day would begin, to 00:00 of the next day with work.
 * @param dayFrom minute of the day at which the night is over
 * @param first days before it are not told, as no hours are known of them
 */
export function closedDays(
  shopHours: Calendar,
  zone: string,
  first: Minute,
  horizon: Minute,
  dayFrom = 0,
): Interval[] {
  const closed: { start: Minute; end: Minute }[] = [];
  const startOf = (day: number): Minute => dayTimeToMinute(day, 0, zone);
  const lastDay = localDayNumber(horizon, zone);
  for (let day = localDayNumber(first - 1, zone) + 1; day < lastDay; day++) {
    const [midnight, end] = [startOf(day), startOf(day + 1)];
    if (shopHours.some((hours) => hours.start < end && hours.end > midnight)) continue;
    const last = closed.at(-1);
    if (last?.end === midnight) last.end = end;
    else closed.push({ start: dayTimeToMinute(day, dayFrom, zone), end });
  }
  return closed;
}

const minuteOfDay = (wall: string): number =>
  Number(wall.slice(0, 2)) * 60 + Number(wall.slice(3, 5));

export interface HeatRun {
  /** From heat on to cooled. */
  readonly minutes: number;
  /** From heat on, in which somebody is in the shop. */
  readonly attendedMinutes: number;
}

interface HeatShop {
  readonly alone: HeatAlone;
  readonly staffed: Calendar;
  readonly closedDays: Calendar;
  readonly first: Minute;
  readonly horizon: Minute;
}

/**
 * The minutes at which heat may be switched on, as intervals; exactly those whose run keeps the
 * rules: somebody is there for the attended part; with 'never' for all of it; with 'nights' it runs
 * at no minute of a closed day: what begins on the day before is cooled by the end of that night.
 * @returns half-open intervals of starts in order; empty when no start keeps the rules
 */
export function heatStarts(shop: HeatShop, { minutes, attendedMinutes }: HeatRun): Calendar {
  const there = shop.alone === 'never' ? minutes : attendedMinutes;
  const attended =
    there <= 0
      ? [{ start: shop.first, end: shop.horizon }]
      : shop.staffed
          .filter(({ start, end }) => end - start >= there)
          .map(({ start, end }) => ({ start, end: end - there + 1 }));
  if (shop.alone !== 'nights') return attended;
  const through = shop.closedDays
    .map(({ start, end }) => ({ start: start - minutes + 1, end }))
    .filter(({ start, end }) => start < end);
  return subtract(attended, through);
}

const known = new WeakMap<PlanContext, HeatShop>();

function heatShopOf(context: PlanContext): HeatShop {
  let shop = known.get(context);
  if (!shop) {
    const { build, shopHours, first, horizon } = context;
    shop = {
      alone: build.room.heatAlone,
      staffed: staffedHours(shopHours),
      closedDays: closedDays(
        shopHours,
        build.zone,
        first,
        horizon,
        minuteOfDay(build.room.dayFrom),
      ),
      first,
      horizon,
    };
    known.set(context, shop);
  }
  return shop;
}

/** Minutes for which a first ramp is attended: all of it, up to what practice and a shift allow. */
export function attendedMinutesOf(context: PlanContext, firstRampMinutes: number): number {
  const { staffed } = heatShopOf(context);
  const longest = Math.max(0, ...staffed.map(({ start, end }) => end - start));
  const most = context.practice('heat-attended-hours') * MINUTES_PER_HOUR;
  return Math.min(Math.ceil(firstRampMinutes), most, longest);
}

/** When the mould of a build may be warmed before its first mix; null: it is not warmed. */
export function warmUpOf(context: PlanContext): WarmUpSetup | null {
  const { warmUpHours } = context.build.mould;
  if (warmUpHours === null) return null;
  const minutes = Math.round(warmUpHours * MINUTES_PER_HOUR);
  const shop = heatShopOf(context);
  const attendedMinutes = attendedMinutesOf(context, minutes);
  const starts = subtract(
    heatStarts(shop, { minutes, attendedMinutes }),
    shop.alone === 'nights' ? throughClosedDays(shop, minutes) : [],
  );
  return { minutes, starts, staffed: shop.staffed };
}

/** Starts after which nobody is there before a closed day once the mould is warm: it would be heated through. */
const throughClosedDays = ({ staffed, closedDays }: HeatShop, minutes: number): Calendar =>
  closedDays.flatMap(({ start, end }) => {
    const last = staffed.findLast((hours) => hours.end <= start);
    return last ? [{ start: last.end - minutes + 1, end }] : [];
  });

/** Starts at which the shop may switch a run of heat on. */
export const heatStartsOf = (context: PlanContext, run: HeatRun): Calendar =>
  heatStarts(heatShopOf(context), run);
