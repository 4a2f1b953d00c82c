/** Wet work that no stretch of the crew's hours holds: dated all the same, as if worked through without a break. */
import { LONGEST_BREAK_MINUTES } from '../../time/calendar.ts';
import type { Calendar } from '../../time/instant.ts';
import type { Mode } from '../problem.ts';
import { joined } from '../starts.ts';
import { minutesOf } from './wetRules.ts';

/** The longest of the stretches of some hours, min. */
export const longestStretch = (hours: readonly Calendar[]): number =>
  hours.flat().reduce((most, { start, end }) => Math.max(most, end - start), 0);

/** From each coming in of people until the work is done, with so much before and after it. */
export const workedThrough = (mode: Mode, besideMinutes: number): Mode => ({
  ...mode,
  calendar: stayedFor(mode.calendar!, minutesOf(mode) + besideMinutes),
});

function stayedFor(hours: Calendar, minutes: number): Calendar {
  const comingsIn = hours.filter(({ start }, i) => {
    const before = hours[i - 1];
    return !before || start - before.end > LONGEST_BREAK_MINUTES;
  });
  const stayed = comingsIn.map(({ start }) => ({ start, end: start + minutes }));
  return joined([...hours, ...stayed].toSorted((a, b) => a.start - b.start));
}
