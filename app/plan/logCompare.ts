/** What a log says beside the room as the build has it. */
import { cureClock } from '../cure/clock.ts';
import { roomProfile } from '../cure/profile.ts';
import type { TemperatureProfile } from '../cure/types.ts';
import { benchOf, lotOf } from '../document/hardener.ts';
import { readChainId } from '../document/ids.ts';
import type { HardenerRow, Library, Milestone } from '../document/schema.ts';
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

/** What a log that lay by one cure from its first mix to its gel says of that cure's film. */
export interface LoggedCure {
  readonly cure: string;
  readonly name: string;
  readonly hardener: string;
  readonly layups: readonly string[];
  /** Lot that it was mixed from; null: lots have no names. */
  readonly lot: string | null;
  /** Times as long as the sheet, whatever the bench had said before included. */
  readonly filmTimes: number;
  /** Minutes from first mix to gel, by the plan and by the log. */
  readonly plannedMinutes: number;
  readonly loggedMinutes: number;
}

/** A correction beyond these says that the log lay elsewhere. */
const LEAST_TIMES = 0.125;
const MOST_TIMES = 8;

/** Every cure whose gel the log saw, with the correction of its film. */
export function loggedCures(
  { detail, result }: PlanOutcome,
  { resins }: Pick<Library, 'resins'>,
  log: TemperatureProfile,
): LoggedCure[] {
  const hardeners = resins.find(({ id }) => id === detail.build.resin.system)?.hardeners ?? [];
  const [first, end] = [log[0]!.start, log.at(-1)!.end];
  return result.cures.flatMap(({ id, name, firstMix }): LoggedCure[] => {
    const made = detail.cures[id];
    const hardener = hardeners.find((row) => row.id === made?.hardener);
    if (!made || !hardener || firstMix === null) return [];
    const mixed = isoToMinute(firstMix)!;
    const gelOf = (profile: TemperatureProfile): number | null =>
      cureClock(made.model, profile, { minimumC: hardener.minimumC }).reached(mixed, 'gel');
    const [logged, planned] = [gelOf(log), gelOf(made.profile)];
    if (mixed < first || logged === null || logged > end || planned === null) return [];
    const [loggedMinutes, plannedMinutes] = [logged - mixed, planned - mixed];
    if (loggedMinutes <= 0 || plannedMinutes <= 0) return [];
    const { layups } = readChainId(id);
    const before = benchOf(detail.build, layups, hardener)?.filmTimes ?? 1;
    const filmTimes = (before * loggedMinutes) / plannedMinutes;
    if (filmTimes < LEAST_TIMES || filmTimes > MOST_TIMES) return [];
    const lot = lotOf(detail.build, layups);
    const times = { filmTimes, plannedMinutes, loggedMinutes };
    return [{ cure: id, name, hardener: hardener.id, layups, lot, ...times }];
  });
}
