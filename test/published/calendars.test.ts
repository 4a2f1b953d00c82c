/**
 * Working calendars and wall clocks against outside sources: the runtime's own Intl (Unicode CLDR
 * and the IANA zone data) quarter hour by quarter hour, and the worked examples of RFC 5545
 * section 3.3.5 (form 3 of July 14 1997 and the repeated hour of November 4 2007: from memory).
 */
import { describe, expect, it } from 'vitest';
import type { Hours } from '../../app/document/schema.ts';
import { expandHours } from '../../app/time/calendar.ts';
import { isoToMinute, localToMinute, minuteToIso } from '../../app/time/zone.ts';
import { intlLocal } from '../support/intl.ts';

const HOURS: Hours = {
  mon: [
    ['07:30', '12:00'],
    ['12:30', '16:30'],
  ],
  wed: [['00:00', '24:00']],
  fri: [['09:15', '13:45']],
  sat: [['22:00', '24:00']],
  sun: [
    ['00:00', '03:00'],
    ['20:00', '23:45'],
  ],
};
const OFF = ['2027-04-05', '2028-02-28', '2027-12-31'];

/** Open by the wall clock alone; in an hour that occurs twice only the first round counts. */
function opensByWallClock(minute: number, zone: string): boolean {
  const { date, time, weekday } = intlLocal(minute, zone);
  if (OFF.includes(date)) return false;
  return (HOURS[weekday as keyof Hours] ?? []).some(([from, to]) => from <= time && time < to);
}

const utc = (iso: string) => Date.parse(`${iso}Z`) / 60_000;

describe.each(['Europe/Lisbon', 'America/New_York', 'Asia/Kathmandu', 'Australia/Lord_Howe'])(
  'weekly hours in %s',
  (zone) => {
    it.each([
      ['both changes to summer time', '2027-03-10T00:00', '2027-04-08T00:00'],
      ['a leap day', '2028-02-25T00:00', '2028-03-03T00:00'],
      ['a year end', '2027-12-28T00:00', '2028-01-05T00:00'],
    ])('open when the wall clock says so over %s', (_what, from, to) => {
      const calendar = expandHours(HOURS, OFF, zone, utc(from), utc(to));
      for (let minute = utc(from); minute < utc(to); minute += 15) {
        const open = calendar.some((span) => span.start <= minute && minute < span.end);
        expect([minuteToIso(minute, zone), open]).toEqual([
          minuteToIso(minute, zone),
          opensByWallClock(minute, zone),
        ]);
      }
    });
  },
);

describe('RFC 5545', () => {
  it('has July 14 1997, 13:30 in New York at 17:30 UTC', () => {
    expect(localToMinute('1997-07-14T13:30', 'America/New_York')).toEqual({
      minute: isoToMinute('1997-07-14T17:30Z'),
      occurs: 'once',
    });
  });

  it('takes the first of the two 01:30 of November 4 2007 in New York, at UTC-04:00', () => {
    const found = localToMinute('2007-11-04T01:30', 'America/New_York')!;
    expect(found.occurs).toBe('twice');
    expect(minuteToIso(found.minute, 'America/New_York')).toBe('2007-11-04T01:30-04:00');
  });

  it('has no 02:30 on March 11 2007 in New York', () => {
    expect(localToMinute('2007-03-11T02:30', 'America/New_York')).toBeNull();
  });
});
