/** To the end of the next day with work, as a map with both inverses. */
import type { Calendar, Minute } from '../../time/instant.ts';
import { dayTimeToMinute, localDayNumber } from '../../time/zone.ts';
import type { MonotoneMap } from '../problem.ts';

/**
 * From a moment to the last minute of the first day after its own on which somebody works: what is done
 * on a Friday is good until the end of Monday.
 * @param hours hours of the shop, in order
 * @param zone IANA name
 */
export function nextWorkday(hours: Calendar, zone: string): MonotoneMap {
  const startOf = (day: number): Minute => dayTimeToMinute(day, 0, zone);
  const days = [
    ...new Set(
      hours.flatMap(({ start, end }) => [
        localDayNumber(start, zone),
        localDayNumber(end - 1, zone),
      ]),
    ),
  ]
    .sort((a, b) => a - b)
    .map((day) => ({ start: startOf(day), last: startOf(day + 1) - 1 }));
  return {
    apply: (x) => {
      const tomorrow = startOf(localDayNumber(x, zone) + 1);
      return days.find(({ start }) => start >= tomorrow)?.last ?? null;
    },
    latest: (y) => {
      const day = days.findLast(({ last }) => last <= y);
      return day ? day.start - 1 : null;
    },
    earliest: (y) => {
      const next = days.findIndex(({ last }) => last >= y);
      return next < 0 ? null : (days[next - 1]?.start ?? -Infinity);
    },
  };
}
