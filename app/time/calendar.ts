/**
 * Working calendars as sorted minute intervals, expanded once from weekly hours, and the counting of
 * work inside them. Every question is a binary search over sums made once for each calendar.
 */
import type { Calendar, Interval, Minute } from './instant.ts';
import { WEEKDAYS, type WeekHours } from './week.ts';
import { dayNumber, dayTimeToMinute, localDayNumber, weekdayOfDay } from './zone.ts';

/** A calendar in flat arrays; `before[i]` is the work that lies ahead of interval i. */
export interface WorkTable {
  readonly count: number;
  readonly start: Int32Array;
  readonly end: Int32Array;
  readonly before: Int32Array;
}

/** A break in the shift is not an empty shop: gaps up to this count as worked, minutes. */
export const LONGEST_BREAK_MINUTES = 150;

const tables = new WeakMap<Calendar, WorkTable>();

/** Flat arrays of a calendar, made once and kept as long as the calendar is. */
export function workTable(calendar: Calendar): WorkTable {
  const known = tables.get(calendar);
  if (known) return known;
  const count = calendar.length;
  const start = new Int32Array(count);
  const end = new Int32Array(count);
  const before = new Int32Array(count + 1);
  for (let i = 0; i < count; i++) {
    start[i] = calendar[i]!.start;
    end[i] = calendar[i]!.end;
    before[i + 1] = before[i]! + end[i]! - start[i]!;
  }
  const table = { count, start, end, before };
  tables.set(calendar, table);
  return table;
}

/** Index of the first interval that ends after `minute`; `count` when there is none. */
export function intervalAfter(table: WorkTable, minute: Minute): number {
  let low = 0;
  let high = table.count;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (table.end[middle]! > minute) high = middle;
    else low = middle + 1;
  }
  return low;
}

/** Open minutes before an instant. */
function workBefore(table: WorkTable, minute: Minute): number {
  const i = intervalAfter(table, minute);
  if (i === table.count) return table.before[i]!;
  return table.before[i]! + Math.max(0, minute - table.start[i]!);
}

/** Minutes of work between two instants; 0 when `b` is not after `a`. */
export function workBetween(calendar: Calendar, a: Minute, b: Minute): number {
  if (b <= a) return 0;
  const table = workTable(calendar);
  return workBefore(table, b) - workBefore(table, a);
}

/** `addWork` on flat arrays; -1 when the calendar ends first. */
export function tableAddWork(table: WorkTable, start: Minute, minutes: number): Minute {
  if (minutes <= 0) return start;
  const total = workBefore(table, start) + minutes;
  // First interval whose work, all before it included, reaches the total.
  let low = 0;
  let high = table.count;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (table.before[middle + 1]! >= total) high = middle;
    else low = middle + 1;
  }
  if (low === table.count) return -1;
  return table.start[low]! + (total - table.before[low]!);
}

/**
 * The latest open minute at which work may begin and be done by `end`, pausing while closed.
 * @returns -1 when the calendar begins too late for that
 */
export function tableStartForWork(table: WorkTable, end: Minute, minutes: number): Minute {
  if (minutes <= 0) return end;
  const done = workBefore(table, end) - minutes;
  if (done < 0) return -1;
  // Last interval that begins with no more work behind it than that.
  let low = 0;
  let high = table.count - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (table.before[middle]! <= done) low = middle;
    else high = middle - 1;
  }
  return table.start[low]! + (done - table.before[low]!);
}

/**
 * When work begun at `start` is done, pausing while the calendar is closed.
 * @returns null when the calendar ends before the work does.
 */
export function addWork(calendar: Calendar, start: Minute, minutes: number): Minute | null {
  const end = tableAddWork(workTable(calendar), start, minutes);
  return end < 0 ? null : end;
}

/** The first open minute at or after an instant; null when the calendar has ended. */
export function nextOpen(calendar: Calendar, minute: Minute): Minute | null {
  const table = workTable(calendar);
  const i = intervalAfter(table, minute);
  return i === table.count ? null : Math.max(minute, table.start[i]!);
}

/** The interval that holds a minute, or null while the calendar is closed. */
export function containingInterval(calendar: Calendar, minute: Minute): Interval | null {
  const i = intervalAfter(workTable(calendar), minute);
  const interval = calendar[i];
  return interval && interval.start <= minute ? interval : null;
}

/** Minutes of the day of `HH:MM`, 24:00 included. */
const minuteOfDay = (time: string): number =>
  Number(time.slice(0, 2)) * 60 + Number(time.slice(3, 5));

function push(out: { start: Minute; end: Minute }[], start: Minute, end: Minute): void {
  if (end <= start) return;
  const last = out[out.length - 1];
  if (last && start <= last.end) last.end = Math.max(last.end, end);
  else out.push({ start, end });
}

/**
 * Weekly hours of a zone's wall clock as minute intervals in [from, to), days off left out.
 * A time that the clock skips is the moment of the change; one that occurs twice is the earlier.
 */
export function expandHours(
  hours: WeekHours,
  off: readonly string[],
  zone: string,
  from: Minute,
  to: Minute,
): Calendar {
  const out: { start: Minute; end: Minute }[] = [];
  const closed = new Set(off.map(dayNumber));
  const week = new Map(
    WEEKDAYS.map((day) => [
      day,
      (hours[day] ?? []).map(
        ([opens, closes]) => [minuteOfDay(opens), minuteOfDay(closes)] as const,
      ),
    ]),
  );
  const lastDay = localDayNumber(to, zone);
  for (let day = localDayNumber(from, zone); day <= lastDay; day++) {
    if (closed.has(day)) continue;
    for (const [opens, closes] of week.get(weekdayOfDay(day))!) {
      const start = dayTimeToMinute(day, opens, zone);
      const end = dayTimeToMinute(day, closes, zone);
      push(out, Math.max(start, from), Math.min(end, to));
    }
  }
  return out;
}

/** Open in both. */
export function intersect(a: Calendar, b: Calendar): Calendar {
  const out: { start: Minute; end: Minute }[] = [];
  let i = 0;
  let j = 0;
  while (i < a.length && j < b.length) {
    const [x, y] = [a[i]!, b[j]!];
    push(out, Math.max(x.start, y.start), Math.min(x.end, y.end));
    if (x.end <= y.end) i++;
    else j++;
  }
  return out;
}

/** Open in either. */
export function unite(a: Calendar, b: Calendar): Calendar {
  const out: { start: Minute; end: Minute }[] = [];
  let i = 0;
  let j = 0;
  while (i < a.length || j < b.length) {
    const takeA = j >= b.length || (i < a.length && a[i]!.start <= b[j]!.start);
    const next = takeA ? a[i++]! : b[j++]!;
    push(out, next.start, next.end);
  }
  return out;
}

/** Open in `a` and not in `b`. */
export function subtract(a: Calendar, b: Calendar): Calendar {
  const out: { start: Minute; end: Minute }[] = [];
  let j = 0;
  for (const whole of a) {
    let start = whole.start;
    while (j < b.length && b[j]!.end <= start) j++;
    let k = j;
    while (k < b.length && b[k]!.start < whole.end) {
      push(out, start, b[k]!.start);
      start = Math.max(start, b[k]!.end);
      k++;
    }
    push(out, start, whole.end);
  }
  return out;
}
