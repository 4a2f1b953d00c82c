/** What a log says beside the room as the build has it. */
import type { HardenerRow, Milestone } from '../../app/build/schema.ts';
import { cureClock } from '../../app/cure/clock.ts';
import { roomProfile } from '../../app/cure/profile.ts';
import type { CureModel, TemperatureProfile } from '../../app/cure/types.ts';
import { dayAndTime, plain } from '../../app/messages/words.ts';
import type { PlanOutcome } from '../../app/outcome.ts';
import type { Interval, Minute } from '../../app/time/instant.ts';
import { minuteToLocal } from '../../app/time/zone.ts';
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
  const after = (profile: TemperatureProfile, milestone: Milestone): number | null =>
    minutesTo(model, hardener, profile, mixed, milestone);
  const isDay = (minute: Minute): boolean => {
    const { time } = minuteToLocal(minute, build.zone);
    const { dayFrom, nightFrom } = build.room;
    return dayFrom < nightFrom
      ? time >= dayFrom && time < nightFrom
      : time >= dayFrom || time < nightFrom;
  };
  return {
    span,
    room,
    dayC: meanOf(log, isDay),
    nightC: meanOf(log, (minute) => !isDay(minute)),
    mixed,
    milestones: ASKED.map(([milestone, label]) => ({
      label,
      logMinutes: after(log, milestone),
      roomMinutes: after(room, milestone),
    })),
  };
}

function minutesTo(
  model: CureModel,
  { minimumC }: HardenerRow,
  profile: TemperatureProfile,
  start: Minute,
  milestone: Milestone,
): number | null {
  const reached = cureClock(model, profile, { minimumC }).reached(start, milestone);
  return reached === null ? null : reached - start;
}

function meanOf(log: TemperatureProfile, counts: (minute: Minute) => boolean): number | null {
  const own = log.filter(({ start }) => counts(start));
  const minutes = own.reduce((sum, { start, end }) => sum + (end - start), 0);
  if (minutes === 0) return null;
  return own.reduce((sum, s) => sum + s.temperatureC * (s.end - s.start), 0) / minutes;
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
    x: { title: '', min: span.start, max: span.end, ticks: dayTicks(span.start, span.end, zone) },
    y: { title: '°C' },
    series: [
      { name: 'log', tone: 'cure', points: points(log, every) },
      {
        name: 'room in the build',
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
