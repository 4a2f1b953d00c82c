/** Start hours of wet work in words: for the pointer, and in runs for a screen reader. */
import type { StartHour, StartState } from '../plan/startHours.ts';
import type { Minute } from '../time/instant.ts';
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

/** The runs that are told before the rest is only counted. */
const MOST_TOLD = 3;

/**
 * When may I mix: `Good to mix: Mon 3 May 08:00 to 08:40; Tue 4 May 08:00 to 08:40.` With none that is good, the
 * reason of the first.
 * @param planned start of the wet work in the plan; what comes before it is left out where anything comes after
 */
export function mixWords(hours: readonly StartHour[], planned: Minute, zone: string): string {
  const good = hours.filter(({ state }) => state === 'good');
  const ahead = good.filter(({ until }) => until > planned);
  const told = ahead.length > 0 ? ahead : good;
  const [first] = hours;
  if (told.length === 0) return first ? `No start is good here: ${STATES[first.state]}.` : '';
  const spans = told
    .slice(0, MOST_TOLD)
    .map(({ at, until }) => `${dayAt(at, zone)} ${clockAt(at, zone)} to ${clockAt(until, zone)}`);
  const more = told.length > MOST_TOLD ? [`${told.length - MOST_TOLD} more`] : [];
  return `Good to mix: ${[...spans, ...more].join('; ')}.`;
}

/** Each a sentence: `Wed 28 Apr 07:30 to 09:30: good to mix.` */
export const startRuns = (hours: readonly StartHour[], zone: string): string[] =>
  hours.map(
    ({ at, until, state }) =>
      `${dayAt(at, zone)} ${clockAt(at, zone)} to ${clockAt(until, zone)}: ${STATES[state]}.`,
  );
