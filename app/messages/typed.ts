/** Why a text that was typed into a field cannot be read. */
import type { SpansFault } from '../document/edit/hours.ts';
import type { PliesFault } from '../document/edit/plies.ts';
import { dayNumber, weekdayOfDay } from '../time/zone.ts';
import type { MomentFault } from '../time/typed.ts';
import { plural } from '../units/words.ts';
import { DAY_NAMES, MONTHS } from './words.ts';
import { clockTime, dayOfMonth } from '../time/words.ts';
import { formatSpans } from '../document/edit/hours.ts';

const SPANS: Readonly<Record<SpansFault['code'], (piece: string) => string>> = {
  'no-hours': (piece) =>
    `"${piece}": write hours as ${formatSpans([['07:30', '16:30']])}, from ${clockTime('00:00')} to ${clockTime('24:00')}.`,
  'ends-first': (piece) => `"${piece}" ends before it begins.`,
  overlaps: (piece) => `${piece} overlaps the span before it.`,
};

export const spansFaultWords = ({ code, piece }: SpansFault): string => SPANS[code](piece);

const dayWords = (day: string): string =>
  `${dayOfMonth(day.slice(8), MONTHS[Number(day.slice(5, 7)) - 1]!)} ${day.slice(0, 4)}`;

/** `21 May 2027`, as a day is typed. */
export const daySample = (): string => `${dayOfMonth('21', 'May')} 2027`;

/** `Fri 21 May 16:00`, as a moment is typed. */
export const dayAndHourSample = (): string =>
  `Fri ${dayOfMonth('21', 'May')} ${clockTime('16:00')}`;

/** @param withHour whether an hour belongs to the moment */
export function momentFaultWords(fault: MomentFault, withHour: boolean): string {
  const as = withHour
    ? `“${dayAndHourSample()}” or “2027-05-21 16:00”`
    : `“${daySample()}” or “2027-05-21”`;
  switch (fault.code) {
    case 'unreadable':
      return `"${fault.typed}" cannot be read as ${withHour ? 'a day and hour' : 'a day'}. Write as in ${as}.`;
    case 'no-such-day':
      return `"${fault.typed}": there is no such day.`;
    case 'no-hour':
      return `"${fault.typed}" is no hour of the day.`;
    case 'two-days':
      return `"${fault.typed}" can be read two ways: ${fault.days.map(dayWords).join(' or ')}. Write the month by its name.`;
    case 'other-weekday':
      return `${dayWords(fault.day)} is a ${DAY_NAMES[weekdayOfDay(dayNumber(fault.day))]}, not a ${DAY_NAMES[fault.weekday]}.`;
  }
}

export function pliesFaultWords(fault: PliesFault): string {
  switch (fault.code) {
    case 'unreadable':
      return `"${fault.typed}" cannot be read. Write as in "2 x Carbon 200 @ 0/45".`;
    case 'no-angle':
      return `"${fault.typed}" is not an angle: −90 to 90 degrees from the 0 line.`;
    case 'several-cloths':
      return `"${fault.typed}" fits several cloths: ${fault.cloths.join(', ')}.`;
    case 'no-cloth':
      return `"${fault.typed}" is no cloth of the library: ${fault.cloths.join(', ')}.`;
    case 'ply-count':
      return `1 to ${fault.most} plies, not ${fault.typed}.`;
    case 'more-angles':
      return `${plural(fault.plies, 'ply', 'plies')} but ${fault.angles} angles in "${fault.typed}".`;
    case 'too-many':
      return `At most ${fault.most} plies.`;
  }
}
