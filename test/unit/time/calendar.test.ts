import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Calendar } from '../../../app/time/instant.ts';
import {
  addWork,
  containingInterval,
  expandHours,
  intersect,
  nextOpen,
  subtract,
  tableStartForWork,
  unite,
  workBetween,
  workTable,
} from '../../../app/time/calendar.ts';
import { forAll, tally } from '../../support/draws.ts';

/** Sorted, disjoint, non-touching intervals below 400. */
const calendar: fc.Arbitrary<Calendar> = fc
  .array(fc.tuple(fc.integer({ min: 1, max: 25 }), fc.integer({ min: 1, max: 25 })), {
    maxLength: 8,
  })
  .map((steps) => {
    let at = 0;
    return steps.map(([gap, length]) => {
      const start = at + gap;
      at = start + length;
      return { start, end: at };
    });
  });
const minute = fc.integer({ min: 0, max: 420 });
const open = (cal: Calendar, t: number) => cal.some((i) => i.start <= t && t < i.end);
const openMinutes = (cal: Calendar, a: number, b: number) => {
  let n = 0;
  for (let t = a; t < b; t++) if (open(cal, t)) n++;
  return n;
};

describe('counting work minute by minute', () => {
  it('agrees on the work between two instants', () => {
    forAll(
      fc.property(calendar, minute, minute, (cal, a, b) => {
        expect(workBetween(cal, a, b)).toBe(openMinutes(cal, a, b));
      }),
      { seed: 1 },
    );
  });

  it('ends work at the first minute by which it is done', () => {
    const seen = tally('done', 'not done');
    forAll(
      fc.property(calendar, minute, fc.integer({ min: 1, max: 90 }), (cal, start, minutes) => {
        let end = start;
        let left = minutes;
        for (; end < 500 && left > 0; end++) if (open(cal, end)) left--;
        seen.saw(left > 0 ? 'not done' : 'done');
        expect(addWork(cal, start, minutes)).toBe(left > 0 ? null : end);
      }),
      { seed: 2, seen, least: 10 },
    );
  });

  it('starts work at the last open minute from which it is done in time', () => {
    const seen = tally('start', 'no start');
    forAll(
      fc.property(calendar, minute, fc.integer({ min: 1, max: 90 }), (cal, end, minutes) => {
        let start: number | null = null;
        for (let t = end; t >= 0 && start === null; t--) {
          if (open(cal, t) && openMinutes(cal, t, end) >= minutes) start = t;
        }
        seen.saw(start === null ? 'no start' : 'start');
        expect(tableStartForWork(workTable(cal), end, minutes)).toBe(start ?? -1);
      }),
      { seed: 3, seen, least: 10 },
    );
  });

  it('finds the next open minute and the interval around a minute', () => {
    const seen = tally('open', 'closed', 'closed for good');
    forAll(
      fc.property(calendar, minute, (cal, t) => {
        let next: number | null = null;
        for (let u = t; u < 500 && next === null; u++) if (open(cal, u)) next = u;
        expect(nextOpen(cal, t)).toBe(next);
        if (next === null) seen.saw('closed for good');
        else seen.saw(next === t ? 'open' : 'closed');
        const around = containingInterval(cal, t);
        expect(around !== null).toBe(open(cal, t));
        if (around) expect(around.start <= t && t < around.end).toBe(true);
      }),
      { seed: 4, seen },
    );
  });
});

describe('set operations', () => {
  const wellFormed = (cal: Calendar) =>
    cal.every((i, n) => i.start < i.end && (n === 0 || cal[n - 1]!.end < i.start));

  it('agree minute by minute', () => {
    forAll(
      fc.property(calendar, calendar, (a, b) => {
        const [both, either, only] = [intersect(a, b), unite(a, b), subtract(a, b)];
        for (const cal of [both, either, only]) expect(wellFormed(cal)).toBe(true);
        for (let t = 0; t < 420; t++) {
          expect(open(both, t)).toBe(open(a, t) && open(b, t));
          expect(open(either, t)).toBe(open(a, t) || open(b, t));
          expect(open(only, t)).toBe(open(a, t) && !open(b, t));
        }
      }),
      { seed: 5, numRuns: 40 },
    );
  });
});

describe('weekly hours', () => {
  const utc = (iso: string) => Date.parse(`${iso}Z`) / 60_000;
  const hours = {
    mon: [
      ['07:30', '12:00'],
      ['12:30', '16:30'],
    ],
    sun: [['00:00', '24:00']],
  } as Record<string, [string, string][]>;

  it('keep the wall clock across the change and leave days off out', () => {
    // 2027-03-28 is the Sunday on which Lisbon goes to summer time: 23 hours long.
    const cal = expandHours(
      hours,
      ['2027-04-05'],
      'Europe/Lisbon',
      utc('2027-03-27T00:00'),
      utc('2027-04-07T00:00'),
    );
    expect(cal).toEqual([
      { start: utc('2027-03-28T00:00'), end: utc('2027-03-28T23:00') },
      { start: utc('2027-03-29T06:30'), end: utc('2027-03-29T11:00') },
      { start: utc('2027-03-29T11:30'), end: utc('2027-03-29T15:30') },
      { start: utc('2027-04-03T23:00'), end: utc('2027-04-04T23:00') },
    ]);
  });

  it('join at midnight and stop at the ends asked for', () => {
    const nights = { mon: [['18:00', '24:00']], tue: [['00:00', '06:00']] } as Record<
      string,
      [string, string][]
    >;
    const cal = expandHours(nights, [], 'UTC', utc('2027-05-10T20:00'), utc('2027-05-18T03:00'));
    expect(cal).toEqual([
      { start: utc('2027-05-10T20:00'), end: utc('2027-05-11T06:00') },
      { start: utc('2027-05-17T18:00'), end: utc('2027-05-18T03:00') },
    ]);
  });
});
