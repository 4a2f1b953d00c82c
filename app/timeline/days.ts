/** Local days as stretches of time. */
import type { Interval } from '../time/instant.ts';
import { dayTimeToMinute, localDayNumber } from '../time/zone.ts';

/** Local days that meet the span, in order, each from midnight to midnight. */
export function daysIn(span: Interval, zone: string): Interval[] {
  const days: Interval[] = [];
  const last = localDayNumber(span.end - 1, zone);
  for (let day = localDayNumber(span.start, zone); day <= last; day++) {
    days.push({ start: dayTimeToMinute(day, 0, zone), end: dayTimeToMinute(day + 1, 0, zone) });
  }
  return days;
}

/** Whole local days around everything that is drawn. */
export function wholeDaysAround(spans: readonly Interval[], zone: string): Interval {
  const start = Math.min(...spans.map((span) => span.start));
  const end = Math.max(...spans.map((span) => span.end));
  const last = localDayNumber(end, zone);
  return {
    start: dayTimeToMinute(localDayNumber(start, zone), 0, zone),
    end: dayTimeToMinute(last + 1, 0, zone),
  };
}
