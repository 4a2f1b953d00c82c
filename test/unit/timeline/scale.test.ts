import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  clampZoom,
  pxPerMinuteOf,
  timeScale,
  wholeDaysAround,
} from '../../../app/timeline/scale.ts';
import { dayTicks, daysIn, hourTicks, shadesOf } from '../../../app/timeline/shade.ts';
import { dayTimeToMinute, dayNumber, minuteToLocal } from '../../../app/time/zone.ts';
import { forAll } from '../../support/draws.ts';

const ZONE = 'Europe/Lisbon';
const midnight = (date: string): number => dayTimeToMinute(dayNumber(date), 0, ZONE);
const world = { start: midnight('2027-03-26'), end: midnight('2027-04-02') };

describe('scale', () => {
  const anyScale = fc
    .double({ min: 0.001, max: 50, noNaN: true })
    .map((pxPerMinute) => timeScale(world, pxPerMinute));
  const anyMinute = fc.integer({ min: world.start - 10_000, max: world.end + 10_000 });

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
    expect(pxPerMinuteOf('day', world, 720)).toBe(0.5);
    const short = { start: 0, end: 600 };
    expect(pxPerMinuteOf('week', short, 600)).toBe(pxPerMinuteOf('fit', short, 600));
  });

  test('the world is whole local days around what is drawn', () => {
    const span = { start: midnight('2027-03-27') + 100, end: midnight('2027-03-28') + 30 };
    expect(wholeDaysAround([span], ZONE)).toEqual({
      start: midnight('2027-03-27'),
      end: midnight('2027-03-29'),
    });
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
  const shades = shadesOf(world, shop, ZONE);

  test('days without work are closed from midnight to midnight, the short one too', () => {
    const closed = shades.filter(({ kind }) => kind === 'closed');
    expect(closed.map((span) => (span.end - span.start) / 60)).toEqual([24, 23, 24, 24, 24]);
  });

  test('nights are shaded, a lunch break is not, a long break is', () => {
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

  test('hours are full hours of the wall clock, also where the zone is half an hour off', () => {
    const zone = 'Australia/Adelaide';
    const start = dayTimeToMinute(dayNumber('2027-04-03'), 0, zone);
    const span = { start, end: start + 2 * 1440 };
    const ticks = hourTicks(timeScale(span, 2), zone, span.start, span.end);
    expect(ticks.length).toBeGreaterThan(40);
    for (const { minute, label } of ticks) expect(minuteToLocal(minute, zone).time).toBe(label);
  });
});
