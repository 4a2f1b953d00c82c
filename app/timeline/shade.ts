/** Nights, breaks, closed days and the ticks of the time axis. */
import { minuteToLocal, localDayNumber } from '../time/zone.ts';
import type { Calendar, Interval, Minute } from '../time/instant.ts';
import { dayName, weekdayOfDay } from '../time/zone.ts';
import { shortDay } from '../shop/words.ts';
import { hourWords } from '../time/words.ts';
import { daysIn } from './days.ts';
import type { TimeScale } from './scale.ts';

export interface Shade extends Interval {
  readonly kind: 'night' | 'closed' | 'break';
}

/** A break shorter than this is not a night. */
const SHORTEST_NIGHT = 150;

/**
 * Stretches in which nobody works: whole local days as `closed`, short ones within a shift as `break`,
 * the rest as `night`.
 */
export function shadesOf(scale: TimeScale, shopHours: Calendar, zone: string): Shade[] {
  const shades: Shade[] = [];
  for (const day of daysIn({ start: scale.from, end: scale.to }, zone)) {
    if (isFolded(scale, day)) continue;
    const open = shopHours.filter((span) => span.end > day.start && span.start < day.end);
    if (open.length === 0) {
      shades.push({ ...day, kind: 'closed' });
      continue;
    }
    let at = day.start;
    for (const span of [...open, { start: day.end, end: day.end }]) {
      const isEdge = at === day.start || span.start === day.end;
      if (span.start > at) {
        const isNight = isEdge || span.start - at > SHORTEST_NIGHT;
        shades.push({ start: at, end: span.start, kind: isNight ? 'night' : 'break' });
      }
      at = Math.max(at, Math.min(span.end, day.end));
    }
  }
  return shades;
}

export interface Tick {
  readonly minute: Minute;
  readonly x: number;
  /** Empty where there is no room for words. */
  readonly label: string;
  /** First day of a week or, among hours, midnight. */
  readonly strong: boolean;
}

/** True inside a fold: its days have no ticks of their own. */
const isFolded = (scale: TimeScale, day: Interval): boolean =>
  scale.folds.some((fold) => day.start >= fold.start && day.end <= fold.end);

/** Ticks of the days: as many words as the width of a day allows, the first of a week strong. */
export function dayTicks(scale: TimeScale, zone: string, unit = 1): Tick[] {
  const dayPx = (1440 * scale.pxPerMinute) / unit;
  const days = daysIn({ start: scale.from, end: scale.to }, zone).filter(
    (day) => !isFolded(scale, day),
  );
  return days.map((day) => {
    const number = localDayNumber(day.start, zone);
    const isMonday = weekdayOfDay(number) === 'mon';
    const x = scale.x(day.start);
    return { minute: day.start, x, label: dayLabel(dayName(number), dayPx), strong: isMonday };
  });
}

/** Widths from which each way of writing a day fits, at 12 px type. */
const FULL_DAY_PX = 80;
const WEEKDAY_PX = 48;
const NUMBER_PX = 20;

function dayLabel(date: string, dayPx: number): string {
  const full = shortDay(date);
  if (dayPx >= FULL_DAY_PX) return full;
  if (dayPx >= WEEKDAY_PX) return full.split(' ').slice(0, 2).join(' ');
  return dayPx >= NUMBER_PX ? String(Number(date.slice(8, 10))) : '';
}

/** Hour ticks between the days, none while they would crowd. */
export function hourTicks(
  scale: TimeScale,
  zone: string,
  { start, end }: Interval,
  unit = 1,
): Tick[] {
  const hourPx = (60 * scale.pxPerMinute) / unit;
  const every = [1, 2, 3, 6, 12].find((hours) => hours * hourPx >= 52);
  if (every === undefined) return [];
  const ticks: Tick[] = [];
  for (let minute = Math.ceil(start / 60) * 60; minute <= end; minute += 60) {
    const { time } = minuteToLocal(minute, zone);
    const hour = Number(time.slice(0, 2));
    // Zones half an hour off put their full hours on half ones of UTC.
    if (hour % every !== 0 || hour === 0) continue;
    const at = minute - Number(time.slice(3));
    if (isFolded(scale, { start: at, end: at })) continue;
    ticks.push({
      minute: at,
      x: scale.x(at),
      label: hourWords(`${time.slice(0, 3)}00`),
      strong: false,
    });
  }
  return ticks;
}

/**
 * The weeks that are named: those whose words fit before the next week, then, where there is room between
 * these, others whose words run on over a week that is not named.
 */
export function namedWeeks<T extends Tick & { readonly room: number }>(
  weeks: readonly T[],
  widthOf: (label: string) => number,
  end: number,
): T[] {
  const named = new Set(weeks.filter(({ label, room }) => widthOf(label) <= room));
  weeks.forEach((week, i) => {
    if (named.has(week)) return;
    const before = weeks.slice(0, i).findLast((one) => named.has(one));
    const after = weeks.slice(i + 1).find((one) => named.has(one));
    const isFree = !before || before.x + widthOf(before.label) <= week.x;
    if (isFree && week.x + widthOf(week.label) <= (after?.x ?? end)) named.add(week);
  });
  return weeks.filter((one) => named.has(one));
}

/** The first shown day of each week: `26 Apr`, with the room until the next. */
export function weekTicks(scale: TimeScale, zone: string): (Tick & { readonly room: number })[] {
  const firsts: Tick[] = [];
  let week = NaN;
  for (const day of daysIn({ start: scale.from, end: scale.to }, zone)) {
    if (isFolded(scale, day)) continue;
    const number = localDayNumber(day.start, zone);
    // Day 0 was a Thursday.
    const own = Math.floor((number + 3) / 7);
    if (own === week) continue;
    week = own;
    const label = shortDay(dayName(number)).slice(4);
    firsts.push({ minute: day.start, x: scale.x(day.start), label, strong: true });
  }
  return firsts.map((tick, i) => ({ ...tick, room: (firsts[i + 1]?.x ?? scale.width) - tick.x }));
}
