/** When the frame that the part goes on is there to be fitted to. */
import { dayNumber, dayTimeToMinute, localToMinute } from '../../time/zone.ts';
import { MINUTES_PER_DAY, type Minute } from '../../time/instant.ts';
import type { FullBuild } from '../../document/schema.ts';

/** As the earliest start and the latest end of a fit; a bare day counts whole. */
export function frameThere({ part: { frame }, zone }: FullBuild): {
  readonly release?: Minute;
  readonly due?: Minute;
} {
  const from = frame?.from ?? null;
  const until = frame?.until ?? null;
  return {
    ...(from === null ? {} : { release: minuteOf(from, zone, 0) }),
    ...(until === null ? {} : { due: minuteOf(until, zone, MINUTES_PER_DAY - 1) }),
  };
}

const minuteOf = (local: string, zone: string, minuteOfDay: number): Minute =>
  local.length === 10
    ? dayTimeToMinute(dayNumber(local), minuteOfDay, zone)
    : (localToMinute(local, zone)?.minute ??
      dayTimeToMinute(dayNumber(local.slice(0, 10)), 0, zone));
