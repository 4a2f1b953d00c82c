/** Temperature over time, piecewise constant: the room by day and night, with heat laid over it. */
import type { FullBuild } from '../document/schema.ts';
import { MINUTES_PER_DAY, type Minute } from '../time/instant.ts';
import { dayTimeToMinute, localDayNumber } from '../time/zone.ts';
import type { TemperatureProfile, TemperatureSegment } from './types.ts';

/**
 * The room's temperature by the build's wall clock from `from` to `to` (minutes of Unix UTC):
 * day temperature from `dayFrom`, night temperature from `nightFrom`. When both are the same time
 * it is day all the time. Contiguous; empty when `to` is not after `from`.
 */
export function roomProfile(
  room: Pick<FullBuild['room'], 'temperatureC' | 'dayFrom' | 'nightFrom'>,
  zone: string,
  from: Minute,
  to: Minute,
): TemperatureProfile {
  if (to <= from) return [];
  const { day, night } = room.temperatureC;
  const dayFrom = minuteOfDay(room.dayFrom);
  const nightFrom = minuteOfDay(room.nightFrom);
  if (dayFrom === nightFrom || day === night) {
    return [{ start: from, end: to, temperatureC: day }];
  }
  const switches: { minute: Minute; temperatureC: number }[] = [];
  const lastDay = localDayNumber(to, zone) + 1;
  for (let date = localDayNumber(from, zone) - 1; date <= lastDay; date++) {
    switches.push(
      { minute: dayTimeToMinute(date, dayFrom, zone), temperatureC: day },
      { minute: dayTimeToMinute(date, nightFrom, zone), temperatureC: night },
    );
  }
  switches.sort((a, b) => a.minute - b.minute);
  return switches.flatMap(({ minute, temperatureC }, i) =>
    cut({ start: minute, end: switches[i + 1]?.minute ?? minute, temperatureC }, from, to),
  );
}

function minuteOfDay(time: string): number {
  return (Number(time.slice(0, 2)) * 60 + Number(time.slice(3, 5))) % MINUTES_PER_DAY;
}

/** The part of a segment inside [from, to), as a list of none or one. */
function cut(segment: TemperatureSegment, from: Minute, to: Minute): TemperatureSegment[] {
  const start = Math.max(segment.start, from);
  const end = Math.min(segment.end, to);
  return start < end ? [{ start, end, temperatureC: segment.temperatureC }] : [];
}

/** Index of the segment that holds the minute; -1 outside the profile. O(log n). */
export function segmentIndexAt(profile: TemperatureProfile, minute: Minute): number {
  let low = 0;
  let high = profile.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (profile[middle]!.start <= minute) low = middle + 1;
    else high = middle;
  }
  const i = low - 1;
  return i >= 0 && minute < profile[i]!.end ? i : -1;
}

/** Temperature at a minute, C; null outside the profile. */
export function temperatureAt(profile: TemperatureProfile, minute: Minute): number | null {
  return profile[segmentIndexAt(profile, minute)]?.temperatureC ?? null;
}

/**
 * Lowest and highest temperature met in [from, to), C; at a single minute when both are the same.
 * @throws Error when the stretch lies wholly outside the profile.
 */
export function temperatureRange(
  profile: TemperatureProfile,
  from: Minute,
  to: Minute,
): { minC: number; maxC: number } {
  let minC = Infinity;
  let maxC = -Infinity;
  const first = profile[0];
  if (!first) throw new Error('An empty temperature profile has no range.');
  const begin = Math.max(from, first.start);
  for (let i = Math.max(0, segmentIndexAt(profile, begin)); i < profile.length; i++) {
    const segment = profile[i]!;
    if (segment.start >= to && minC < Infinity) break;
    if (segment.end <= begin) continue;
    minC = Math.min(minC, segment.temperatureC);
    maxC = Math.max(maxC, segment.temperatureC);
  }
  if (minC === Infinity) throw new Error('The stretch lies outside the temperature profile.');
  return { minC, maxC };
}

/**
 * A profile with another one (a log, a heating programme) in its place as far as that one goes.
 * Keeps the profile's span.
 */
export function withMeasured(
  profile: TemperatureProfile,
  measured: TemperatureProfile,
): TemperatureProfile {
  const [first, last] = [measured[0], measured[measured.length - 1]];
  if (!first || !last || profile.length === 0) return profile;
  const begin = profile[0]!.start;
  const end = profile[profile.length - 1]!.end;
  return [
    ...profile.flatMap((segment) => cut(segment, begin, Math.min(end, first.start))),
    ...measured.flatMap((segment) => cut(segment, begin, end)),
    ...profile.flatMap((segment) => cut(segment, Math.max(begin, last.end), end)),
  ];
}

/** The even steps of a logger's file that a build keeps, as a contiguous profile, C. */
export function measuredProfile(
  measured: NonNullable<FullBuild['room']['measured']>,
): TemperatureProfile {
  const from = Math.floor(Date.parse(measured.from) / 60_000);
  return joined(
    measured.temperaturesC.map((temperatureC, i) => ({
      start: from + i * measured.stepMinutes,
      end: from + (i + 1) * measured.stepMinutes,
      temperatureC,
    })),
  );
}

/** Shares of the lag after which a step in the approach to a new temperature ends; then the rest. */
const LAG_STEPS = { night: [1, 3], heat: [0.5, 1, 2, 4] };
/** A change by more than this is followed in the finer steps. */
const GREAT_CHANGE_K = 6;
/** Step in which the temperature of a lagging body is given, C. */
const STEPS_PER_C = 10;

/**
 * Temperature of a body that follows the profile with a lag (first order; hours to come within 1/e of
 * a change): the coldest spot of a mould in a room with night setback. Each step holds the mean of the
 * exponential approach over it, to a tenth of a degree; short steps just after a change, long ones
 * later.
 * @param fromC where the body stands at first; the profile's own first temperature unless given
 */
export function laggedProfile(
  profile: TemperatureProfile,
  lagHours: number,
  fromC?: number,
): TemperatureProfile {
  if (!(lagHours > 0) || profile.length === 0) return profile;
  const lagMinutes = lagHours * 60;
  let bodyC = fromC ?? profile[0]!.temperatureC;
  return joined(
    profile.flatMap((segment) => {
      const steps: TemperatureSegment[] = [];
      const great = Math.abs(bodyC - segment.temperatureC) > GREAT_CHANGE_K;
      const shares = great ? LAG_STEPS.heat : LAG_STEPS.night;
      const bounds = shares.map((share) => segment.start + Math.ceil(share * lagMinutes));
      let start = segment.start;
      for (const bound of [...bounds, segment.end]) {
        const end = Math.min(bound, segment.end);
        if (end <= start) continue;
        const share = (end - start) / lagMinutes;
        const away = bodyC - segment.temperatureC;
        const left = Math.exp(-share);
        const meanC = segment.temperatureC + (away * (1 - left)) / share;
        bodyC = segment.temperatureC + away * left;
        steps.push({ start, end, temperatureC: Math.round(meanC * STEPS_PER_C) / STEPS_PER_C });
        start = end;
      }
      return steps;
    }),
  );
}

/** Neighbours of one temperature made one. */
function joined(profile: TemperatureProfile): TemperatureProfile {
  const list: TemperatureSegment[] = [];
  for (const segment of profile) {
    const last = list[list.length - 1];
    if (last && last.temperatureC === segment.temperatureC && last.end === segment.start) {
      list[list.length - 1] = { ...last, end: segment.end };
    } else list.push(segment);
  }
  return list;
}
