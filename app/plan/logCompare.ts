/** What a log says beside the room as the build has it. */
import { cureClock } from '../cure/clock.ts';
import { roomProfile } from '../cure/profile.ts';
import type { TemperatureProfile } from '../cure/types.ts';
import type { HardenerRow, Milestone } from '../document/schema.ts';
import type { Interval, Minute } from '../time/instant.ts';
import { isoToMinute } from '../time/zone.ts';
import type { PlanOutcome } from './outcome.ts';

const ASKED = ['gel', 'debag', 'demould'] as const satisfies readonly Milestone[];

export interface LogCompare {
  readonly span: Interval;
  readonly room: TemperatureProfile;
  /** Means of the log by the room's own day and night, C; null when it has no such hour. */
  readonly dayC: number | null;
  readonly nightC: number | null;
  /** Names of the cures that it was there for, at least in part; none: it is of other days. */
  readonly cures: readonly string[];
  /** First mix that both are followed from. */
  readonly mixed: Minute;
  readonly milestones: readonly {
    readonly milestone: (typeof ASKED)[number];
    /** Minutes from first mix; null: not within the log. */
    readonly logMinutes: number | null;
    readonly roomMinutes: number | null;
  }[];
}

/**
 * A log beside the room as the build has it: mean day and night, C, and each milestone by both.
 * @param hardener whose least temperature holds for both clocks
 * @param log contiguous, not empty, C
 */
export function compareLog(
  { detail, result }: PlanOutcome,
  hardener: HardenerRow,
  log: TemperatureProfile,
): LogCompare {
  const { build, model } = detail;
  const span = { start: log[0]!.start, end: log.at(-1)!.end };
  const room = roomProfile(build.room, build.zone, span.start, span.end);
  const planned = result.cures.flatMap(({ firstMix }) =>
    firstMix === null ? [] : [isoToMinute(firstMix)!],
  );
  const mixed = planned.find((at) => at >= span.start && at < span.end) ?? span.start;
  const clocks = [log, room].map((profile) =>
    cureClock(model, profile, { minimumC: hardener.minimumC }),
  );
  const after = (milestone: Milestone): (number | null)[] =>
    clocks.map((one) => {
      const reached = one.reached(mixed, milestone);
      return reached === null ? null : reached - mixed;
    });
  // The room's own days and nights as ones and noughts.
  const days = roomProfile(
    { ...build.room, temperatureC: { day: 1, night: 0 } },
    build.zone,
    span.start,
    span.end,
  );
  const means = meansOf(log, days);
  return {
    span,
    room,
    dayC: means.day,
    nightC: means.night,
    mixed,
    cures: curesWithin(result, span),
    milestones: ASKED.map((milestone) => {
      const [logMinutes, roomMinutes] = after(milestone);
      return { milestone, logMinutes: logMinutes ?? null, roomMinutes: roomMinutes ?? null };
    }),
  };
}

/** Cures between whose first mix and demould a span lies, at least in part. */
const curesWithin = ({ cures }: PlanOutcome['result'], { start, end }: Interval): string[] =>
  cures.flatMap(({ name, firstMix, demouldFrom }) => {
    const from = firstMix === null ? null : isoToMinute(firstMix)!;
    const until = demouldFrom === null ? from : isoToMinute(demouldFrom)!;
    return from !== null && start < until! && end > from ? [name] : [];
  });

/** Means of the log over the ones and over the noughts of another profile of the same span. */
function meansOf(log: TemperatureProfile, days: TemperatureProfile) {
  const sums = { day: 0, night: 0 };
  const minutes = { day: 0, night: 0 };
  let at = 0;
  for (const { start, end, temperatureC } of log) {
    while (at > 0 && days[at]!.start > start) at--;
    for (let i = at; i < days.length && days[i]!.start < end; i++) {
      at = i;
      const shared = Math.min(end, days[i]!.end) - Math.max(start, days[i]!.start);
      if (shared <= 0) continue;
      const when = days[i]!.temperatureC === 1 ? 'day' : 'night';
      sums[when] += temperatureC * shared;
      minutes[when] += shared;
    }
  }
  const mean = (when: 'day' | 'night'): number | null =>
    minutes[when] > 0 ? sums[when] / minutes[when] : null;
  return { day: mean('day'), night: mean('night') };
}
