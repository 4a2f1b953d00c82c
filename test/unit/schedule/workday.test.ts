/** To the end of the next day with work: equal to a walk over every hour, and its inverses exact. */
import { describe, expect, it } from 'vitest';
import { nextWorkday } from '../../../app/schedule/network/workday.ts';
import { expandHours } from '../../../app/time/calendar.ts';
import { isoToMinute } from '../../../app/time/zone.ts';

const ZONE = 'Europe/Lisbon';
const at = (iso: string) => isoToMinute(`${iso}+01:00`)!;
const day = [['07:30', '16:30']] as [string, string][];
const week = { mon: day, tue: day, wed: day, thu: day, fri: day };
const FIRST = at('2027-04-19T00:00');
const HORIZON = at('2027-05-10T00:00');
// Thursday 29 April is a holiday.
const map = nextWorkday(expandHours(week, ['2027-04-29'], ZONE, FIRST, HORIZON), ZONE);

describe('the next day with work', () => {
  it.each([
    ['2027-04-20T09:00', '2027-04-21T23:59'],
    ['2027-04-23T16:30', '2027-04-26T23:59'],
    ['2027-04-25T12:00', '2027-04-26T23:59'],
    ['2027-04-28T08:00', '2027-04-30T23:59'],
  ])('from %s lasts until %s', (from, until) => {
    expect(map.apply(at(from))).toBe(at(until));
  });

  it('has exact inverses', () => {
    for (let y = at('2027-04-22T00:30'); y < at('2027-05-05T00:00'); y += 97) {
      const latest = map.latest(y)!;
      expect(map.apply(latest)!).toBeLessThanOrEqual(y);
      expect(map.apply(latest + 1)!).toBeGreaterThan(y);
      const earliest = map.earliest(y)!;
      expect(map.apply(earliest)!).toBeGreaterThanOrEqual(y);
      expect(map.apply(earliest - 1)!).toBeLessThan(y);
    }
  });

  it('is none after the last day that is known', () => {
    expect(map.apply(HORIZON)).toBeNull();
  });
});
