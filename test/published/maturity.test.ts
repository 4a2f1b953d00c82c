/**
 * Dose over a temperature history against the equivalent age of the maturity method,
 * te = sum exp[-Q (1/Ta - 1/Ts)] dt, Q = Ea/R (ASTM C1074; the formula and Q = 5000 K as remembered).
 * Factors and history computed apart from this code (Python, R = 8.314462618 J/mol K, 0 C = 273.15 K).
 */
import { describe, expect, it } from 'vitest';
import { energyForFactorPer10C, GAS_CONSTANT, rateFactor } from '../../app/cure/arrhenius.ts';
import { cureClock } from '../../app/cure/clock.ts';
import type { CureModel } from '../../app/cure/types.ts';

const Q_5000_K = 5000 * GAS_CONSTANT;

const model: Pick<CureModel, 'referenceC' | 'activationEnergyJMol' | 'doseHours'> = {
  referenceC: 20,
  activationEnergyJMol: Q_5000_K,
  doseHours: {
    open: 12 * 0.54751,
    gel: 60.6969,
    tackFree: null,
    debag: null,
    demould: null,
    sand: null,
    bondUntil: null,
    full: null,
  },
};

describe('equivalent age', () => {
  it.each([
    [0, 0.28684],
    [5, 0.3986],
    [10, 0.54751],
    [15, 0.74382],
    [25, 1.33114],
    [30, 1.75528],
    [40, 2.97227],
  ])('counts an hour at %d C as %d h at 20 C', (temperatureC, factor) => {
    expect(rateFactor(Q_5000_K, temperatureC, 20)).toBeCloseTo(factor, 5);
  });

  it('adds 12 h at 10 C, 12 h at 20 C and 24 h at 30 C to 60.697 h', () => {
    const clock = cureClock(model, [
      { start: 0, end: 720, temperatureC: 10 },
      { start: 720, end: 1440, temperatureC: 20 },
      { start: 1440, end: 2880, temperatureC: 30 },
    ]);
    expect(clock.doseHours(0, 2880)).toBeCloseTo(60.697, 3);
    expect(clock.reached(0, 'gel')).toBe(2880);
    expect(clock.reached(0, 'open')).toBe(720);
    expect(clock.range(0, 2880)).toEqual({ minC: 10, maxC: 30 });
  });
});

/**
 * Ea = R ln2 T (T + 10) / 10. 52.95 kJ/mol for 25 to 35 C is printed at socratic.org ('for every 10
 * degree increase'); the others are computed by the same formula apart from this code.
 */
describe('the rate doubles for 10 C', () => {
  it.each([
    [15, 49.512],
    [20, 51.216],
    [25, 52.949],
  ])('above %d C at %d kJ/mol', (temperatureC, kJMol) => {
    expect(energyForFactorPer10C(2, temperatureC) / 1000).toBeCloseTo(kJMol, 2);
  });

  it.each([
    [40, 1.7183],
    [50, 1.9674],
    [60, 2.2525],
    [70, 2.5789],
  ])('and for %d kJ/mol grows %d times from 20 to 30 C', (kJMol, ratio) => {
    expect(rateFactor(kJMol * 1000, 30, 20)).toBeCloseTo(ratio, 4);
  });
});
