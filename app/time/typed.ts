/** A day or a moment as a person types it: `fri 21 may 4pm`, `tomorrow 16:00`, `21.5.2027`, `2027-05-21`. */
import { dayName, dayNumber, weekdayOfDay } from './zone.ts';
import { WEEKDAYS, type Weekday } from './week.ts';

/** Why a text is no moment. Worded in app/messages/typed.ts. */
export type MomentFault =
  | {
      readonly code: 'unreadable' | 'no-such-day' | 'no-hour';
      readonly typed: string;
    }
  | { readonly code: 'two-days'; readonly typed: string; readonly days: readonly [string, string] }
  | { readonly code: 'other-weekday'; readonly day: string; readonly weekday: Weekday };

export type ReadMoment =
  /** `day` as YYYY-MM-DD, `time` as HH:MM or null where none was typed. */
  | { readonly ok: true; readonly day: string; readonly time: string | null }
  | { readonly ok: false; readonly fault: MomentFault };

const DAYS = 'monday tuesday wednesday thursday friday saturday sunday'.split(' ');
const MONTHS =
  'january february march april may june july august september october november december'.split(
    ' ',
  );
const SHORTEST_NAME = 3;
/** Of a name or the start of one, as `tues` or `sep`; -1 when it is none. */
const named = (names: readonly string[], word: string): number =>
  word.length < SHORTEST_NAME ? -1 : names.findIndex((name) => name.startsWith(word));

interface Parts {
  readonly typed: string;
  readonly today: number;
  day: number | null;
  time: string | null;
  weekday: Weekday | null;
  /** Day of the month and month typed as words, and the year where there is one. */
  dayOfMonth: number | null;
  month: number | null;
  year: number | null;
}

/**
 * @param typed what stands in the field
 * @param today days since 1970 where the build is; a day without a year is the next one from it on
 */
export function readMoment(typed: string, today: number): ReadMoment {
  const parts: Parts = {
    ...{ typed: typed.trim(), today },
    ...{ day: null, time: null, weekday: null, dayOfMonth: null, month: null, year: null },
  };
  for (const word of wordsOf(typed)) {
    const fault = take(parts, word);
    if (fault) return { ok: false, fault };
  }
  return settled(parts);
}

/** `4 pm` and `2027-05-21T16:00` in pieces that each mean one thing. */
const wordsOf = (typed: string): readonly string[] =>
  typed
    .toLowerCase()
    .replace(/(\d)\s+([ap])\.?m\.?(?![a-z])/g, '$1$2m')
    .replace(/(\d{4}-\d\d-\d\d)t(\d)/, '$1 $2')
    .replace(/(\d)(st|nd|rd|th)\b/g, '$1')
    .split(/[\s,]+/)
    .filter((word) => word !== '' && word !== 'at' && word !== 'of' && word !== 'on');

function take(parts: Parts, word: string): MomentFault | null {
  const { typed, today } = parts;
  const weekday = named(DAYS, word);
  const month = named(MONTHS, word);
  if (word === 'today' || word === 'tomorrow')
    return put(parts, 'day', today + (word === 'today' ? 0 : 1));
  if (weekday >= 0) return put(parts, 'weekday', WEEKDAYS[weekday]!);
  if (month >= 0) return put(parts, 'month', month + 1);
  if (/^\d{4}-\d{1,2}-\d{1,2}$/.test(word)) return takeDay(parts, word.split('-').map(Number));
  const numbers = /^(\d{1,2})([./-])(\d{1,2})\2(\d{4})$/.exec(word);
  if (numbers) return takeNumbers(parts, numbers.map(Number));
  if (/^\d{1,2}$/.test(word)) return put(parts, 'dayOfMonth', Number(word));
  if (/^(19|20|21)\d\d$/.test(word)) return put(parts, 'year', Number(word));
  const clock = /^(\d{1,2})(?:[:h](\d\d))?h?(am|pm)?$/.exec(word);
  if (clock) return takeClock(parts, clock, word);
  return { code: 'unreadable', typed };
}

/** A part that stands once. */
function put<K extends 'day' | 'weekday' | 'month' | 'dayOfMonth' | 'year' | 'time'>(
  parts: Parts,
  key: K,
  value: NonNullable<Parts[K]>,
): MomentFault | null {
  if (parts[key] !== null) return { code: 'unreadable', typed: parts.typed };
  parts[key] = value;
  return null;
}

function takeDay(parts: Parts, [year, month, day]: readonly number[]): MomentFault | null {
  const found = dayOf(year!, month!, day!);
  if (found === null) return { code: 'no-such-day', typed: parts.typed };
  return put(parts, 'day', found);
}

/** `5/6/2027` is two days; `21/5/2027` and `5/21/2027` are one each. */
function takeNumbers(parts: Parts, numbers: readonly number[]): MomentFault | null {
  const [, first, , second, year] = numbers as [number, number, number, number, number];
  const dayFirst = dayOf(year, second, first);
  const monthFirst = dayOf(year, first, second);
  if (dayFirst !== null && monthFirst !== null && dayFirst !== monthFirst) {
    const days = [dayName(dayFirst), dayName(monthFirst)] as const;
    return { code: 'two-days', typed: parts.typed, days };
  }
  const found = dayFirst ?? monthFirst;
  if (found === null) return { code: 'no-such-day', typed: parts.typed };
  return put(parts, 'day', found);
}

function takeClock(parts: Parts, clock: RegExpExecArray, word: string): MomentFault | null {
  const [, hourText, minuteText = '00', half] = clock;
  const hour = Number(hourText);
  const minute = Number(minuteText);
  const most = half ? 12 : 23;
  if (hour > most || minute > 59 || (half && hour === 0)) return { code: 'no-hour', typed: word };
  const of24 = half === 'pm' ? (hour % 12) + 12 : half === 'am' ? hour % 12 : hour;
  return put(parts, 'time', `${String(of24).padStart(2, '0')}:${minuteText}`);
}

/** Days since 1970, or null for a day that no calendar has. */
function dayOf(year: number, month: number, day: number): number | null {
  const text = `${year}-${String(month).padStart(2, '0')}-${String(day).padStart(2, '0')}`;
  if (month < 1 || month > 12 || day < 1 || day > 31) return null;
  const found = dayNumber(text);
  return dayName(found) === text ? found : null;
}

function settled(parts: Parts): ReadMoment {
  const { typed, time, weekday } = parts;
  const day = dayMeant(parts);
  if (typeof day === 'string') return { ok: false, fault: { code: day, typed } };
  if (weekday !== null && weekdayOfDay(day) !== weekday) {
    return { ok: false, fault: { code: 'other-weekday', day: dayName(day), weekday } };
  }
  return { ok: true, day: dayName(day), time };
}

const DAYS_OF_WEEK = 7;
/** So many years hold a 29 February. */
const YEARS_AHEAD = 8;

function dayMeant(parts: Parts): number | 'unreadable' | 'no-such-day' {
  const { day, dayOfMonth, month, year, weekday, today } = parts;
  const byName = dayOfMonth !== null || month !== null || year !== null;
  if (day !== null) return byName ? 'unreadable' : day;
  if (!byName) {
    if (weekday === null) return 'unreadable';
    const days = Array.from({ length: DAYS_OF_WEEK }, (_, i) => today + 1 + i);
    return days.find((next) => weekdayOfDay(next) === weekday)!;
  }
  if (dayOfMonth === null || month === null) return 'unreadable';
  if (year !== null) return dayOf(year, month, dayOfMonth) ?? 'no-such-day';
  const thisYear = Number(dayName(today).slice(0, 4));
  const years = Array.from({ length: YEARS_AHEAD }, (_, i) => thisYear + i);
  const days = years.flatMap((one) => dayOf(one, month, dayOfMonth) ?? []);
  return days.find((next) => next >= today) ?? 'no-such-day';
}
