import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { daysIn, wholeDaysAround } from '../../../app/timeline/days.ts';
import { foldsOf } from '../../../app/timeline/folds.ts';
import {
  clampZoom,
  grainAt,
  pxPerMinuteOf,
  timeScale,
  type FoldedWorld,
} from '../../../app/timeline/scale.ts';
import {
  dayTicks,
  hourTicks,
  namedWeeks,
  shadesOf,
  weekTicks,
} from '../../../app/timeline/shade.ts';
import { dayTimeToMinute, dayNumber, minuteToLocal } from '../../../app/time/zone.ts';
import { forAll } from '../../support/draws.ts';

const ZONE = 'Europe/Lisbon';
const midnight = (date: string): number => dayTimeToMinute(dayNumber(date), 0, ZONE);
const unfolded = (start: number, end: number): FoldedWorld => ({
  start,
  end,
  folds: [],
  stripPx: 26,
});
const world = unfolded(midnight('2027-03-26'), midnight('2027-04-02'));
/** Three weeks; nothing happens from the second day to the fifteenth. */
const idle = unfolded(midnight('2027-03-26'), midnight('2027-04-16'));
const busy = [
  { start: midnight('2027-03-26') + 480, end: midnight('2027-03-27') },
  { start: midnight('2027-04-10') + 480, end: midnight('2027-04-10') + 900 },
];
const folded: FoldedWorld = { ...idle, folds: foldsOf(idle, busy, [], ZONE) };

describe('scale', () => {
  const anyScale = fc
    .tuple(fc.double({ min: 0.001, max: 50, noNaN: true }), fc.constantFrom(world, folded))
    .map(([pxPerMinute, one]) => timeScale(one, pxPerMinute));
  const anyMinute = fc.integer({ min: world.start - 10_000, max: idle.end + 10_000 });

  test('later is further right, always', () => {
    forAll(
      fc.property(anyScale, anyMinute, fc.integer({ min: 1, max: 5000 }), (scale, minute, more) => {
        expect(scale.x(minute + more)).toBeGreaterThan(scale.x(minute));
      }),
      { seed: 1 },
    );
  });

  test('there and back again is the same minute', () => {
    forAll(
      fc.property(anyScale, anyMinute, (scale, minute) => {
        expect(scale.minute(scale.x(minute))).toBeCloseTo(minute, 3);
      }),
      { seed: 2 },
    );
  });

  test('the day of the change to summer time is 23/24 as wide as its neighbours', () => {
    const scale = timeScale(world, 0.5);
    const widths = daysIn(world, ZONE).map((day) => scale.x(day.end) - scale.x(day.start));
    expect(widths).toEqual([720, 720, 690, 720, 720, 720, 720]);
  });

  test('no zoom shows more than the build or less than hours', () => {
    expect(timeScale(world, clampZoom(0, world, 700)).width).toBeCloseTo(700);
    expect(clampZoom(1e9, world, 700)).toBeCloseTo(700 / 240);
    expect(pxPerMinuteOf('day', world, 432)).toBeCloseTo(0.5);
    const short = unfolded(0, 600);
    expect(pxPerMinuteOf('week', short, 600)).toBe(pxPerMinuteOf('whole', short, 600));
  });

  test('a fold has the width of its strip, and the whole still fits the window', () => {
    const scale = timeScale(folded, pxPerMinuteOf('whole', folded, 700));
    const [fold] = folded.folds;
    expect(scale.x(fold!.end) - scale.x(fold!.start)).toBeCloseTo(26);
    expect(scale.width).toBeCloseTo(700);
  });

  test('words come with the room for them', () => {
    expect(grainAt(20 / 1440, 1)).toBe('whole');
    expect(grainAt(150 / 1440, 1)).toBe('week');
    expect(grainAt(700 / 1440, 1)).toBe('day');
    // Letters twice as large need twice the room.
    expect(grainAt(150 / 1440, 2)).toBe('whole');
  });

  test('the world is whole local days around what is drawn', () => {
    const span = { start: midnight('2027-03-27') + 100, end: midnight('2027-03-28') + 30 };
    expect(wholeDaysAround([span], ZONE)).toEqual({
      start: midnight('2027-03-27'),
      end: midnight('2027-03-29'),
    });
  });
});

describe('folds', () => {
  const spans = (folds: FoldedWorld['folds']) => folds.map(({ id, days }) => `${id} ${days}`);

  test('runs of empty days fold, the days of now and of the unveiling never', () => {
    expect(spans(folded.folds)).toEqual(['2027-03-27 14', '2027-04-11 5']);
    const kept = [midnight('2027-03-30') + 60, midnight('2027-04-15') + 1000];
    expect(spans(foldsOf(idle, busy, kept, ZONE))).toEqual([
      '2027-03-27 3',
      '2027-03-31 10',
      '2027-04-11 4',
    ]);
  });

  test('what ends at midnight leaves the next day empty; one empty day alone stays', () => {
    const span = unfolded(midnight('2027-03-26'), midnight('2027-03-29'));
    const until = (end: number) => [
      { start: span.start, end },
      { start: midnight('2027-03-28'), end: midnight('2027-03-29') },
    ];
    expect(foldsOf(span, until(midnight('2027-03-27')), [], ZONE)).toEqual([]);
    const two = unfolded(span.start, midnight('2027-03-30'));
    const ends = [{ start: span.start, end: midnight('2027-03-28') }];
    expect(spans(foldsOf(two, ends, [], ZONE))).toEqual(['2027-03-28 2']);
  });

  test('what a person has unfolded stays so, the rest does not', () => {
    const open = ['2027-03-27'];
    expect(spans(foldsOf(idle, busy, [], ZONE, open))).toEqual(['2027-04-11 5']);
  });
});

describe('shades', () => {
  const hours = (date: string, from: number, to: number) => ({
    start: midnight(date) + from * 60,
    end: midnight(date) + to * 60,
  });
  const shop = [
    hours('2027-03-26', 8, 12),
    hours('2027-03-26', 13, 17),
    hours('2027-03-29', 8, 12),
    hours('2027-03-29', 16, 18),
  ];
  const shades = shadesOf(timeScale(world, 1), shop, ZONE);

  test('days without work are closed from midnight to midnight, the short one too', () => {
    const closed = shades.filter(({ kind }) => kind === 'closed');
    expect(closed.map((span) => (span.end - span.start) / 60)).toEqual([24, 23, 24, 24, 24]);
  });

  test('nights are shaded, and so is a long break', () => {
    const nights = shades.filter(({ kind }) => kind === 'night');
    const local = nights.map((span) =>
      [span.start, span.end].map((minute) => minuteToLocal(minute, ZONE).time).join('-'),
    );
    expect(local).toEqual([
      '00:00-08:00',
      '17:00-00:00',
      '00:00-08:00',
      '12:00-16:00',
      '18:00-00:00',
    ]);
  });

  test('a lunch break is one', () => {
    const breaks = shades.filter(({ kind }) => kind === 'break');
    expect(
      breaks.map(({ start, end }) =>
        [start, end].map((minute) => minuteToLocal(minute, ZONE).time).join('-'),
      ),
    ).toEqual(['12:00-13:00']);
  });
});

describe('ticks', () => {
  test('days stand on local midnight and Mondays are strong', () => {
    const ticks = dayTicks(timeScale(world, 0.5), ZONE);
    expect(ticks.every(({ minute }) => minuteToLocal(minute, ZONE).time === '00:00')).toBe(true);
    expect(ticks.filter(({ strong }) => strong).map(({ label }) => label)).toEqual(['Mon 29 Mar']);
  });

  test.each([0.006, 0.012, 0.02, 0.04, 0.06, 0.2])(
    'at %d px a minute no day runs into the next',
    (pxPerMinute) => {
      const ticks = dayTicks(timeScale(world, pxPerMinute), ZONE).filter(({ label }) => label);
      for (const [i, tick] of ticks.entries()) {
        const next = ticks[i + 1];
        if (next) expect(tick.x + 4 + tick.label.length * 7).toBeLessThanOrEqual(next.x + 4);
      }
    },
  );

  test.each([0.0012, 0.002, 0.004, 0.006, 0.02])(
    'at %d px a minute some weeks are named, and no name lies over the next',
    (pxPerMinute) => {
      const scale = timeScale(unfolded(world.start, world.start + 70 * 1440), pxPerMinute);
      const weeks = weekTicks(scale, ZONE);
      const widthOf = (label: string): number => label.length * 7;
      const named = namedWeeks(weeks, widthOf, scale.width);
      expect(named.length).toBeGreaterThan(scale.width < 60 ? 0 : 1);
      // A week with room of its own is never left out for one without.
      for (const week of weeks) if (widthOf(week.label) <= week.room) expect(named).toContain(week);
      named.forEach((week, i) => {
        const end = named[i + 1]?.x ?? scale.width;
        expect(week.x + widthOf(week.label)).toBeLessThanOrEqual(end);
      });
    },
  );

  test('a folded day has no tick; its week is named at the first day that is shown', () => {
    const scale = timeScale(folded, 0.1);
    expect(dayTicks(scale, ZONE).map(({ label }) => label)).toEqual(['Fri 26 Mar', 'Sat 10 Apr']);
    expect(weekTicks(scale, ZONE).map(({ label }) => label)).toEqual(['26 Mar', '10 Apr']);
  });

  test('hours are full hours of the wall clock, also where the zone is half an hour off', () => {
    const zone = 'Australia/Adelaide';
    const start = dayTimeToMinute(dayNumber('2027-04-03'), 0, zone);
    const span = unfolded(start, start + 2 * 1440);
    const ticks = hourTicks(timeScale(span, 2), zone, span);
    expect(ticks.length).toBeGreaterThan(40);
    for (const { minute, label } of ticks) expect(minuteToLocal(minute, zone).time).toBe(label);
  });
});
