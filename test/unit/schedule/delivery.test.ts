/** Orders in working days of a supplier, against a calendar that is walked day by day. */
import { describe, expect, it } from 'vitest';
import { deliveryLength } from '../../../app/schedule/network/delivery.ts';
import { expandHours } from '../../../app/time/calendar.ts';
import { isoToMinute, minuteToIso } from '../../../app/time/zone.ts';
import { draws } from './deliveryDays.ts';

const ZONE = 'Europe/Lisbon';
const at = (wall: string) => isoToMinute(`${wall}+01:00`)!;
const DAY: [string, string][] = [
  ['08:00', '12:00'],
  ['13:00', '17:00'],
];
const WEEK = { mon: DAY, tue: DAY, wed: DAY, thu: DAY, fri: DAY };
const hours = (off: string[] = []) =>
  expandHours(WEEK, off, ZONE, at('2027-04-01T00:00'), at('2027-08-01T00:00'));
const arrival = (ordered: string, leadDays: number, off: string[] = []): string | null => {
  const length = deliveryLength(hours(off), leadDays, ZONE);
  const end = length.kind === 'function' ? length.endOf(at(ordered)) : null;
  return end === null ? null : minuteToIso(end, ZONE).slice(0, 16);
};

describe('an order', () => {
  it('comes so many working days later, by the end of the receiving hours', () => {
    // Monday 19 April 2027.
    expect(arrival('2027-04-19T09:00', 3)).toBe('2027-04-22T17:00');
    expect(arrival('2027-04-19T09:00', 5)).toBe('2027-04-26T17:00');
  });

  it('after closing time, or on a Saturday, counts from the next working day', () => {
    expect(arrival('2027-04-19T16:59', 1)).toBe('2027-04-20T17:00');
    expect(arrival('2027-04-19T17:00', 1)).toBe('2027-04-21T17:00');
    expect(arrival('2027-04-24T10:00', 1)).toBe('2027-04-27T17:00');
  });

  it('passes over the days off of the supplier', () => {
    expect(arrival('2027-04-19T09:00', 3, ['2027-04-21'])).toBe('2027-04-23T17:00');
    expect(arrival('2027-04-19T09:00', 3, ['2027-04-19'])).toBe('2027-04-23T17:00');
  });

  it('that would come after the end of the calendar never comes', () => {
    expect(arrival('2027-07-28T09:00', 3)).toBeNull();
  });

  it('is as a walk through the days gives it, and its inverse is exact', () => {
    const seen = { weekend: 0, holiday: 0, late: 0 };
    for (const { ordered, leadDays, off, walked, kind } of draws(400)) {
      expect([ordered, leadDays, arrival(ordered, leadDays, off)]).toEqual([
        ordered,
        leadDays,
        walked,
      ]);
      seen[kind] += 1;
      const length = deliveryLength(hours(off), leadDays, ZONE);
      if (length.kind !== 'function') throw new Error('no function');
      const end = length.endOf(at(ordered))!;
      const latest = length.latestStart(end)!;
      expect(length.endOf(latest)).toBe(end);
      expect(length.endOf(latest + 1)!).toBeGreaterThan(end);
      expect(length.latestStart(end - 1)!).toBeLessThan(at(ordered));
    }
    for (const count of Object.values(seen)) expect(count).toBeGreaterThan(20);
  });
});
