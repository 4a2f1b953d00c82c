import { Solver } from 'odex';
import { describe, expect, it } from 'vitest';
import { GAS_CONSTANT, rateFactor, ZERO_C_IN_K } from '../../app/cure/arrhenius.ts';
import { cureClock } from '../../app/cure/clock.ts';
import { integrate } from '../../app/cure/integrate.ts';
import { cureCurveTable, shapeRate, tgAtDegreeC, type Glass } from '../../app/cure/kinetics.ts';
import type { CureModel, TemperatureProfile } from '../../app/cure/types.ts';

const GLASS: Glass = {
  tg0C: -35,
  tgFullC: 82,
  lambda: 0.3,
  slowsOverC: 10,
  halfOverC: 20,
  widthC: 2.5,
};
const SECONDS_PER_MINUTE = 60;

/** One temperature ramp or hold: to `toC` in `minutes`. */
interface CycleStep {
  readonly toC: number;
  readonly minutes: number;
}

/** Degree of cure at the end of every step of a cycle, by the app's integrator. */
function throughCycle(
  ratePerMinute: (degree: number, kelvin: number) => number,
  start: { degree: number; temperatureC: number },
  cycle: readonly CycleStep[],
): number[] {
  let { degree, temperatureC } = start;
  return cycle.map(({ toC, minutes }) => {
    const from = temperatureC;
    const rise = (toC - from) / minutes;
    [degree] = integrate(
      (t, y, out) => {
        out[0] = ratePerMinute(y[0]!, from + rise * t + ZERO_C_IN_K);
      },
      [degree],
      0,
      minutes,
      { relative: 1e-9, absolute: [1e-10] },
    ) as [number];
    temperatureC = toC;
    return degree;
  });
}

/**
 * 3501-6 epoxy: Lee, Loos & Springer, J. Compos. Mater. 16 (1982) 510; Loos & Springer, J. Compos.
 * Mater. 17 (1983) 135. Parameters seen in later copies, not in the papers; the degrees of cure
 * computed apart from this code (quadrature; Runge-Kutta of 0.005 min). R = 8.314462618.
 */
describe('the 3501-6 model', () => {
  const B = 0.47;
  const k = (A: number, E: number, kelvin: number) => A * Math.exp(-E / (GAS_CONSTANT * kelvin));
  const rate = (a: number, kelvin: number): number =>
    a <= 0.3
      ? (k(2.101e9, 8.07e4, kelvin) + k(-2.014e9, 7.78e4, kelvin) * a) * (1 - a) * (B - a)
      : k(1.96e5, 5.66e4, kelvin) * (1 - a);

  it.each([
    [177, 60, 0.96702],
    [177, 120, 0.99863],
    [150, 60, 0.74543],
    [150, 120, 0.92428],
    [116, 120, 0.42619],
  ])('cures at %d C in %d min to %d', (temperatureC, minutes, degree) => {
    const [end] = throughCycle(rate, { degree: 0, temperatureC }, [{ toC: temperatureC, minutes }]);
    expect(end).toBeCloseTo(degree, 4);
  });

  it('ends each step of its cycle (2.5 C/min, 116 C for 60 min, 177 C for 120 min) as computed', () => {
    const ends = throughCycle(rate, { degree: 0, temperatureC: 20 }, [
      { toC: 116, minutes: 96 / 2.5 },
      { toC: 116, minutes: 60 },
      { toC: 177, minutes: 61 / 2.5 },
      { toC: 177, minutes: 120 },
    ]);
    [0.0686, 0.2826, 0.5611, 0.9992].forEach((degree, i) => {
      expect(ends[i]).toBeCloseTo(degree, 3);
    });
  });
});

/**
 * 8552 epoxy with diffusion factor: Hubert, Johnston, Poursartip & Nelson, 46th SAMPE (2001), from
 * memory and seen second-hand only; degrees computed apart from this code.
 */
describe('the 8552 model', () => {
  const ratePerMinute = (a: number, kelvin: number): number =>
    (SECONDS_PER_MINUTE *
      7e4 *
      Math.exp(-65_000 / (GAS_CONSTANT * kelvin)) *
      (a ** 0.5 * (1 - a) ** 1.5)) /
    (1 + Math.exp(30 * (a - (-1.5148 + 5.171e-3 * kelvin))));

  it.each([
    [180, 60, 0.001, 0.87818],
    [180, 120, 0.001, 0.90895],
    [180, 120, 0.01, 0.90924],
    [120, 120, 0.001, 0.27407],
    [120, 120, 0.01, 0.31823],
  ])('cures at %d C in %d min from %d to %d', (temperatureC, minutes, degree, end) => {
    const [reached] = throughCycle(ratePerMinute, { degree, temperatureC }, [
      { toC: temperatureC, minutes },
    ]);
    expect(reached).toBeCloseTo(end, 4);
  });

  it('ends each step of its cycle (2 C/min, 110 C for 60 min, 180 C for 120 min) as computed', () => {
    const ends = throughCycle(ratePerMinute, { degree: 0.01, temperatureC: 25 }, [
      { toC: 110, minutes: 42.5 },
      { toC: 110, minutes: 60 },
      { toC: 180, minutes: 35 },
      { toC: 180, minutes: 120 },
    ]);
    [0.0154, 0.0819, 0.5352, 0.913].forEach((degree, i) => {
      expect(ends[i]).toBeCloseTo(degree, 3);
    });
  });
});

/**
 * Unsaturated polyester: Bogetti & Gillespie, J. Compos. Mater. 25 (1991) 239; parameters seen in
 * later copies, not in the paper; degrees computed apart from this code. A plain autocatalytic law,
 * so the tabulated curve itself is asked.
 */
describe('the glass and polyester model', () => {
  const shape = { seed: 0, m: 0.524, n: 1.476 };
  const table = cureCurveTable({ ...shape, seed: 1e-12 }, GLASS);
  const perSecond = (temperatureC: number) =>
    6.1667e20 * Math.exp(-1.674e5 / (GAS_CONSTANT * (temperatureC + ZERO_C_IN_K)));

  it.each([
    [0.1, 80, 2.7463e-5],
    [0.3, 100, 7.1571e-4],
    [0.5, 100, 5.6925e-4],
  ])('has at %d and %d C a rate of %d /s', (degree, temperatureC, rate) => {
    const found = perSecond(temperatureC) * shapeRate(shape, degree);
    expect(Math.abs(found / rate - 1)).toBeLessThan(1e-3);
  });

  it.each([
    [100, 15, 0.50668],
    [120, 2, 0.82048],
  ])('cures at %d C in %d min from 0.001 to %d', (temperatureC, minutes, degree) => {
    const x = table.doseFor(0.001) + perSecond(temperatureC) * minutes * 60;
    expect(table.degreeAt(x)).toBeCloseTo(degree, 3);
  });

  it('is fastest at m / (m + n)', () => {
    const peak = shapeRate(shape, 0.262);
    expect(shapeRate(shape, 0.25)).toBeLessThan(peak);
    expect(shapeRate(shape, 0.274)).toBeLessThan(peak);
  });
});

/** Closed forms; no literature needed. */
describe('curves that can be solved by hand', () => {
  it.each([
    [600, 0.078325],
    [1800, 0.36205],
    [3600, 0.82388],
  ])('m = n = 1 with k1 = 1e-4 and k2 = 1e-3 /s comes in %d s to %d', (seconds, degree) => {
    const table = cureCurveTable({ seed: 0.1, m: 1, n: 1 }, GLASS);
    expect(table.degreeAt(1e-3 * seconds)).toBeCloseTo(degree, 5);
  });

  it.each([0.1, 1, 3, 8])('order 1 and order 2 after kt = %d', (kt) => {
    const first = cureCurveTable({ seed: 0, m: 0, n: 1 }, GLASS);
    const second = cureCurveTable({ seed: 0, m: 0, n: 2 }, GLASS);
    expect(first.degreeAt(kt)).toBeCloseTo(1 - Math.exp(-kt), 6);
    expect(second.degreeAt(kt)).toBeCloseTo(kt / (1 + kt), 6);
  });
});

/** The same equations by an independent integrator (odex, after Hairer & Wanner). */
describe('the curve against an independent integrator', () => {
  const kinetics = {
    shape: { seed: 0.02, m: 0.65, n: 2.5 },
    glass: GLASS,
    referenceC: 20,
    activationEnergyJMol: 52_000,
    ratePerHour: 1.05,
    heatJG: 430,
  };
  const model: Pick<CureModel, 'referenceC' | 'activationEnergyJMol' | 'doseHours' | 'kinetics'> = {
    referenceC: 20,
    activationEnergyJMol: 52_000,
    doseHours: {
      open: null,
      gel: null,
      tackFree: null,
      debag: null,
      demould: null,
      sand: null,
      bondUntil: null,
      full: null,
    },
    kinetics,
  };

  /** Degree at the end of a profile: stage by stage, before and after the switch to stalling. */
  function independently(profile: TemperatureProfile): number {
    let degree = 0;
    for (const { start, end, temperatureC } of profile) {
      const solver = new Solver(1);
      solver.relativeTolerance = 1e-9;
      solver.absoluteTolerance = 1e-12;
      const speed = kinetics.ratePerHour * rateFactor(52_000, temperatureC, 20);
      degree = solver.solve(
        (_hours, [a]) => {
          const over = tgAtDegreeC(GLASS, a!) - temperatureC;
          const slowed =
            over < GLASS.slowsOverC ? 1 : 1 + Math.exp((over - GLASS.halfOverC) / GLASS.widthC);
          return [(speed * shapeRate(kinetics.shape, a!)) / slowed];
        },
        0,
        [degree],
        (end - start) / 60,
      ).y[0]!;
    }
    return degree;
  }

  it.each([
    ['soft throughout', [{ start: 0, end: 300, temperatureC: 20 }]],
    ['a day at 20 C', [{ start: 0, end: 1440, temperatureC: 20 }]],
    ['a week at 20 C', [{ start: 0, end: 10_080, temperatureC: 20 }]],
    [
      'days and nights, then heat',
      [
        { start: 0, end: 600, temperatureC: 21 },
        { start: 600, end: 1320, temperatureC: 16 },
        { start: 1320, end: 2040, temperatureC: 21 },
        { start: 2040, end: 2500, temperatureC: 55 },
        { start: 2500, end: 4000, temperatureC: 18 },
      ],
    ],
  ])('%s', (_name, profile) => {
    const end = profile.at(-1)!.end;
    const { degree } = cureClock(model, profile).stateAt(0, end);
    const other = independently(profile);
    expect(Math.abs(degree! / other - 1)).toBeLessThan(1e-4);
  });
});
