/** Nights, closed days and the ticks of the time axis. */
import { minuteToLocal, localDayNumber, dayTimeToMinute } from '../time/zone.ts';
import type { Calendar, Interval, Minute } from '../time/instant.ts';
import { dayName, weekdayOfDay } from '../time/zone.ts';
import { shortDay } from '../shop/words.ts';
import type { TimeScale } from './scale.ts';

export interface Shade extends Interval {
  readonly kind: 'night' | 'closed';
}

/** A break shorter than this is not a night. */
const SHORTEST_NIGHT = 150;

/**
 * Stretches in which nobody works: whole local days as `closed`, the rest as `night`; breaks in the
 * shift are left out.
 */
export function shadesOf(world: Interval, shopHours: Calendar, zone: string): Shade[] {
  const shades: Shade[] = [];
  for (const day of daysIn(world, zone)) {
    const open = shopHours.filter((span) => span.end > day.start && span.start < day.end);
    if (open.length === 0) {
      shades.push({ ...day, kind: 'closed' });
      continue;
    }
    let at = day.start;
    for (const span of [...open, { start: day.end, end: day.end }]) {
      const isEdge = at === day.start || span.start === day.end;
      if (span.start > at && (isEdge || span.start - at > SHORTEST_NIGHT)) {
        shades.push({ start: at, end: span.start, kind: 'night' });
      }
      at = Math.max(at, Math.min(span.end, day.end));
    }
  }
  return shades;
}

/** Local days that meet the span, in order, each from midnight to midnight. */
export function daysIn(span: Interval, zone: string): Interval[] {
  const days: Interval[] = [];
  const last = localDayNumber(span.end - 1, zone);
  for (let day = localDayNumber(span.start, zone); day <= last; day++) {
    days.push({ start: dayTimeToMinute(day, 0, zone), end: dayTimeToMinute(day + 1, 0, zone) });
  }
  return days;
}

export interface Tick {
  readonly minute: Minute;
  readonly x: number;
  /** Empty where there is no room for words. */
  readonly label: string;
  /** First day of a week or, among hours, midnight. */
  readonly strong: boolean;
}

/** Ticks of the days: as many words as the width of a day allows, Mondays strong. */
export function dayTicks(scale: TimeScale, zone: string): Tick[] {
  const dayPx = 1440 * scale.pxPerMinute;
  return daysIn({ start: scale.from, end: scale.to }, zone).map((day) => {
    const number = localDayNumber(day.start, zone);
    const isMonday = weekdayOfDay(number) === 'mon';
    return {
      minute: day.start,
      x: scale.x(day.start),
      label:
        scale.width - scale.x(day.start) < LEAST_LABEL_PX
          ? ''
          : dayLabel(dayName(number), dayPx, isMonday),
      strong: isMonday,
    };
  });
}

/** Widths from which each way of writing a day fits, at 12 px type. */
const FULL_DAY_PX = 76;
const WEEKDAY_PX = 48;
const NUMBER_PX = 22;
/** The last day has no words where they would be cut off. */
const LEAST_LABEL_PX = 50;
/** Least width of a day, px, at which Mondays alone are named: each has the width of a week. */
const MONDAY_PX = 9;

function dayLabel(date: string, dayPx: number, isMonday: boolean): string {
  const full = shortDay(date);
  if (dayPx >= FULL_DAY_PX) return full;
  if (dayPx >= WEEKDAY_PX) return full.slice(0, 6).trim();
  if (isMonday && dayPx >= MONDAY_PX && dayPx < NUMBER_PX) return full.slice(4);
  if (dayPx >= NUMBER_PX) return String(Number(date.slice(8, 10)));
  return '';
}

/** Hour ticks between the days, none while they would crowd. */
export function hourTicks(scale: TimeScale, zone: string, from: Minute, to: Minute): Tick[] {
  const hourPx = 60 * scale.pxPerMinute;
  const every = [1, 2, 3, 6, 12].find((hours) => hours * hourPx >= 52);
  if (every === undefined) return [];
  const ticks: Tick[] = [];
  for (let minute = Math.ceil(from / 60) * 60; minute <= to; minute += 60) {
    const { time } = minuteToLocal(minute, zone);
    const hour = Number(time.slice(0, 2));
    // Zones half an hour off put their full hours on half ones of UTC.
    if (hour % every !== 0 || hour === 0) continue;
    const shift = Number(time.slice(3));
    const at = minute - shift;
    ticks.push({ minute: at, x: scale.x(at), label: `${time.slice(0, 3)}00`, strong: false });
  }
  return ticks;
}

/** Months, to be written once where each begins in the span. */
export function monthTicks(scale: TimeScale, zone: string): Tick[] {
  const ticks: Tick[] = [];
  let month = '';
  for (const day of daysIn({ start: scale.from, end: scale.to }, zone)) {
    const date = dayName(localDayNumber(day.start, zone));
    if (date.slice(0, 7) === month) continue;
    month = date.slice(0, 7);
    ticks.push({ minute: day.start, x: scale.x(day.start), label: monthName(date), strong: true });
  }
  return ticks;
}

const monthName = (date: string): string => {
  const short = shortDay(date).slice(-3);
  return `${short} ${date.slice(0, 4)}`;
};
