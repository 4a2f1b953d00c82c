/** A log taken for the room: folded to even steps that the build keeps. */
import type { FullBuild } from '../document/schema.ts';
import type { LogResult } from './logger.ts';
import type { TemperatureProfile } from './types.ts';
import { setField, type Change } from '../document/edit/change.ts';
import type { Draft } from '../document/edit/path.ts';
import { plural } from '../units/words.ts';

export type MeasuredRoom = NonNullable<FullBuild['room']['measured']>;

/** Steps of whole hours; longer ones for a log of many months. */
const STEPS_MINUTES = [60, 120, 240, 480, 720, 1440];
const MOST_STEPS = 3000;
/** A step that the log hardly covers says nothing. */
const LEAST_COVERED = 0.5;

export interface ResampledLog {
  readonly from: string;
  readonly stepMinutes: number;
  readonly temperaturesC: number[];
}

/**
 * A log as means over even steps of the clock in UTC, to a tenth of a degree: steps of an hour, longer ones
 * for a log of many months.
 * @param profile the log, contiguous, C
 * @returns null when it covers no step
 */
export function resampleLog(profile: TemperatureProfile): ResampledLog | null {
  const [first, last] = [profile[0], profile.at(-1)];
  if (!first || !last) return null;
  const whole = last.end - first.start;
  const stepMinutes = STEPS_MINUTES.find((step) => whole / step <= MOST_STEPS) ?? 1440;
  const begin = Math.floor(first.start / stepMinutes);
  const count = Math.ceil(last.end / stepMinutes) - begin;
  const sums = new Float64Array(count);
  const minutes = new Float64Array(count);
  for (const { start, end, temperatureC } of profile) {
    for (let at = start; at < end;) {
      const step = Math.floor(at / stepMinutes);
      const until = Math.min(end, (step + 1) * stepMinutes);
      sums[step - begin]! += temperatureC * (until - at);
      minutes[step - begin]! += until - at;
      at = until;
    }
  }
  const covered = (i: number): boolean => minutes[i]! >= LEAST_COVERED * stepMinutes;
  let from = 0;
  let to = count;
  while (from < to && !covered(from)) from++;
  while (to > from && !covered(to - 1)) to--;
  if (from === to) return null;
  const temperaturesC: number[] = [];
  for (let i = from; i < to; i++) {
    // A gap inside has been bridged by the reader, and said.
    const mean = minutes[i]! > 0 ? sums[i]! / minutes[i]! : temperaturesC.at(-1)!;
    temperaturesC.push(Math.round(mean * 10) / 10);
  }
  const start = (begin + from) * stepMinutes * 60_000;
  return { from: new Date(start).toISOString(), stepMinutes, temperaturesC };
}

const NAME_LENGTH = 200;

/** `shelf.csv: 1008 readings in 168 means of 60 min, 3 things mended` */
function foldedName(fileName: string, log: LogResult, folded: ResampledLog): string {
  const mended = log.issues.filter((issue) => !issue.stops).length;
  const said =
    `: ${plural(log.readings, 'reading')} in ${plural(folded.temperaturesC.length, 'mean')} of ` +
    `${folded.stepMinutes} min` +
    (mended > 0 ? `, ${plural(mended, 'thing')} mended or left out` : '');
  return `${fileName.trim().slice(0, NAME_LENGTH - said.length)}${said}`;
}

/**
 * The document with the log in place of the expected room for as long as the log lasts, as one edit.
 * @param place where the logger lay: in the air, or on the coldest spot of mould and part
 * @returns null when the log gives no step
 */
export function setMeasuredRoom(
  document: Draft,
  log: LogResult,
  fileName: string,
  place: MeasuredRoom['place'],
): Change | null {
  const folded = log.profile ? resampleLog(log.profile) : null;
  if (!folded) return null;
  const name = foldedName(fileName || 'log', log, folded);
  return setField(document, 'room.measured', { name, place, ...folded }, 'Room by its log', name);
}

/** The document without its log: the room is again as it was expected. */
export const dropMeasured = (document: Draft): Change =>
  setField(document, 'room.measured', undefined, 'Room by its log', 'taken off');
