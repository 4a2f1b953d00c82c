import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { rateFactor } from '../../app/cure/arrhenius.ts';
import { cureClock } from '../../app/cure/clock.ts';
import {
  heatedClock,
  programmeFrom,
  programmeMinutes,
  programmeProfile,
  sealedClock,
} from '../../app/cure/programme.ts';
import { integrate } from '../../app/cure/integrate.ts';
import { cureCurveTable, shapeRate, tgAtDegreeC } from '../../app/cure/kinetics.ts';
import { temperatureAt, withMeasured } from '../../app/cure/profile.ts';
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
const hours = (degree: number): number => table.doseFor(degree) / kinetics.ratePerHour;
/** Milestones on both sides of the switch. */
const model: Pick<CureModel, 'referenceC' | 'activationEnergyJMol' | 'doseHours' | 'kinetics'> = {
  referenceC: 20,
  activationEnergyJMol: 52_000,
  doseHours: {
    open: hours(0.2),
    gel: hours(0.58),
    tackFree: hours(0.66),
    debag: hours(0.83),
    demould: hours(0.87),
    sand: hours(0.89),
    bondUntil: hours(0.8),
    full: hours(0.93),
  },
  kinetics,
};

const rooms = drawnProfile([60, 1200], [8, 34], [2, 7]);
const step = fc.record({
  temperatureC: fc.integer({ min: 15, max: 65 }),
  rampKPerHour: fc.integer({ min: 4, max: 60 }),
  holdHours: fc.integer({ min: 0, max: 40 }).map((quarters) => quarters / 4),
});
const programmes = fc
  .tuple(fc.array(step, { minLength: 1, maxLength: 3 }), fc.constantFrom(0, 0.5, 3))
  .map(([steps, lag]) => programmeProfile(steps, 20, lag))
  .filter((programme) => programme.length > 0);
const cases = fc.record({ room: rooms, programme: programmes, minimumC: fc.constantFrom(0, 12) });
const milestone = fc.constantFrom(
  'gel' as const,
  'debag' as const,
  'demould' as const,
  'full' as const,
);
const lastOf = (profile: TemperatureProfile): number => profile.at(-1)!.end;

describe('heat under the bag', () => {
  it('a later start never ends earlier, whatever the room and the programme', () => {
    const seen = tally('reached', 'never reached');
    forAll(
      fc.property(cases, milestone, fc.integer({ min: 0, max: 300 }), (given, m, wet) => {
        const clock = heatedClock({ ...given, model }, wet, wet / 60);
        let before = -Infinity;
        for (let start = 0; start <= lastOf(given.room); start++) {
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
      fc.property(cases, milestone, fc.nat(), fc.nat(300), (given, m, where, wet) => {
        const clock = heatedClock({ ...given, model }, wet, wet / 60);
        const last = lastOf(given.room);
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
      { seed: 2, seen, numRuns: 60 },
    );
  });

  it('is the plain clock over the room with the programme in its place', () => {
    const seen = tally('reached', 'never reached');
    forAll(
      fc.property(cases, milestone, fc.nat(), (given, m, where) => {
        const start = where % lastOf(given.room);
        const spliced = withMeasured(given.room, programmeFrom(given.programme, start));
        const plain = cureClock(model, spliced, given).reached(start, m);
        const heated = sealedClock({ ...given, model }).reached(start, m);
        seen.saw(heated === null ? 'never reached' : 'reached');
        const never = lastOf(given.room) + 1;
        expect(Math.abs((plain ?? never) - (heated ?? never))).toBeLessThanOrEqual(1);
      }),
      { seed: 3, seen, least: 10, numRuns: 200 },
    );
  });

  it('a hold or a ramp given in two pieces changes nothing', () => {
    const seen = tally('the mould lags', 'no lag');
    forAll(
      fc.property(
        fc.integer({ min: 25, max: 60 }),
        fc.integer({ min: 4, max: 30 }),
        fc.integer({ min: 2, max: 40 }),
        fc.integer({ min: 1, max: 4 }),
        fc.constantFrom(0, 2),
        (temperatureC, rampKPerHour, quarters, part, lag) => {
          const holdHours = quarters / 4;
          const whole = programmeProfile([{ temperatureC, rampKPerHour, holdHours }], 20, lag);
          // Half way up at a whole minute, and the hold in two.
          const minutes = Math.floor((((temperatureC - 20) / rampKPerHour) * 60 * part) / 5);
          const midC = 20 + (minutes * rampKPerHour) / 60;
          const early = Math.floor(quarters / 2) / 4;
          seen.saw(lag > 0 ? 'the mould lags' : 'no lag');
          const parts = programmeProfile(
            [
              { temperatureC: midC, rampKPerHour, holdHours: 0 },
              { temperatureC, rampKPerHour, holdHours: early },
              { temperatureC, rampKPerHour, holdHours: holdHours - early },
            ],
            20,
            lag,
          );
          expect(parts).toEqual(whole);
        },
      ),
      { seed: 4, seen, numRuns: 200 },
    );
  });

  it('a hotter hold is never slower', () => {
    const seen = tally('faster', 'never reached');
    forAll(
      fc.property(rooms, step, fc.integer({ min: 1, max: 15 }), milestone, (room, one, up, m) => {
        const flat = { ...one, rampKPerHour: 600, holdHours: one.holdHours + 1 };
        const at = (temperatureC: number) => {
          const programme = [
            { start: 0, end: Math.round(flat.holdHours * 60), temperatureC },
          ] as const;
          return sealedClock({ model, room, programme, minimumC: 0 }).reached(0, m) ?? Infinity;
        };
        const [hot, cool] = [at(one.temperatureC + up), at(one.temperatureC)];
        if (hot < cool) seen.saw('faster');
        if (hot === Infinity) seen.saw('never reached');
        expect(hot).toBeLessThanOrEqual(cool);
      }),
      { seed: 5, seen },
    );
  });

  it('comes to the degree of cure that an adaptive integration of the rate comes to', () => {
    const seen = tally('gelled under the programme', 'gelled later');
    forAll(
      fc.property(cases, (given) => {
        const spliced = withMeasured(given.room, programmeFrom(given.programme, 0));
        const { glass, shape } = kinetics;
        let y = [1e-12];
        for (const { start, end, temperatureC } of spliced) {
          if (temperatureC < given.minimumC) continue;
          const rate =
            kinetics.ratePerHour * rateFactor(kinetics.activationEnergyJMol, temperatureC, 20);
          const stiff = (degree: number): number => {
            const over = tgAtDegreeC(glass, degree) - temperatureC;
            if (over <= glass.slowsOverC) return 1;
            return 1 / (1 + Math.exp((over - glass.halfOverC) / glass.widthC));
          };
          y = integrate(
            (_t, [degree], out) => {
              out[0] = rate * stiff(degree!) * shapeRate(shape, degree!);
            },
            y,
            0,
            (end - start) / 60,
            { relative: 1e-7, absolute: [1e-10] },
          );
        }
        const state = cureClock(model, spliced, given).stateAt(0, lastOf(spliced));
        expect(Math.abs(state.degree! / y[0]! - 1)).toBeLessThan(1e-4);
        // Where the programme alone reaches a milestone, it does so at that very minute.
        const gel = sealedClock({ ...given, model }).reached(0, 'gel');
        const isUnderProgramme = gel !== null && gel <= programmeMinutes(given.programme);
        seen.saw(isUnderProgramme ? 'gelled under the programme' : 'gelled later');
        if (gel !== null && gel <= programmeMinutes(given.programme) && gel > 0) {
          expect(cureClock(model, given.programme, given).stateAt(0, gel).degree!).toBeGreaterThan(
            0.58 - 1e-6,
          );
        }
      }),
      { seed: 6, seen, numRuns: 60 },
    );
  });
});

describe('a programme of ramps and holds', () => {
  it('is the programme’s own alone: from the room’s day, up, held, and down again', () => {
    const programme = programmeProfile(
      [
        { temperatureC: 40, rampKPerHour: 10, holdHours: 6 },
        { temperatureC: 25, rampKPerHour: 15, holdHours: 0 },
      ],
      20,
      0,
    );
    expect(programmeMinutes(programme)).toBe(120 + 360 + 60);
    expect(temperatureAt(programme, 0)).toBe(20);
    expect(temperatureAt(programme, 60)).toBe(30);
    expect(temperatureAt(programme, 300)).toBe(40);
    expect(temperatureAt(programme, 539)).toBe(25);
    programme.slice(1).forEach((p, i) => expect(p.start).toBe(programme[i]!.end));
  });
  it('reaches a mould late by its lag', () => {
    const steps = [{ temperatureC: 40, rampKPerHour: 20, holdHours: 8 }];
    const [air, mould] = [programmeProfile(steps, 20, 0), programmeProfile(steps, 20, 2)];
    expect(programmeMinutes(mould)).toBe(programmeMinutes(air));
    expect(temperatureAt(mould, 60)!).toBeLessThan(temperatureAt(air, 60)! - 10);
    expect(temperatureAt(mould, 539)!).toBeGreaterThan(39);
  });
});
