/** Start hours of wet work in words: for the pointer, and in runs for a screen reader. */
import type { StartHour, StartState } from '../plan/startHours.ts';
import { length } from '../time/words.ts';
import { clockAt, dayAt, shortAt } from './clockWords.ts';

const STATES: Readonly<Record<StartState, string>> = {
  good: 'good to mix',
  'bag-late': 'the bag would be down too late',
  'gel-unseen': 'nobody would see the gel',
  'on-arrival': 'people have only just come in',
  'off-hours': 'no time left for the wet work',
};

/**
 * `Wed 28 Apr 07:30 to 09:30: good to mix. Mixed 07:30: 45 min before the bag is due, gel from Wed 28 12:50,
 * bag off from Thu 29 07:30.`
 */
export function startWords(
  { at, until, state, marginMinutes, gel, off }: StartHour,
  zone: string,
): string {
  const parts: string[] = [];
  if (marginMinutes !== null) {
    parts.push(
      marginMinutes >= 0
        ? `${length(marginMinutes)} before the bag is due`
        : `${length(-marginMinutes)} after the bag was due`,
    );
  }
  if (gel !== null) parts.push(`gel from ${shortAt(gel, zone)}`);
  if (off !== null) parts.push(`bag off from ${shortAt(off, zone)}`);
  const span = `${dayAt(at, zone)} ${clockAt(at, zone)} to ${clockAt(until, zone)}: ${STATES[state]}.`;
  return parts.length === 0 ? span : `${span} Mixed ${clockAt(at, zone)}: ${parts.join(', ')}.`;
}

/** Each a sentence: `Wed 28 Apr 07:30 to 09:30: good to mix.` */
export const startRuns = (hours: readonly StartHour[], zone: string): string[] =>
  hours.map(
    ({ at, until, state }) =>
      `${dayAt(at, zone)} ${clockAt(at, zone)} to ${clockAt(until, zone)}: ${STATES[state]}.`,
  );
