/**
 * Minutes at which something may begin, as half-open intervals in order: exactly those that a look at
 * every minute would find, without the look. Maps are nondecreasing, so that what holds at one minute
 * holds up to the last one with the same limit, and what fails goes on failing up to the first whose
 * limit comes late enough.
 */
import type { Calendar, Interval, Minute } from '../time/instant.ts';
import type { MonotoneMap } from './problem.ts';

/** Starts of so many minutes on end within hours. */
export const startsWithin = (hours: Calendar, minutes: number): Calendar =>
  hours
    .filter(({ start, end }) => end - start >= minutes)
    .map(({ start, end }) => ({ start, end: end - minutes + 1 }));

/** Minutes later, as a map with both inverses. */
export const shift = (minutes: number): MonotoneMap => ({
  apply: (x) => x + minutes,
  latest: (y) => y - minutes,
  earliest: (y) => y - minutes,
});

/** Starts whose moment by the map lies in one of the intervals. */
export function startsReaching({ latest, earliest }: MonotoneMap, moments: Calendar): Calendar {
  return joined(
    moments.flatMap(({ start, end }): Interval[] => {
      const [first, last] = [earliest(start), latest(end - 1)];
      return first === null || last === null || last < first
        ? []
        : [{ start: first, end: last + 1 }];
    }),
  );
}

/**
 * Starts at which one moment comes no later than another, both of them within what is known: where a
 * temperature profile ends, nothing is said of what comes after.
 */
export function startsInOrder(
  earlier: MonotoneMap,
  later: MonotoneMap,
  among: Calendar,
  /** No minute before this holds, after one that failed, whose moment is given; from the map when absent. */
  nextAfter: (failed: Minute, moment: Minute) => Minute | null = (_, moment) =>
    later.earliest(moment),
): Calendar {
  const out: Interval[] = [];
  for (const { start, end } of among) {
    let minute: Minute | null = start;
    while (minute !== null && minute < end) {
      const limit = later.apply(minute);
      const moment = earlier.apply(minute);
      if (limit === null || moment === null) break;
      if (moment <= limit) {
        const last: Minute = Math.max(minute, earlier.latest(limit) ?? minute);
        out.push({ start: minute, end: Math.min(end, last + 1) });
        minute = last + 1;
      } else {
        const next: Minute | null = nextAfter(minute, moment);
        minute = next === null ? null : Math.max(minute + 1, next);
      }
    }
  }
  return joined(out);
}

/** Intervals sorted by start, those that touch or overlap as one. */
export function joined(intervals: readonly Interval[]): Calendar {
  const out: { start: Minute; end: Minute }[] = [];
  for (const { start, end } of intervals) {
    const last = out.at(-1);
    if (last && start <= last.end) last.end = Math.max(last.end, end);
    else out.push({ start, end });
  }
  return out;
}
