/**
 * Wall clocks of IANA zones against minutes of Unix UTC. The zone library is asked for offsets only
 * while a year's spans are built; after that every conversion is a look-up.
 */
import { tzOffset } from '@date-fns/tz/tzOffset';
import { WEEKDAYS, type Weekday } from './week.ts';
import { MINUTES_PER_DAY, type Minute } from './instant.ts';

const MS_PER_MINUTE = 60_000;
const MINUTES_PER_WEEK = 7 * MINUTES_PER_DAY;
/** No two zones differ from UTC by more than this. */
const WIDEST_OFFSET = 16 * 60;

/** Spans of constant offset around one year: span i runs from `from[i]` to the next one's start. */
interface ZoneSpans {
  /** The year, [opens, closes). */
  readonly opens: Minute;
  readonly closes: Minute;
  readonly from: Minute[];
  readonly offset: number[];
}

const spansByZone = new Map<string, Map<number, ZoneSpans>>();

const yearOf = (minute: Minute): number => new Date(minute * MS_PER_MINUTE).getUTCFullYear();
const startOfYear = (year: number): Minute => Date.UTC(year, 0, 1) / MS_PER_MINUTE;
const askOffset = (zone: string, minute: Minute): number =>
  Math.round(tzOffset(zone, new Date(minute * MS_PER_MINUTE)));

/** First minute after `low` with another offset, known to lie at or before `high`. */
function changeBetween(zone: string, low: Minute, high: Minute, before: number): Minute {
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (askOffset(zone, middle) === before) low = middle;
    else high = middle;
  }
  return high;
}

/** The year with two days to either side, so that no wall clock near its ends falls outside. */
function buildSpans(zone: string, year: number): ZoneSpans {
  const start = startOfYear(year) - 2 * MINUTES_PER_DAY;
  const end = startOfYear(year + 1) + 2 * MINUTES_PER_DAY;
  let last = askOffset(zone, start);
  const [opens, closes] = [startOfYear(year), startOfYear(year + 1)];
  const spans: ZoneSpans = { opens, closes, from: [start], offset: [last] };
  for (let low = start; low < end; low += MINUTES_PER_WEEK) {
    const high = Math.min(low + MINUTES_PER_WEEK, end);
    const next = askOffset(zone, high);
    if (next === last) continue;
    spans.from.push(changeBetween(zone, low, high, last));
    spans.offset.push(next);
    last = next;
  }
  return spans;
}

/** The answer last given: questions come day after day of one zone. */
let lastAsked: { readonly zone: string; readonly spans: ZoneSpans } | null = null;

function spansFor(zone: string, minute: Minute): ZoneSpans {
  if (lastAsked?.zone === zone) {
    const { spans } = lastAsked;
    if (minute >= spans.opens && minute < spans.closes) return spans;
  }
  const spans = spansOfYear(zone, minute);
  lastAsked = { zone, spans };
  return spans;
}

function spansOfYear(zone: string, minute: Minute): ZoneSpans {
  let years = spansByZone.get(zone);
  if (!years) spansByZone.set(zone, (years = new Map()));
  const year = yearOf(minute);
  let spans = years.get(year);
  if (!spans) years.set(year, (spans = buildSpans(zone, year)));
  return spans;
}

function spanIndex(spans: ZoneSpans, minute: Minute): number {
  let low = 0;
  let high = spans.from.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (spans.from[middle]! <= minute) low = middle;
    else high = middle - 1;
  }
  return low;
}

/** Minutes that the zone's wall clock is ahead of UTC at an instant. */
export function offsetAt(minute: Minute, zone: string): number {
  const spans = spansFor(zone, minute);
  return spans.offset[spanIndex(spans, minute)]!;
}

/** Days since 1970-01-01 of a calendar day `YYYY-MM-DD`. */
export function dayNumber(date: string): number {
  return (
    Date.UTC(Number(date.slice(0, 4)), Number(date.slice(5, 7)) - 1, Number(date.slice(8, 10))) /
    (MINUTES_PER_DAY * MS_PER_MINUTE)
  );
}

const pad = (value: number): string => (value < 10 ? `0${value}` : String(value));

/** Calendar day `YYYY-MM-DD` of a count of days since 1970-01-01. */
export function dayName(day: number): string {
  const date = new Date(day * MINUTES_PER_DAY * MS_PER_MINUTE);
  const year = String(date.getUTCFullYear()).padStart(4, '0');
  return `${year}-${pad(date.getUTCMonth() + 1)}-${pad(date.getUTCDate())}`;
}

/** Weekday of a count of days since 1970-01-01, which was a Thursday. */
export const weekdayOfDay = (day: number): Weekday => WEEKDAYS[(((day + 3) % 7) + 7) % 7]!;

export interface LocalInstant {
  readonly minute: Minute;
  /** 'twice': the clock was put back over it; `minute` is the earlier of the two. */
  readonly occurs: 'once' | 'twice';
}

/** Instants at which the zone's wall clock, counted from 1970-01-01T00:00, shows `wall`; in order. */
function instantsOf(wall: number, zone: string): Minute[] {
  const spans = spansFor(zone, wall);
  const found: Minute[] = [];
  const last = spanIndex(spans, wall + WIDEST_OFFSET);
  for (let i = spanIndex(spans, wall - WIDEST_OFFSET); i <= last; i++) {
    const minute = wall - spans.offset[i]!;
    const end = spans.from[i + 1] ?? Infinity;
    if (minute >= spans.from[i]! && minute < end) found.push(minute);
  }
  return found;
}

/**
 * The instant of a wall-clock time `YYYY-MM-DDTHH:MM` in an IANA zone, or of a day `YYYY-MM-DD`: its
 * first minute, which some zones have at 01:00 on one day of the year. With an offset behind it
 * (`+01:00`) it is that instant.
 * @returns null when the clock was put forward over that time of day: it does not exist.
 */
export function localToMinute(local: string, zone: string): LocalInstant | null {
  if (local.length > 16) {
    const minute = isoToMinute(local);
    return minute === null ? null : { minute, occurs: 'once' };
  }
  const day = dayNumber(local);
  if (local.length <= 10) return { minute: dayTimeToMinute(day, 0, zone), occurs: 'once' };
  const wall =
    day * MINUTES_PER_DAY + Number(local.slice(11, 13)) * 60 + Number(local.slice(14, 16));
  const found = instantsOf(wall, zone);
  if (found.length === 0) return null;
  return { minute: found[0]!, occurs: found.length > 1 ? 'twice' : 'once' };
}

/** The later instant of a wall-clock minute that the zone shows twice; null: it is shown once, or never. */
export function secondMinute(local: string, zone: string): Minute | null {
  if (local.length !== 16 || localToMinute(local, zone)?.occurs !== 'twice') return null;
  const wall =
    dayNumber(local) * MINUTES_PER_DAY +
    Number(local.slice(11, 13)) * 60 +
    Number(local.slice(14, 16));
  return instantsOf(wall, zone).at(-1)!;
}

/**
 * The first instant at which the wall clock shows `minuteOfDay` (0 to 1440) of a day, or anything
 * later: where the clock is put forward over that time, the moment of the change.
 */
export function dayTimeToMinute(day: number, minuteOfDay: number, zone: string): Minute {
  const wall = day * MINUTES_PER_DAY + minuteOfDay;
  const spans = spansFor(zone, wall);
  const first = spanIndex(spans, wall - WIDEST_OFFSET);
  const last = spanIndex(spans, wall + WIDEST_OFFSET);
  if (first === last) return wall - spans.offset[first]!;
  const found = instantsOf(wall, zone);
  if (found.length > 0) return found[0]!;
  for (let i = first + 1; i <= last; i++) {
    if (spans.from[i]! + spans.offset[i]! > wall) return spans.from[i]!;
  }
  return wall - spans.offset[last]!;
}

export interface LocalTime {
  /** YYYY-MM-DD */
  readonly date: string;
  /** HH:MM */
  readonly time: string;
  readonly weekday: Weekday;
}

const timeOfDay = (minuteOfDay: number): string =>
  `${pad(Math.floor(minuteOfDay / 60))}:${pad(minuteOfDay % 60)}`;

/** What the wall clock and the calendar of an IANA zone show at an instant. */
export function minuteToLocal(minute: Minute, zone: string): LocalTime {
  const wall = minute + offsetAt(minute, zone);
  const day = Math.floor(wall / MINUTES_PER_DAY);
  return {
    date: dayName(day),
    time: timeOfDay(wall - day * MINUTES_PER_DAY),
    weekday: weekdayOfDay(day),
  };
}

/** Days since 1970-01-01 on the zone's own calendar at an instant. */
export const localDayNumber = (minute: Minute, zone: string): number =>
  Math.floor((minute + offsetAt(minute, zone)) / MINUTES_PER_DAY);

/** ISO 8601 with the zone's offset, to the minute: `2027-05-14T18:00+01:00`. */
export function minuteToIso(minute: Minute, zone: string): string {
  const offset = offsetAt(minute, zone);
  const wall = minute + offset;
  const day = Math.floor(wall / MINUTES_PER_DAY);
  const size = Math.abs(offset);
  return `${dayName(day)}T${timeOfDay(wall - day * MINUTES_PER_DAY)}${offset < 0 ? '-' : '+'}${timeOfDay(size)}`;
}

const ISO = /^(\d{4}-\d\d-\d\d)T(\d\d):(\d\d)(?::\d\d(?:\.\d+)?)?(?:Z|([+-])(\d\d):?(\d\d))$/;

/** The minute in which an ISO 8601 instant with `Z` or an offset falls; null when it is not one. */
export function isoToMinute(iso: string): Minute | null {
  const match = ISO.exec(iso);
  if (!match || dayName(dayNumber(match[1]!)) !== match[1]) return null;
  const [hour, minute] = [Number(match[2]), Number(match[3])];
  if (hour > 23 || minute > 59) return null;
  const offset = match[4] ? Number(match[5]) * 60 + Number(match[6]) : 0;
  const wall = dayNumber(match[1]!) * MINUTES_PER_DAY + hour * 60 + minute;
  return wall - (match[4] === '-' ? -offset : offset);
}
