import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cureClock } from '../../app/cure/clock.ts';
import { rateFactor } from '../../app/cure/arrhenius.ts';
import type { CureModel, TemperatureProfile } from '../../app/cure/types.ts';
import { forAll, tally } from '../support/draws.ts';

const doses = (gel: number): CureModel['doseHours'] => ({
  open: null,
  gel,
  tackFree: null,
  debag: null,
  demould: null,
  sand: null,
  bondUntil: null,
  full: null,
});

const pieces = fc.array(
  fc.record({
    minutes: fc.integer({ min: 1, max: 90 }),
    temperatureC: fc.integer({ min: 0, max: 45 }),
  }),
  { minLength: 1, maxLength: 8 },
);
const profileOf = (list: { minutes: number; temperatureC: number }[]): TemperatureProfile => {
  let start = 1000;
  return list.map(({ minutes, temperatureC }) => {
    const segment = { start, end: start + minutes, temperatureC };
    start += minutes;
    return segment;
  });
};

const setting = fc.record({
  profile: pieces.map(profileOf),
  gelHours: fc.double({ min: 0.02, max: 6, noNaN: true }),
  energy: fc.double({ min: 30_000, max: 90_000, noNaN: true }),
  minimumC: fc.integer({ min: -5, max: 20 }),
});

const clockOf = (s: {
  profile: TemperatureProfile;
  gelHours: number;
  energy: number;
  minimumC: number;
}) =>
  cureClock(
    { referenceC: 20, activationEnergyJMol: s.energy, doseHours: doses(s.gelHours) },
    s.profile,
    { minimumC: s.minimumC },
  );

const ends = (profile: TemperatureProfile) => ({
  first: profile[0]!.start,
  last: profile[profile.length - 1]!.end,
});

describe('the clock of a cure', () => {
  it('a later start never ends earlier', () => {
    const seen = tally('reached', 'never reached');
    forAll(
      fc.property(setting, (s) => {
        const clock = clockOf(s);
        const { first, last } = ends(s.profile);
        let before = -Infinity;
        for (let start = first; start <= last; start++) {
          const end = clock.reached(start, 'gel') ?? Infinity;
          expect(end).toBeGreaterThanOrEqual(Math.max(before, start));
          seen.saw(end < Infinity ? 'reached' : 'never reached');
          before = end;
        }
      }),
      { seed: 1, seen, least: 100, numRuns: 200 },
    );
  });

  it('reaches a milestone in the minute a sum over single minutes finds', () => {
    const seen = tally('reached', 'never reached');
    forAll(
      fc.property(setting, fc.nat({ max: 400 }), (s, offset) => {
        const { first, last } = ends(s.profile);
        const start = first + offset;
        fc.pre(start <= last);
        let minutesAtReference = 0;
        let end: number | null = null;
        for (let minute = start; minute < last; minute++) {
          const { temperatureC } = s.profile.find((p) => p.start <= minute && minute < p.end)!;
          if (temperatureC >= s.minimumC)
            minutesAtReference += rateFactor(s.energy, temperatureC, 20);
          if (minutesAtReference >= s.gelHours * 60) {
            end = minute + 1;
            break;
          }
        }
        const found = clockOf(s).reached(start, 'gel');
        seen.saw(end === null ? 'never reached' : 'reached');
        // The sum of floats may fall a hair short at a tie.
        if (found !== end)
          expect(Math.abs(minutesAtReference - s.gelHours * 60)).toBeLessThan(1e-3);
      }),
      { seed: 2, seen, least: 20, numRuns: 300 },
    );
  });

  it('latestStart and earliestStart are what trying every start finds', () => {
    const seen = tally('latest start', 'no latest start', 'earliest start', 'no earliest start');
    forAll(
      fc.property(setting, fc.integer({ min: -20, max: 800 }), (s, offset) => {
        const clock = clockOf(s);
        const { first, last } = ends(s.profile);
        const end = first + offset;
        let latest: number | null = null;
        let earliest: number | null = null;
        for (let start = first; start <= last; start++) {
          const reached = clock.reached(start, 'gel');
          if (reached !== null && reached <= end) latest = start;
          if (reached !== null && reached >= end && earliest === null) earliest = start;
        }
        seen.saw(latest === null ? 'no latest start' : 'latest start');
        seen.saw(earliest === null ? 'no earliest start' : 'earliest start');
        expect(clock.latestStart(end, 'gel')).toBe(latest);
        expect(clock.earliestStart(end, 'gel')).toBe(earliest);
      }),
      { seed: 3, seen, least: 10, numRuns: 200 },
    );
  });

  it('cutting a segment in two changes nothing', () => {
    const seen = tally('reached', 'never reached');
    forAll(
      fc.property(setting, fc.nat(), fc.nat(), (s, which, where) => {
        const i = which % s.profile.length;
        const segment = s.profile[i]!;
        const at = segment.start + (where % (segment.end - segment.start + 1));
        const split = [
          ...s.profile.slice(0, i),
          { ...segment, end: at },
          { ...segment, start: at },
          ...s.profile.slice(i + 1),
        ];
        const [whole, parts] = [clockOf(s), clockOf({ ...s, profile: split })];
        const { first, last } = ends(s.profile);
        for (let start = first; start <= last; start += 7) {
          const gel = whole.reached(start, 'gel');
          seen.saw(gel === null ? 'never reached' : 'reached');
          expect(parts.reached(start, 'gel')).toBe(gel);
          expect(parts.latestStart(start, 'gel')).toBe(whole.latestStart(start, 'gel'));
        }
        expect(parts.doseHours(first, last)).toBe(whole.doseHours(first, last));
      }),
      { seed: 4, seen, least: 100, numRuns: 200 },
    );
  });

  it('a warmer room is never slower', () => {
    const seen = tally('faster', 'never reached either way');
    forAll(
      fc.property(setting, fc.integer({ min: 1, max: 15 }), (s, warmer) => {
        const hot = s.profile.map((p) => ({ ...p, temperatureC: p.temperatureC + warmer }));
        const start = s.profile[0]!.start;
        const cool = clockOf(s).reached(start, 'gel') ?? Infinity;
        const warm = clockOf({ ...s, profile: hot }).reached(start, 'gel') ?? Infinity;
        if (warm < cool) seen.saw('faster');
        if (warm === Infinity) seen.saw('never reached either way');
        expect(warm).toBeLessThanOrEqual(cool);
      }),
      { seed: 5, seen },
    );
  });
});
