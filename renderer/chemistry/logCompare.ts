/** What a log says beside the room as the build has it. */
import type { HardenerRow, Milestone } from '../../app/document/schema.ts';
import { cureClock } from '../../app/cure/clock.ts';
import { roomProfile } from '../../app/cure/profile.ts';
import type { TemperatureProfile } from '../../app/cure/types.ts';
import { dayAndTime, plain } from '../../app/messages/words.ts';
import type { PlanOutcome } from '../../app/plan/outcome.ts';
import type { Interval, Minute } from '../../app/time/instant.ts';
import { setField, type Change } from '../edit/change.ts';
import type { Draft } from '../edit/path.ts';
import type { LineDrawing, XY } from './lineChart.ts';
import { dayTicks } from './timeTicks.ts';

export interface LogCompare {
  readonly span: Interval;
  readonly room: TemperatureProfile;
  /** Means of the log by the room's own day and night, C; null when it has no such hour. */
  readonly dayC: number | null;
  readonly nightC: number | null;
  /** First mix that both are followed from. */
  readonly mixed: Minute;
  readonly milestones: readonly {
    readonly label: string;
    /** Minutes from first mix; null: not within the log. */
    readonly logMinutes: number | null;
    readonly roomMinutes: number | null;
  }[];
}

const TICKS = 6;
const ASKED: readonly (readonly [Milestone, string])[] = [
  ['gel', 'Gel'],
  ['debag', 'Bag off'],
  ['demould', 'Demould'],
];

export function compareLog(
  { detail, result }: PlanOutcome,
  hardener: HardenerRow,
  log: TemperatureProfile,
): LogCompare {
  const { build, model } = detail;
  const span = { start: log[0]!.start, end: log.at(-1)!.end };
  const room = roomProfile(build.room, build.zone, span.start, span.end);
  const planned = result.cures.flatMap(({ firstMix }) =>
    firstMix === null ? [] : [Math.floor(Date.parse(firstMix) / 60_000)],
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
    milestones: ASKED.map(([milestone, label]) => {
      const [logMinutes, roomMinutes] = after(milestone);
      return { label, logMinutes: logMinutes ?? null, roomMinutes: roomMinutes ?? null };
    }),
  };
}

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

/** The log over the room, both by the build's clock. */
export function logDrawing(
  log: TemperatureProfile,
  { span, room }: LogCompare,
  zone: string,
): LineDrawing {
  const every = Math.max(1, Math.ceil(log.length / 700));
  const points = (profile: TemperatureProfile, step: number): XY[] => {
    const kept = profile.filter((_, i) => i % step === 0);
    const xy = kept.map(({ start: x, temperatureC: y }) => ({
      x,
      y,
      words: `${plain(y)} °C, ${dayAndTime(x, zone)}`,
    }));
    const last = profile.at(-1)!;
    return [...xy, { x: last.end, y: last.temperatureC }];
  };
  return {
    x: {
      title: '',
      min: span.start,
      max: span.end,
      ticks: dayTicks(span.start, span.end, zone, TICKS),
    },
    y: { title: '°C' },
    series: [
      { name: 'log', tone: 'cure', points: points(log, every) },
      {
        name: 'room',
        tone: 'temperature',
        dash: 1,
        stepped: true,
        points: points(room, 1),
      },
    ],
  };
}

/** The room by day and night as the log has it, to the half degree. */
export function takeRoom(document: Draft, dayC: number, nightC: number): Change {
  const half = (value: number): number => Math.round(value * 2) / 2;
  const [day, night] = [half(dayC), half(nightC)];
  const said = `${day} °C by day, ${night} °C by night, from a log`;
  return setField(document, 'room.temperatureC', { day, night }, 'Room', said);
}
