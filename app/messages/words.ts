/** Numbers and times in the words of messages and sheets. */
import { dayNumber, minuteToLocal, weekdayOfDay } from '../time/zone.ts';
import type { Minute } from '../time/instant.ts';
import { clockTime, dayOfMonth } from '../time/words.ts';
import { plain, roundMoney } from '../units/words.ts';

export { plain, roundMoney };

/** Weekdays in full, by the document's own keys. */
export const DAY_NAMES = {
  mon: 'Monday',
  tue: 'Tuesday',
  wed: 'Wednesday',
  thu: 'Thursday',
  fri: 'Friday',
  sat: 'Saturday',
  sun: 'Sunday',
} as const;

export const MONTHS = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
];

/** 'Thursday 6 May, 14:00' in the build's zone. */
export function dayAndTime(minute: Minute, zone: string): string {
  const { date, time } = minuteToLocal(minute, zone);
  return `${dayWords(date)}, ${clockTime(time)}`;
}

/** 'Thursday 6 May, 14:00 to 15:30'; the day is said again where it is another. */
export function spanOfTime(start: Minute, end: Minute, zone: string): string {
  const [from, till] = [minuteToLocal(start, zone), minuteToLocal(end, zone)];
  return `${dayAndTime(start, zone)} to ${from.date === till.date ? clockTime(till.time) : dayAndTime(end, zone)}`;
}

/** 'Thursday 6 May' of a calendar day YYYY-MM-DD. */
export function dayWords(date: string): string {
  const month = MONTHS[Number(date.slice(5, 7)) - 1];
  return `${DAY_NAMES[weekdayOfDay(dayNumber(date))]} ${dayOfMonth(date.slice(8, 10), month!)}`;
}

/** '0.2 h', '61 h': hours however few or many. */
export const hoursText = (minutes: number): string => `${plain(minutes / 60)} h`;

/** '45 min', '3.5 h', '2 days 4 h': elapsed time in the largest units that read well. */
export function elapsed(minutes: number): string {
  const whole = Math.round(Math.abs(minutes));
  if (whole < 60) return `${whole} min`;
  if (whole < 48 * 60) return hoursText(whole);
  const days = Math.floor(whole / 1440);
  const hours = Math.round((whole - days * 1440) / 60);
  if (hours === 24) return `${days + 1} days`;
  return hours === 0 ? `${days} days` : `${days} days ${hours} h`;
}

/** '2 days 15 h late', '3 h to spare': how late a plan is, minutes; the same wherever it is said. */
export const latenessWords = (minutes: number): string =>
  minutes > 0 ? `${elapsed(minutes)} late` : `${elapsed(minutes)} to spare`;

/** 'a, b and c'. */
export function listed(items: readonly string[]): string {
  if (items.length < 2) return items.join('');
  return `${items.slice(0, -1).join(', ')} and ${items.at(-1)}`;
}

/** The first letter in upper case. */
export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** A label inside a sentence; a name that begins it keeps its capital. */
export const lowerFirst = (label: string): string =>
  /^[A-Z][a-z]+ /.test(label) ? label.charAt(0).toLowerCase() + label.slice(1) : label;
