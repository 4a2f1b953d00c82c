/** How long an order takes: working days of the supplier, taken in while it delivers. */
import type { Calendar, Interval, Minute } from '../../time/instant.ts';
import { localDayNumber } from '../../time/zone.ts';
import type { Length } from '../problem.ts';

/** First and last minute of each day in the calendar. */
function daysOf(receives: Calendar, zone: string): Interval[] {
  const days = new Map<number, Interval>();
  for (const { start, end } of receives) {
    const day = localDayNumber(start, zone);
    days.set(day, { start: days.get(day)?.start ?? start, end });
  }
  return [...days.values()];
}

/** Position of the first day that ends after `minute`. */
function firstAfter(days: readonly Interval[], minute: Minute): number {
  let [low, high] = [0, days.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (days[middle]!.end > minute) high = middle;
    else low = middle + 1;
  }
  return low;
}

/**
 * From the order to the goods in the shop. An order placed before a day's closing hour counts from that
 * day; one placed later counts from the supplier's next working day. The goods come so many of its working
 * days later, at some hour of that day: the plan counts on its last one.
 * @param receives hours in which the supplier works and its goods are taken in, as minutes of Unix UTC
 * @param leadDays its working days from order to arrival, 0 or more
 * @param zone of the clock by which its days are told apart
 */
export function deliveryLength(receives: Calendar, leadDays: number, zone: string): Length {
  const days = daysOf(receives, zone);
  return {
    kind: 'function',
    endOf: (start) => days[firstAfter(days, start) + leadDays]?.end ?? null,
    latestStart: (end) => {
      const ordered = days[firstAfter(days, end) - 1 - leadDays];
      return ordered === undefined ? null : ordered.end - 1;
    },
  };
}
