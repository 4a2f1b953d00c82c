/** When heat may be switched on: the intervals equal a look at every minute. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { HEAT_ALONE, type HeatAlone } from '../../app/document/schema.ts';
import { closedDays, heatStarts, staffedHours } from '../../app/plan/heatHours.ts';
import { expandHours } from '../../app/time/calendar.ts';
import type { Calendar, Minute } from '../../app/time/instant.ts';
import { isoToMinute, localToMinute, minuteToIso } from '../../app/time/zone.ts';
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
    const counted = { yes: 0, no: 0, through: 0, never: 0 };
    forAll(
      fc.property(weeks, runs, fc.constantFrom<HeatAlone>(...HEAT_ALONE), (week, run, alone) => {
        const shopHours = expandHours(week, [], ZONE, FIRST, HORIZON);
        const staffed = staffedHours(shopHours);
        const closed = closedDays(shopHours, ZONE, FIRST, HORIZON, 6 * 60);
        const shop = { alone, staffed, closedDays: closed, first: FIRST, horizon: HORIZON };
        const starts = heatStarts(shop, run);
        const there = alone === 'never' ? run.minutes : run.attendedMinutes;
        for (let start = FIRST + 3 * 1440; start < FIRST + 15 * 1440; start += 13) {
          const attended =
            there === 0 || staffed.some((span) => span.start <= start && start + there <= span.end);
          const through =
            alone === 'nights' &&
            closed.some((span) => start < span.end && start + run.minutes > span.start);
          expect(open(starts, start)).toBe(attended && !through);
          counted[attended && !through ? 'yes' : 'no'] += 1;
          if (attended && through) counted.through += 1;
          if (alone === 'never' && attended) counted.never += 1;
        }
      }),
      { numRuns: 60, seed: 11 },
    );
    for (const [what, count] of Object.entries(counted)) expect(count, what).toBeGreaterThan(0);
  });

  it('end and begin again on the minute', () => {
    const at = (local: string) => localToMinute(local, ZONE)!.minute;
    const shopHours = expandHours(WEEK, [], ZONE, FIRST, HORIZON);
    const closed = closedDays(shopHours, ZONE, FIRST, HORIZON, 6 * 60);
    // From 06:00: 43 hours, as the clocks go back on that Sunday.
    expect(closed[1]!.end - closed[1]!.start).toBe(43 * 60);
    const starts = heatStarts(
      {
        alone: 'nights',
        staffed: staffedHours(shopHours),
        closedDays: closed,
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

  const office = [['07:30', '16:30']] as [string, string][];
  const WEEK = { mon: office, tue: office, wed: office, thu: office, fri: office };
  const spans = (week: Parameters<typeof expandHours>[0], off: string[] = []) =>
    closedDays(expandHours(week, off, ZONE, FIRST, HORIZON), ZONE, FIRST, HORIZON, 6 * 60).map(
      ({ start, end }) => [
        minuteToIso(start, ZONE).slice(0, 16),
        minuteToIso(end, ZONE).slice(0, 16),
      ],
    );

  it('keep off a holiday, alone or joined to a weekend', () => {
    const closed = spans(WEEK, ['2027-10-27', '2027-11-01']);
    expect(closed).toContainEqual(['2027-10-27T06:00', '2027-10-28T00:00']);
    expect(closed).toContainEqual(['2027-10-30T06:00', '2027-11-02T00:00']);
  });

  it('keep off a Sunday after a Saturday with work, and no Saturday that has an hour of it', () => {
    const closed = spans({ ...WEEK, sat: [['08:00', '09:00']] });
    expect(closed).toContainEqual(['2027-10-24T06:00', '2027-10-25T00:00']);
    expect(closed.every(([start]) => start !== '2027-10-23T06:00')).toBe(true);
  });
});
