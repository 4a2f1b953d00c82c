import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cureClock } from '../../app/cure/clock.ts';
import { cureCurveTable } from '../../app/cure/kinetics.ts';
import type { CureModel, TemperatureProfile } from '../../app/cure/types.ts';
import { drawnProfile } from '../support/profiles.ts';
import { forAll, tally } from '../support/draws.ts';

const kinetics = {
  shape: { seed: 0.02, m: 0.65, n: 2.5 },
  glass: { tg0C: -35, tgFullC: 82, lambda: 0.3, slowsOverC: 10, halfOverC: 20, widthC: 2.5 },
  referenceC: 20,
  activationEnergyJMol: 52_000,
  ratePerHour: 1.05,
  heatJG: 430,
};
const table = cureCurveTable(kinetics.shape, kinetics.glass);
/** Milestones well into the stiff part. */
const model: Pick<CureModel, 'referenceC' | 'activationEnergyJMol' | 'doseHours' | 'kinetics'> = {
  referenceC: 20,
  activationEnergyJMol: 52_000,
  doseHours: {
    open: null,
    gel: table.doseFor(0.58) / kinetics.ratePerHour,
    tackFree: null,
    debag: table.doseFor(0.83) / kinetics.ratePerHour,
    demould: table.doseFor(0.87) / kinetics.ratePerHour,
    sand: null,
    bondUntil: null,
    full: table.doseFor(0.93) / kinetics.ratePerHour,
  },
  kinetics,
};

const profiles = drawnProfile([30, 900], [8, 50], [2, 8]);
const milestone = fc.constantFrom('debag' as const, 'demould' as const, 'full' as const);
const lastOf = (profile: TemperatureProfile) => profile[profile.length - 1]!.end;

describe('a cure that stiffens', () => {
  it('a later start never ends earlier, on either side of the switch', () => {
    const seen = tally('reached', 'never reached');
    forAll(
      fc.property(profiles, milestone, (profile, m) => {
        const clock = cureClock(model, profile);
        let before = -Infinity;
        for (let start = 0; start <= lastOf(profile); start += 3) {
          const end = clock.reached(start, m) ?? Infinity;
          expect(end).toBeGreaterThanOrEqual(before);
          seen.saw(end < Infinity ? 'reached' : 'never reached');
          before = end;
        }
      }),
      { seed: 1, seen, least: 100, numRuns: 60 },
    );
  });

  it('latestStart and earliestStart are what trying every start finds', () => {
    const seen = tally('latest start', 'no latest start', 'earliest start', 'no earliest start');
    forAll(
      fc.property(profiles, milestone, fc.nat(), (profile, m, where) => {
        const clock = cureClock(model, profile);
        const last = lastOf(profile);
        const end = where % (last + 1);
        let latest: number | null = null;
        let earliest: number | null = null;
        for (let start = 0; start <= last; start++) {
          const reached = clock.reached(start, m);
          if (reached !== null && reached <= end) latest = start;
          if (reached !== null && reached >= end && earliest === null) earliest = start;
        }
        seen.saw(latest === null ? 'no latest start' : 'latest start');
        seen.saw(earliest === null ? 'no earliest start' : 'earliest start');
        expect(clock.latestStart(end, m)).toBe(latest);
        expect(clock.earliestStart(end, m)).toBe(earliest);
      }),
      { seed: 2, seen, numRuns: 30 },
    );
  });

  it('cutting a segment in two changes nothing', () => {
    const seen = tally('stalled', 'not stalled');
    forAll(
      fc.property(profiles, milestone, fc.nat(), fc.nat(), (profile, m, which, where) => {
        const i = which % profile.length;
        const segment = profile[i]!;
        const at = segment.start + 1 + (where % (segment.end - segment.start - 1));
        const split = [
          ...profile.slice(0, i),
          { ...segment, end: at },
          { ...segment, start: at },
          ...profile.slice(i + 1),
        ];
        const [whole, parts] = [cureClock(model, profile), cureClock(model, split)];
        for (let start = 0; start <= lastOf(profile); start += 29) {
          expect(parts.reached(start, m)).toBe(whole.reached(start, m));
        }
        const [a, b] = [whole.stateAt(0, lastOf(profile)), parts.stateAt(0, lastOf(profile))];
        seen.saw(a.slowed ? 'stalled' : 'not stalled');
        expect(b.degree! / a.degree!).toBeCloseTo(1, 9);
      }),
      { seed: 3, seen, numRuns: 60 },
    );
  });

  it('hotter is never slower, and a stiff cure never faster than its dose', () => {
    const seen = tally('slowed by its glass', 'by dose alone', 'never reached');
    forAll(
      fc.property(profiles, milestone, fc.integer({ min: 1, max: 12 }), (profile, m, warmer) => {
        const hot = profile.map((p) => ({ ...p, temperatureC: p.temperatureC + warmer }));
        const cool = cureClock(model, profile).reached(0, m) ?? Infinity;
        expect(cureClock(model, hot).reached(0, m) ?? Infinity).toBeLessThanOrEqual(cool);
        const { kinetics: _stiff, ...soft } = model;
        const byDose = cureClock(soft, profile).reached(0, m) ?? Infinity;
        expect(byDose).toBeLessThanOrEqual(cool);
        if (cool === Infinity) seen.saw('never reached');
        else seen.saw(byDose < cool ? 'slowed by its glass' : 'by dose alone');
      }),
      { seed: 4, seen },
    );
  });

  it('goes by dose alone up to the minute at which Tg comes near, and slower after', () => {
    forAll(
      fc.property(fc.integer({ min: 10, max: 40 }), (temperatureC) => {
        const profile = [{ start: 0, end: 200_000, temperatureC }];
        const clock = cureClock(model, profile);
        const slows = clock.slowsFrom(0)!;
        const before = clock.stateAt(0, slows - 1);
        expect(before.slowed).toBe(false);
        expect(before.doseHours).toBeCloseTo(clock.doseHours(0, slows - 1), 6);
        expect(before.tgC!).toBeLessThanOrEqual(temperatureC + 10 + 1e-6);
        const later = clock.stateAt(0, slows + 3000);
        expect(later.slowed).toBe(true);
        expect(later.doseHours).toBeLessThan(clock.doseHours(0, slows + 3000));
        expect(later.tgC!).toBeGreaterThan(temperatureC + 10);
      }),
      { seed: 5 },
    );
  });
});
