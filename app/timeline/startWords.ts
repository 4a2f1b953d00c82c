/** Start hours of wet work in words: for the pointer, and in runs for a screen reader. */
import { START_STEP_MINUTES, type StartHour, type StartState } from '../plan/startHours.ts';
import { length } from '../time/words.ts';
import { clockBy, clockFrom, dayAt, shortFrom } from './clockWords.ts';

const STATES: Readonly<Record<StartState, string>> = {
  good: 'good to mix',
  'bag-late': 'the bag would be down too late',
  'gel-unseen': 'nobody would see the gel',
  'off-hours': 'no time left for the wet work',
};

/** `Wed 28 Apr 07:30: good to mix, 45 min before the bag is due, gel 12:50, bag off Thu 29 07:30.` */
export function startWords(
  { at, state, marginMinutes, gel, off }: StartHour,
  zone: string,
): string {
  const parts = [STATES[state]];
  if (marginMinutes !== null) {
    parts.push(
      marginMinutes >= 0
        ? `${length(marginMinutes)} before the bag is due`
        : `${length(-marginMinutes)} after the bag was due`,
    );
  }
  if (gel !== null) parts.push(`gel from ${shortFrom(gel, zone)}`);
  if (off !== null) parts.push(`bag off from ${shortFrom(off, zone)}`);
  return `${dayAt(at, zone)} ${clockBy(at, zone)}: ${parts.join(', ')}.`;
}

/** Runs of hours that are alike, a sentence each: `Wed 28 Apr 07:30 to 09:30: good to mix.` */
export function startRuns(hours: readonly StartHour[], zone: string): string[] {
  const runs: { day: string; from: number; until: number; state: StartState }[] = [];
  for (const { at, state } of hours) {
    const day = dayAt(at, zone);
    const last = runs.at(-1);
    if (last?.state === state && last.day === day) last.until = at + START_STEP_MINUTES;
    else runs.push({ day, from: at, until: at + START_STEP_MINUTES, state });
  }
  return runs.map(
    ({ day, from, until, state }) =>
      `${day} ${clockBy(from, zone)} to ${clockFrom(until, zone)}: ${STATES[state]}.`,
  );
}
