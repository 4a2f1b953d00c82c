/** Numbers with their range, days, clocks and names: what every other part of the schema is made of. */
import { z } from 'zod';
import { WEEKDAYS } from '../../time/week.ts';

export const text = z.string().trim().min(1).max(200);
const idOf = (longest: number) =>
  z
    .string()
    .min(1)
    .max(longest)
    .regex(/^[A-Za-z0-9][A-Za-z0-9._:+~/-]*$/, 'an id of letters, digits and . _ : + ~ / -');
export const id = idOf(80);
/** An id that names several others and their moments. */
export const longId = idOf(1000);
/** A number within a physical range: nothing outside it reaches arithmetic. */
export const from = (least: number, most: number) => z.number().min(least).max(most);
export const whole = (least: number, most: number) => z.number().int().min(least).max(most);
/** Beyond the largest hall a shop could have: a slip of the unit, not a part. */
export const areaM2 = from(0.0001, 1_000);
export const edgeM = from(0, 10_000);
export const sideM = from(0.001, 1000);
export const thicknessMm = from(0.1, 2000);
/** Potted lift by lift, each with its cure. */
export const rimDepthMm = from(0.1, 300);
export const densityKgM3 = from(1, 25_000);
export const gigapascals = from(0.001, 1000);
export const minutesEach = from(0, 100_000);
export const hoursLong = from(0, 20_000);
export const factor = from(0.05, 20);
export const fraction = z.number().min(0).max(1);
export const temperatureC = z.number().min(-40).max(250);
export const money = z.number().int();
export const priceMinor = from(0, 1e12);

/** Lengths of lists: what a shop could have, so that the longest is still planned. */
export const MOST = {
  plies: 60,
  sections: 3,
  zones: 200,
  people: 24,
  parties: 60,
  days: 2000,
  blocks: 1000,
  rows: 2000,
  finishing: 200,
  entries: 5000,
};

/** Years in which a build may lie. */
const FIRST_YEAR = 2000;
const LAST_YEAR = 2199;

const isoDay = z.iso.date();
const isoHourMinute = z.iso.time({ precision: -1 });

/** True when `YYYY-MM-DD` names a day of the Gregorian calendar from 2000 to 2199. */
export function isCalendarDay(value: string): boolean {
  const year = Number(value.slice(0, 4));
  return year >= FIRST_YEAR && year <= LAST_YEAR && isoDay.safeParse(value).success;
}

export const calendarDay = z.string().refine(isCalendarDay, 'a day that exists, as YYYY-MM-DD');
/** 24:00, the end of a day, is no time of day for zod's own check. */
export const wallTime = z
  .string()
  .regex(/^(([01]\d|2[0-3]):[0-5]\d|24:00)$/, 'a time of day as HH:MM, 00:00 to 24:00');
/** zod's own local date-time takes a trailing Z and no bare day, so day and time are checked apart. */
function isLocalDateTime(value: string): boolean {
  const [day = '', time, ...more] = value.split('T');
  if (more.length > 0 || !isCalendarDay(day)) return false;
  return time === undefined || isoHourMinute.safeParse(time).success;
}
export const localDateTime = z
  .string()
  .refine(isLocalDateTime, 'a day and time that exist, as YYYY-MM-DDTHH:MM (or the day alone)');

export const isoInstant = z
  .string()
  .regex(/^\d{4}-\d\d-\d\dT\d\d:\d\d[+-]\d\d:\d\d$/, 'an ISO 8601 instant with offset');
/** A wall-clock minute of a day: where a day alone could mean its first minute or all of it. */
export const localMinute = z
  .string()
  .refine(
    (value) => value.length === 16 && isLocalDateTime(value),
    'a day and time that exist, as YYYY-MM-DDTHH:MM',
  );

/** Of an hour that the clock shows twice a record says which of the two, by its offset from UTC. */
const OFFSET = /[+-]\d\d:\d\d$/;
const recordedTime = (least: 10 | 16) =>
  z.string().refine((value) => {
    const plain = value.length === 22 && OFFSET.test(value) ? value.slice(0, 16) : value;
    return plain.length >= least && isLocalDateTime(plain);
  }, 'a day and time that exist, as YYYY-MM-DDTHH:MM, with its offset as +01:00 where the clock shows it twice');
export const recordedDateTime = recordedTime(10);
export const recordedMinute = recordedTime(16);

/** Those met so far: the runtime takes long to say. */
const knownZones = new Set<string>();

/** True when the runtime knows the IANA zone. */
export function isZone(value: string): boolean {
  if (knownZones.has(value)) return true;
  try {
    new Intl.DateTimeFormat('en', { timeZone: value });
    knownZones.add(value);
    return true;
  } catch {
    return false;
  }
}
export const zone = z.string().max(80).refine(isZone, 'an IANA time zone such as Europe/Lisbon');
export const currency = z.string().regex(/^[A-Z]{3}$/, 'a three-letter ISO 4217 code such as EUR');

export const weekday = z.enum(WEEKDAYS);
const span = z
  .tuple([wallTime, wallTime])
  .refine(([from, to]) => from < to, 'a span whose end is after its start');
const spans = z
  .array(span)
  .max(24)
  .refine(
    (list) => list.every((s, i) => i === 0 || list[i - 1]![1] <= s[0]),
    'spans in order that do not overlap',
  );
export const hours = z.partialRecord(weekday, spans);

/** Default working week of crew and outside parties: common practice, shown as an assumption. */
export const shopWeek = () => {
  const day: [string, string][] = [
    ['07:30', '12:00'],
    ['12:30', '16:30'],
  ];
  return { mon: day, tue: day, wed: day, thu: day, fri: day };
};
export const outsideWeek = () => {
  const day: [string, string][] = [['08:00', '17:00']];
  return { mon: day, tue: day, wed: day, thu: day, fri: day };
};
