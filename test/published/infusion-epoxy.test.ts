/**
 * A slow infusion epoxy of blade grade, amine cured. Kinetic constants and DiBenedetto triple as public
 * research code prints them, citing table 5 and equations 5 to 7 of Thermochim. Acta,
 * doi 10.1016/j.tca.2015.11.014: seen at second hand, the paper itself not seen. Its diffusion term is
 * left out, since it would throttle the fresh liquid at room temperature. Times and rates were computed
 * apart from this code by quadrature, some confirmed by an ODE solver. 20 to 40 C may lie outside the
 * paper's own range.
 */
import { Solver } from 'odex';
import { describe, expect, it } from 'vitest';
import { GAS_CONSTANT, rateFactor, ZERO_C_IN_K } from '../../app/cure/arrhenius.ts';
import { fitSheet } from '../../app/cure/fit.ts';
import { filmMinutes } from '../../app/cure/curves.ts';
import { cureCurveTable, degreeAtTg, shapeRate, tgAtDegreeC } from '../../app/cure/kinetics.ts';
import { hardenerWith, practice } from '../unit/cure/practice-rows.ts';

const M = 0.39845;
const N = 1.5361;
const k = (A: number, E: number, temperatureC: number): number =>
  A * Math.exp(-E / (GAS_CONSTANT * (temperatureC + ZERO_C_IN_K)));
const k1 = (temperatureC: number): number => k(35_982, 54_960, temperatureC);
const k2 = (temperatureC: number): number => k(3574.1, 44_289, temperatureC);
/** At one temperature the two paths are one curve with a seed. */
const shapeAt = (temperatureC: number) => ({
  seed: k1(temperatureC) / k2(temperatureC),
  m: M,
  n: N,
});
const GLASS = {
  tg0C: -57,
  tgFullC: 91,
  lambda: 0.36903,
  slowsOverC: 10,
  halfOverC: 20,
  widthC: 2.5,
};

describe('the kinetic set, chemistry alone', () => {
  it.each([
    [0, 20, 5.79807e-6],
    [0.1, 20, 2.05269e-5],
    [0.1, 25, 2.83492e-5],
    [0.3, 25, 2.71661e-5],
    [0.5, 40, 4.6755e-5],
    [0.7, 60, 6.91752e-5],
  ])('at %d and %d C reacts at %d 1/s', (degree, temperatureC, rate) => {
    const own = k2(temperatureC) * shapeRate(shapeAt(temperatureC), degree);
    expect(Math.abs(own / rate - 1)).toBeLessThan(1e-5);
  });

  it.each([
    [20, [1.666, 4.324, 9.309, 13.053]],
    [25, [1.197, 3.128, 6.762, 9.496]],
    [30, [0.869, 2.285, 4.96, 6.976]],
    [40, [0.47, 1.253, 2.744, 3.869]],
  ])('at %d C takes %j h to 0.1, 0.3, 0.5774 and 0.7', (temperatureC, hours) => {
    const table = cureCurveTable(shapeAt(temperatureC), GLASS);
    [0.1, 0.3, 0.5774, 0.7].forEach((degree, i) => {
      const own = table.doseFor(degree) / k2(temperatureC) / 3600;
      expect(Math.abs(own - hours[i]!)).toBeLessThan(0.0006 + 1e-4 * hours[i]!);
    });
  });

  it.each([
    [20, [0.053, 0.125, 0.2766, 0.5193]],
    [25, [0.0802, 0.1843, 0.3809, 0.6399]],
    [40, [0.2374, 0.4587, 0.7109]],
  ])(
    'at %d C has come to %j after 1, 2, 4 and 8 h, by odex as by the table',
    (temperatureC, degrees) => {
      const table = cureCurveTable(shapeAt(temperatureC), GLASS);
      degrees.forEach((degree, i) => {
        const seconds = 3600 * 2 ** i;
        const solver = new Solver(1);
        solver.relativeTolerance = 1e-9;
        solver.absoluteTolerance = 1e-12;
        const rate = (_t: number, [a]: number[]): number[] => [
          k2(temperatureC) * shapeRate(shapeAt(temperatureC), Math.max(0, a!)),
        ];
        expect(solver.solve(rate, 0, [0], seconds).y[0]!).toBeCloseTo(degree, 3);
        expect(table.degreeAt(k2(temperatureC) * seconds)).toBeCloseTo(degree, 3);
      });
    },
  );

  it('is foretold by one activation energy fitted to two of its gels, within 4 %', () => {
    const model = fitSheet(
      hardenerWith(
        [
          { what: 'film-gel', temperatureC: 20, minutes: 9.309 * 60 },
          { what: 'film-gel', temperatureC: 30, minutes: 4.96 * 60 },
        ],
        { tgFullC: 91 },
      ),
      practice,
    );
    expect(Math.abs(filmMinutes(model, 'gel', 25)! / (6.762 * 60) - 1)).toBeLessThan(0.04);
    expect(Math.abs(filmMinutes(model, 'gel', 40)! / (2.744 * 60) - 1)).toBeLessThan(0.04);
    // Of the time to gel from 20 to 30 C, computed from the same table.
    expect(Math.abs(model.activationEnergyJMol / 46_500 - 1)).toBeLessThan(0.06);
    expect(rateFactor(model.activationEnergyJMol, 30, 20)).toBeGreaterThan(1.8);
  });
});

describe('its Tg over the degree of cure', () => {
  it.each([
    [0.5, -17.11],
    [0.7, 11.48],
    [0.8, 31.23],
    [0.9, 56.75],
    [0.95, 72.53],
    [1, 91],
  ])('at %d is %d C', (degree, tgC) => {
    expect(Math.abs(tgAtDegreeC(GLASS, degree) - tgC)).toBeLessThan(0.01);
  });

  it.each([
    [10, 0.6915],
    [20, 0.7461],
    [25, 0.771],
    [30, 0.7944],
    [40, 0.8375],
    [60, 0.9109],
  ])('comes to a room of %d C at %d', (temperatureC, degree) => {
    expect(Math.abs(degreeAtTg(GLASS, temperatureC) - degree)).toBeLessThan(1e-4);
  });

  it.each([
    [10, 24.8],
    [20, 15.1],
    [25, 11.9],
    [30, 9.53],
    [40, 6.32],
    [60, 3.26],
  ])('and by the chemistry alone is there, at %d C, after %d h', (temperatureC, hours) => {
    const table = cureCurveTable(shapeAt(temperatureC), GLASS);
    const own = table.doseFor(degreeAtTg(GLASS, temperatureC)) / k2(temperatureC) / 3600;
    expect(Math.abs(own / hours - 1)).toBeLessThan(0.005);
  });
});
