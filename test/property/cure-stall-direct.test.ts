/** The tabulated stall against the rate equation integrated by another solver (odex, an extrapolation method). */
import fc from 'fast-check';
import { Solver } from 'odex';
import { describe, expect, it } from 'vitest';
import { MILESTONES, type Milestone } from '../../app/document/schema.ts';
import { cureClock } from '../../app/cure/clock.ts';
import {
  cureCurveTable,
  degreeAtTg,
  shapeRate,
  tgAtDegreeC,
  type Glass,
  type RateShape,
} from '../../app/cure/kinetics.ts';
import { nominalOf } from '../../app/cure/nominal.ts';
import { hardenerWith, practice } from '../unit/cure/practice-rows.ts';
import { forAll } from '../support/draws.ts';

const glass: fc.Arbitrary<Glass> = fc.record({
  tg0C: fc.double({ min: -60, max: -10, noNaN: true }),
  tgFullC: fc.double({ min: 60, max: 200, noNaN: true }),
  lambda: fc.double({ min: 0.2, max: 1, noNaN: true }),
  slowsOverC: fc.double({ min: 0, max: 20, noNaN: true }),
  halfOverC: fc.double({ min: 5, max: 40, noNaN: true }),
  widthC: fc.double({ min: 0.5, max: 8, noNaN: true }),
});
const shape = fc.record({
  seed: fc.double({ min: 0.002, max: 0.3, noNaN: true }),
  m: fc.double({ min: 0.2, max: 1.5, noNaN: true }),
  n: fc.double({ min: 1, max: 3, noNaN: true }),
});

/** Dimensionless time from one degree of cure to another at a temperature, slowing included. */
function directly(of: Curve, temperatureC: number, from: number, to: number): number {
  const { slowsOverC, halfOverC, widthC } = of.glass;
  const slopeAt = (slows: boolean) => (degree: number) => {
    const over = tgAtDegreeC(of.glass, degree) - temperatureC;
    const slower = slows ? Math.exp((over - halfOverC) / widthC) : 0;
    return [(1 + slower) / shapeRate(of.shape, degree)];
  };
  // The slowing sets in at one degree of cure: each side of it is smooth.
  const soft = degreeAtTg(of.glass, temperatureC + slowsOverC);
  const middle = Math.min(to, Math.max(from, soft));
  const over = (a: number, b: number, slows: boolean): number => {
    if (b <= a) return 0;
    const solver = new Solver(1);
    solver.relativeTolerance = 1e-10;
    solver.absoluteTolerance = 1e-10;
    return solver.solve(slopeAt(slows), a, [0], b).y[0]!;
  };
  return over(from, middle, false) + over(middle, to, true);
}

interface Curve {
  readonly glass: Glass;
  readonly shape: RateShape;
}

describe('stall times against direct integration', () => {
  it('are within 1 % for any hardener of 60 to 200 C Tg and any practice value', () => {
    let stalled = 0;
    forAll(
      fc.property(
        fc.record({ glass, shape }),
        fc.double({ min: 5, max: 80, noNaN: true }),
        fc.double({ min: 0.2, max: 0.99, noNaN: true }),
        (curve, temperatureC, to) => {
          const table = cureCurveTable(curve.shape, curve.glass);
          const way = table.at(temperatureC);
          const spent = (degree: number): number => way.spent(table.doseFor(degree));
          const direct = directly(curve, temperatureC, 0.01, to);
          if (to > degreeAtTg(curve.glass, temperatureC + curve.glass.slowsOverC)) stalled++;
          expect(Math.abs((spent(to) - spent(0.01)) / direct - 1)).toBeLessThan(0.01);
        },
      ),
      { seed: 1, numRuns: 400 },
    );
    expect(stalled).toBeGreaterThan(100);
  });

  it('rise everywhere, and their inverse leads back', () => {
    forAll(
      fc.property(
        fc.record({ glass, shape }),
        fc.double({ min: -10, max: 120, noNaN: true }),
        (curve, temperatureC) => {
          const table = cureCurveTable(curve.shape, curve.glass);
          const way = table.at(temperatureC);
          const last = table.nodeAtDose(Infinity);
          let before = -1;
          for (let y = 0; y <= last; y += last / 2000) {
            const spent = way.spentAtNode(y);
            expect(spent).toBeGreaterThanOrEqual(before);
            before = spent;
          }
          for (let degree = 0.05; degree < 0.97; degree += 0.07) {
            const spent = way.spent(table.doseFor(degree));
            expect(table.degreeAt(way.reachedBy(spent))).toBeCloseTo(degree, 6);
          }
        },
      ),
      { seed: 2, numRuns: 100 },
    );
  });

  it.each([60, 80, 100, 120, 140, 160, 180, 200])(
    'of a hardener of %d C stands in the clock as well',
    (tgFullC) => {
      const { shape: own, glass: usual } = nominalOf(
        hardenerWith([], { tgFullC }),
        'epoxy',
        practice,
      );
      const curve = { shape: own, glass: usual };
      const table = cureCurveTable(own, usual);
      for (const temperatureC of [15, 20, 28, 45]) {
        const stiff = degreeAtTg(usual, temperatureC + usual.slowsOverC);
        for (const over of [0.01, 0.04, 0.08]) {
          const degree = Math.min(0.98, stiff + over);
          const hours = directly(curve, temperatureC, 1e-9, degree);
          if (hours > 20_000) continue;
          const clock = cureClock(
            {
              referenceC: temperatureC,
              activationEnergyJMol: 50_000,
              doseHours: { ...NONE, full: table.doseFor(degree) },
              kinetics: {
                ...curve,
                referenceC: temperatureC,
                activationEnergyJMol: 50_000,
                ratePerHour: 1,
                heatJG: 400,
              },
            },
            [{ start: 0, end: 60 * 30_000, temperatureC }],
          );
          expect(Math.abs(clock.reached(0, 'full')! / 60 / hours - 1)).toBeLessThan(0.01);
        }
      }
    },
  );
});

const NONE = Object.fromEntries(MILESTONES.map((milestone) => [milestone, null])) as Record<
  Milestone,
  null
>;
