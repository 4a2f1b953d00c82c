/** Within so long and on the same day, as a map with both inverses. */
import type { Minute } from '../../time/instant.ts';
import { dayTimeToMinute, localDayNumber } from '../../time/zone.ts';
import type { MonotoneMap } from '../problem.ts';

/**
 * From a moment to the last one that is no more than `minutes` later and on the same day of the zone:
 * no night lies between.
 * @param minutes 0 or more
 * @param zone IANA name
 */
export function sameDayWithin(minutes: number, zone: string): MonotoneMap {
  const dayStart = (minute: Minute): Minute =>
    dayTimeToMinute(localDayNumber(minute, zone), 0, zone);
  const dayEnd = (minute: Minute): Minute =>
    dayTimeToMinute(localDayNumber(minute, zone) + 1, 0, zone) - 1;
  return {
    apply: (x) => Math.min(x + minutes, dayEnd(x)),
    // Either limit may be the one that holds it at or below `y`.
    latest: (y) => Math.max(y - minutes, dayStart(y + 1) - 1),
    earliest: (y) => Math.max(y - minutes, dayStart(y)),
  };
}
