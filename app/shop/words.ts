/** How numbers and times are written on paper and on the timeline: short, with unit and weekday. */
import type { PlanResult, StageResult } from '../document/schema.ts';
import { withoutLength } from '../messages/stages.ts';
import { DAY_NAMES, MONTHS } from '../messages/words.ts';
import { clockTime, dayOfMonth, length } from '../time/words.ts';
import { dayNumber, weekdayOfDay } from '../time/zone.ts';
import { decimals } from '../units/formats.ts';

const SHORT_DAYS = {
  mon: 'Mon',
  tue: 'Tue',
  wed: 'Wed',
  thu: 'Thu',
  fri: 'Fri',
  sat: 'Sat',
  sun: 'Sun',
} as const;
const monthOf = (date: string): string => MONTHS[Number(date.slice(5, 7)) - 1] ?? '';

/** `Tue 20 Apr` of a day or of an instant with the build's offset. */
export const shortDay = (date: string): string =>
  `${shortWeekday(date)} ${dayOfMonth(date.slice(8, 10), monthOf(date).slice(0, 3))}`;

/** `Tue` */
export const shortWeekday = (date: string): string => SHORT_DAYS[weekdayOfDay(dayNumber(date))];

/** `Tuesday 20 April 2027` */
export function longDay(date: string): string {
  const weekday = DAY_NAMES[weekdayOfDay(dayNumber(date))];
  return `${weekday} ${dayOfMonth(date.slice(8, 10), monthOf(date))} ${date.slice(0, 4)}`;
}

/** `Tue 20 Apr 2027`, with the hour where one is given: `Tue 20 Apr 2027 14:20`. */
export const fullMoment = (date: string): string =>
  `${shortDay(date)} ${date.slice(0, 4)}${date.length > 10 ? ` ${clock(date)}` : ''}`;

/** `14:20` of an instant whose offset is the build's. */
export const clock = (iso: string): string => clockTime(iso.slice(11, 16));

/** `Tue 20 Apr 14:20` */
export const dayClock = (iso: string): string => `${shortDay(iso)} ${clock(iso)}`;

/** `14:20` on the day that is given, `Wed 21 Apr 14:20` on another. */
export const clockOn = (date: string, iso: string): string =>
  iso.slice(0, 10) === date.slice(0, 10) ? clock(iso) : dayClock(iso);

/** `Tue 20 Apr 14:20 to 16:00`, with the second day where it is another one. */
export const spanWords = (from: string, until: string): string =>
  `${dayClock(from)} to ${from.slice(0, 10) === until.slice(0, 10) ? clock(until) : dayClock(until)}`;

/** As `dayClock`, or the given word when the moment is never reached. */
export const dayClockOr = (iso: string | null, otherwise: string): string =>
  iso === null ? otherwise : dayClock(iso);

/**
 * The gel from its earliest to its latest: `Tue 20 Apr 14:10 to 17:40`, with the day again where it is
 * another. Without a latest the room stays below the hardener's minimum, and the smear alone decides.
 */
export function gelSpan(row: {
  readonly gel: string | null;
  readonly gelLatest: string | null;
}): string {
  const { gel, gelLatest } = row;
  if (gel === null) return 'not reached';
  if (gelLatest === null) return `from ${dayClock(gel)}, latest not known in this cold`;
  if (gelLatest === gel) return dayClock(gel);
  const sameDay = gel.slice(0, 10) === gelLatest.slice(0, 10);
  return `${dayClock(gel)} to ${sameDay ? clock(gelLatest) : dayClock(gelLatest)}`;
}

/** Float in words: `3 h 15 min`, `none`, `2 h late`; a dash when it is not known. */
export function floatWords(floatHours: number | null): string {
  if (floatHours === null) return '–';
  const minutes = Math.round(floatHours * 60);
  if (minutes === 0) return 'none';
  return minutes > 0 ? length(minutes) : `${length(-minutes)} late`;
}

type Spare = NonNullable<PlanResult['spare']>[number];

/** The least that is to spare first. */
export const byRoom = (
  a: Pick<Spare, 'workDays' | 'workMinutes'>,
  b: Pick<Spare, 'workDays' | 'workMinutes'>,
): number => a.workDays - b.workDays || a.workMinutes - b.workMinutes;

/** Beside whole days, minutes below this say nothing. */
const SPARE_GRAIN_MIN = 30;

/**
 * `2 working days 3 h`, `45 min`, `nothing`, `1 working day too little`: in the shop's hours. Beside
 * whole days it is rounded down to half an hour.
 */
export function spareWords({
  workDays,
  workMinutes,
}: Pick<Spare, 'workDays' | 'workMinutes'>): string {
  const days = Math.abs(workDays);
  const exact = Math.abs(workMinutes);
  const minutes = days === 0 ? exact : exact - (exact % SPARE_GRAIN_MIN);
  const parts = [
    ...(days > 0 ? [`${days} working ${days === 1 ? 'day' : 'days'}`] : []),
    ...(minutes > 0 ? [length(minutes)] : []),
  ];
  if (parts.length === 0) return 'nothing';
  return `${parts.join(' ')}${workDays < 0 || workMinutes < 0 ? ' too little' : ''}`;
}

/** The date that the spare time is counted to: `Cedar Flats paint shop, Tue 8 Jun 08:00`. */
export function spareDate({ before, at }: Spare, stages: readonly StageResult[]): string {
  if (before === null) return `the unveiling, ${dayClock(at)}`;
  const stage = stages.find(({ id }) => id === before);
  // An outside job is named with its length, which says nothing here.
  const name = stage?.kind === 'outside' ? withoutLength(stage.name) : stage?.name;
  return `${name ?? before}, ${dayClock(at)}`;
}

/** A number with a fixed count of decimals and a true minus sign. */
export function fixed(value: number, digits: number): string {
  const text = decimals(Math.abs(value), digits);
  return value < 0 && /[1-9]/.test(text) ? `−${text}` : text;
}

/** Orders text by code unit, so that the machine's language never matters. */
export const byCodeUnit = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
