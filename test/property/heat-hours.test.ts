/** When heat may be switched on: the intervals equal a look at every minute. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { HEAT_ALONE, type HeatAlone } from '../../app/document/schema.ts';
import { closedWeekends, heatStarts, staffedHours } from '../../app/plan/heatHours.ts';
import { expandHours } from '../../app/time/calendar.ts';
import type { Calendar, Minute } from '../../app/time/instant.ts';
import { isoToMinute, localToMinute } from '../../app/time/zone.ts';
import { forAll } from '../support/draws.ts';

const ZONE = 'Europe/Lisbon';
/** Over the end of summer time on 31 October 2027. */
const FIRST = isoToMinute('2027-10-20T00:00+01:00')!;
const HORIZON = FIRST + 21 * 1440;

const day = fc.constantFrom<[string, string][]>(
  [],
  [
    ['07:30', '12:00'],
    ['12:30', '16:30'],
  ],
  [['08:00', '13:00']],
  [['18:00', '20:00']],
);
const rest = fc.oneof({ weight: 3, arbitrary: fc.constant<[string, string][]>([]) }, day);
const weeks = fc.record({ mon: day, tue: day, wed: day, thu: day, fri: day, sat: rest, sun: rest });
const runs = fc.record({
  minutes: fc.oneof(fc.integer({ min: 30, max: 1440 }), fc.integer({ min: 2880, max: 7200 })),
  attendedMinutes: fc.oneof(fc.constant(0), fc.integer({ min: 0, max: 300 })),
});

const open = (calendar: Calendar, minute: Minute): boolean =>
  calendar.some(({ start, end }) => start <= minute && minute < end);

describe('starts of heat', () => {
  it('are exactly the minutes that keep the rules', () => {
    const counted = { yes: 0, no: 0, weekend: 0, never: 0 };
    forAll(
      fc.property(weeks, runs, fc.constantFrom<HeatAlone>(...HEAT_ALONE), (week, run, alone) => {
        const shopHours = expandHours(week, [], ZONE, FIRST, HORIZON);
        const staffed = staffedHours(shopHours);
        const weekends = closedWeekends(shopHours, ZONE, FIRST, HORIZON, 6 * 60);
        const shop = { alone, staffed, closedWeekends: weekends, first: FIRST, horizon: HORIZON };
        const starts = heatStarts(shop, run);
        const there = alone === 'never' ? run.minutes : run.attendedMinutes;
        for (let start = FIRST + 3 * 1440; start < FIRST + 15 * 1440; start += 13) {
          const attended =
            there === 0 || staffed.some((span) => span.start <= start && start + there <= span.end);
          const through =
            alone === 'nights' &&
            weekends.some((closed) => start < closed.end && start + run.minutes > closed.start);
          expect(open(starts, start)).toBe(attended && !through);
          counted[attended && !through ? 'yes' : 'no'] += 1;
          if (attended && through) counted.weekend += 1;
          if (alone === 'never' && attended) counted.never += 1;
        }
      }),
      { numRuns: 60, seed: 11 },
    );
    for (const [what, count] of Object.entries(counted)) expect(count, what).toBeGreaterThan(0);
  });

  it('end and begin again on the minute', () => {
    const at = (local: string) => localToMinute(local, ZONE)!.minute;
    const office = [['07:30', '16:30']] as [string, string][];
    const week = { mon: office, tue: office, wed: office, thu: office, fri: office };
    const shopHours = expandHours(week, [], ZONE, FIRST, HORIZON);
    const closed = closedWeekends(shopHours, ZONE, FIRST, HORIZON, 6 * 60);
    // From 06:00: 43 hours, as the clocks go back on that Sunday.
    expect(closed[1]!.end - closed[1]!.start).toBe(43 * 60);
    const starts = heatStarts(
      {
        alone: 'nights',
        staffed: staffedHours(shopHours),
        closedWeekends: closed,
        first: FIRST,
        horizon: HORIZON,
      },
      // From Friday 09:00 it ends on Saturday 06:00 sharp.
      { minutes: 21 * 60, attendedMinutes: 0 },
    );
    expect(open(starts, at('2027-10-29T09:00'))).toBe(true);
    expect(open(starts, at('2027-10-29T09:01'))).toBe(false);
    // From Friday to Sunday night is the weekend as well.
    expect(open(starts, at('2027-10-31T23:59'))).toBe(false);
    expect(open(starts, at('2027-11-01T00:00'))).toBe(true);
  });

  it('a weekend with one hour of work is not closed', () => {
    const week = { sat: [['08:00', '09:00']] as [string, string][] };
    const shopHours = expandHours(week, [], ZONE, FIRST, HORIZON);
    expect(closedWeekends(shopHours, ZONE, FIRST, HORIZON).length).toBeLessThanOrEqual(1);
  });
});
