/** Public holidays of countries and their regions, from a kept library of them. */
import { createRequire } from 'node:module';
import type Holidays from 'date-holidays';
import { dayName, dayNumber } from '../../app/time/zone.ts';
import { StoreRefusal } from '../store/errors.ts';

/** A country or a region of one, with the code that the library knows it by. */
export interface Place {
  readonly code: string;
  readonly name: string;
}

export interface DayOff {
  /** YYYY-MM-DD */
  readonly date: string;
  readonly name: string;
}

/** Who the days were taken from; it stands beside each in the document. */
export const HOLIDAY_SOURCE = 'date-holidays 3.37.0 (CC BY-SA 3.0, after Wikipedia)';

/** More years than a build could lie in: a slip of a digit. */
const MOST_YEARS = 12;
const MS_PER_DAY = 86_400_000;

type HolidaysClass = typeof Holidays;
let loaded: HolidaysClass | null = null;

/** The tables of the whole world are read when somebody asks for the first time. */
function library(): HolidaysClass {
  if (!loaded) {
    const require = createRequire(import.meta.url);
    const found = require('date-holidays') as HolidaysClass & { default?: HolidaysClass };
    loaded = found.default ?? found;
  }
  return loaded;
}

const placesOf = (names: Readonly<Record<string, string>> | undefined): Place[] =>
  Object.entries(names ?? {})
    .map(([code, name]) => ({ code, name }))
    .sort((a, b) => a.name.localeCompare(b.name, 'en'));

/** Every country that the library has days of. */
export const countries = (): Place[] => placesOf(new (library())().getCountries('en'));

/**
 * Regions of a country, and the parts of those that keep days of their own: `BY`, `BY.A`.
 * @throws StoreRefusal for a country that the library does not have
 */
export function regions(country: string): Place[] {
  checkCountry(country);
  const days = new (library())();
  return placesOf(days.getStates(country, 'en')).flatMap((state) => [
    state,
    ...placesOf(days.getRegions(country, state.code, 'en')).map((part) => ({
      code: `${state.code}.${part.code}`,
      name: `${state.name}: ${part.name}`,
    })),
  ]);
}

/**
 * Public holidays of a country or region from one day to another, both included; a feast of several
 * days gives each of them.
 * @param region as `regions` gives it; null: those of the whole country
 * @throws StoreRefusal for a country or region that the library does not have, or too long a span
 */
export function holidayList(
  country: string,
  region: string | null,
  from: string,
  to: string,
): DayOff[] {
  checkCountry(country);
  if (region !== null && !regions(country).some(({ code }) => code === region)) {
    throw new StoreRefusal('refused', `${country} has no region ${region}.`);
  }
  const [first, last] = [Number(from.slice(0, 4)), Number(to.slice(0, 4))];
  if (last - first >= MOST_YEARS) {
    const found = `${from} to ${to}`;
    throw new StoreRefusal('refused', `${found}: ask for at most ${MOST_YEARS} years at once.`);
  }
  const place = [country, ...(region?.split('.') ?? [])].join('.');
  const days = new (library())(place, { languages: ['en'], types: ['public'] });
  const found: DayOff[] = [];
  // A feast at the turn of the year may have begun in the year before.
  for (let year = first - 1; year <= last; year++) {
    for (const { date, name, start, end } of days.getHolidays(year, 'en')) {
      const day = dayNumber(date.slice(0, 10));
      const count = Math.max(1, Math.round((end.getTime() - start.getTime()) / MS_PER_DAY));
      for (let k = 0; k < count; k++) found.push({ date: dayName(day + k), name });
    }
  }
  const inside = found.filter(({ date }) => date >= from && date <= to);
  inside.sort((a, b) => (a.date < b.date ? -1 : a.date > b.date ? 1 : 0));
  return inside.filter(({ date }, i) => inside.findIndex((one) => one.date === date) === i);
}

function checkCountry(country: string): void {
  if (countries().some(({ code }) => code === country)) return;
  throw new StoreRefusal('refused', `There are no public holidays of ${country} here.`);
}
