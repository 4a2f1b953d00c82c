/** Public holidays and calendar files: read here, taken over by the planner as edits. */
import { countries, HOLIDAY_SOURCE, holidayList, regions } from '../calendars/holidays.ts';
import { readBusyFile } from '../calendars/busyFile.ts';
import type { Handler } from './types.ts';

export const holidayPlaces: Handler<'holiday-places'> = (_session, { country }) => ({
  source: HOLIDAY_SOURCE,
  countries: countries(),
  regions: country === null ? [] : regions(country),
});

export const holidaysOf: Handler<'holiday-list'> = (_session, { country, region, from, to }) =>
  holidayList(country, region, from, to);

export const calendarRead: Handler<'calendar-read'> = (_session, { text, ...span }) => {
  const { blocks, left } = readBusyFile(text, span);
  return { blocks: [...blocks], left: [...left] };
};
