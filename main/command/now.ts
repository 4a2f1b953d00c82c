/** `--now` of the commands: an instant, or a day or time on the wall clock of the build. */
import type { Fault } from '../../app/document/faults.ts';
import { localToMinute } from '../../app/time/zone.ts';
import { hasOffset, readInstant } from '../options.ts';

/** An instant in Unix ms, or what the clocks of the build's zone show. */
export type Now = { readonly ms: number } | { readonly local: string };

/** Years that a build can meet; calendars between now and a far end would be endless. */
const [FIRST_YEAR, LAST_YEAR] = [1970, 2199];
const MS_PER_MINUTE = 60_000;

/** Null without one, undefined when it cannot be read or lies out of reach; seconds do not count. */
export function readNow(text: string | undefined): Now | null | undefined {
  if (text === undefined) return null;
  const read = readInstant(text);
  if (!read || read.getUTCFullYear() < FIRST_YEAR || read.getUTCFullYear() > LAST_YEAR) {
    return undefined;
  }
  return hasOffset(text) ? { ms: read.getTime() } : { local: text.slice(0, 16) };
}

/** What is wrong with a `--now` that `readNow` could not read. */
export const nowFault = (text: string | undefined): string =>
  `--now: found ${JSON.stringify(text)}, expected an instant from ${FIRST_YEAR} to ${LAST_YEAR} such as 2027-04-19T08:00+01:00`;

/** Unix ms of the moment, the machine's own without one; a fault where the build's clocks skip it. */
export function momentOf(now: Now | null, zone: string): number | Fault {
  if (now === null) return Date.now();
  if ('ms' in now) return now.ms;
  const found = localToMinute(now.local, zone);
  if (found) return found.minute * MS_PER_MINUTE;
  const expected = `a time that exists in ${zone} (the clocks skip this one)`;
  return { path: '--now', found: now.local, expected };
}
