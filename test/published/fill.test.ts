import { describe, expect, it } from 'vitest';
import { fitSheet } from '../../app/cure/fit.ts';
import {
  fillOf,
  flowCourse,
  fluidityToReach,
  reachAtViscosity,
  usualViscosity,
  viscosityPaS,
  type FlowPath,
  type Viscosity,
} from '../../app/cure/infusion.ts';
import { practice, shippedHardeners } from '../unit/cure/practice-rows.ts';

/** Time to fill at a viscosity that does not change, s. */
const fillSeconds = (way: FlowPath, paS: number): number => fluidityToReach(way, way.lengthM) * paS;

type Course = Parameters<typeof flowCourse>;
const fillAgainstGel = (...course: Course) => fillOf(flowCourse(...course), course[0]);

const path = (more: Partial<FlowPath> = {}): FlowPath => ({
  form: 'line',
  lengthM: 0.5,
  permeabilityM2: 1e-10,
  porosity: 0.5,
  pressurePa: 90_000,
  ...more,
});

/**
 * t = porosity mu L^2 / (2 K dP): Darcy's law for a fibre bed (as in a University of Minnesota
 * laboratory note), integrated; times computed apart from this code. The radial form with the port's
 * radius r0: t = porosity mu / (2 K dP) [R^2 (ln(R/r0) - 1/2) + r0^2 / 2].
 */
describe('filling under constant pressure', () => {
  it.each([
    [path(), 0.3, 2083.33],
    [path({ porosity: 0.55, lengthM: 1, permeabilityM2: 5e-10, pressurePa: 80_000 }), 0.2, 1375],
    [path({ porosity: 0.7, lengthM: 0.3, permeabilityM2: 1e-9, pressurePa: 100_000 }), 0.25, 78.75],
    [path({ form: 'radial', portM: 0.005 }), 0.3, 8552.5],
  ])('%# takes the time computed', (flow, paS, seconds) => {
    expect(Math.abs(fillSeconds(flow, paS) / seconds - 1)).toBeLessThan(1e-5);
  });

  it('takes four times as long for twice the length, and goes with viscosity over pressure', () => {
    const once = fillSeconds(path(), 0.3);
    expect(fillSeconds(path({ lengthM: 1 }), 0.3)).toBeCloseTo(4 * once, 8);
    expect(fillSeconds(path(), 0.6)).toBeCloseTo(2 * once, 8);
    expect(fillSeconds(path({ pressurePa: 45_000 }), 0.3)).toBeCloseTo(2 * once, 8);
  });
});

/**
 * Printed answers. Line: a public validation case after the channel-flow experiment of Weitzenboeck, Shenoi
 * and Wilson (1999). Radial: Obertscheider and Fauster, validation case 1, quoting Rudd et al., Liquid
 * Moulding Technologies (1997); gate of 20 mm. Both seen in public copies.
 */
describe('worked examples of filling', () => {
  it('a line of a metre takes 2500 s', () => {
    const line = path({ lengthM: 1, permeabilityM2: 1e-10, porosity: 0.5, pressurePa: 1e5 });
    expect(fillSeconds(line, 0.1)).toBeCloseTo(2500, 6);
  });

  it.each([
    [0.114, 50],
    [0.15, 100],
    [0.178, 150],
    [0.2, 200],
  ])('a front round a gate is at %f m after %i s', (radiusM, seconds) => {
    const gate = { form: 'radial', portM: 0.01, permeabilityM2: 3e-10, porosity: 0.7 } as const;
    const time = (lengthM: number) =>
      fillSeconds(path({ ...gate, lengthM, pressurePa: 35_000 }), 0.06);
    // The radius is printed to a millimetre.
    expect(time(radiusM - 0.0006)).toBeLessThan(seconds);
    expect(time(radiusM + 0.0006)).toBeGreaterThan(seconds);
  });
});

/** mu = mu0 (ag / (ag - a))^(A + B a) (Castro & Macosko 1980/82, from memory); values computed apart. */
describe('viscosity on the way to gel', () => {
  const first: Viscosity = {
    freshPaS: 1,
    referenceC: 25,
    flowEnergyJMol: 40_000,
    gelDegree: 0.47,
    a: 3.8,
    b: 2.5,
  };
  it.each([
    [0.1, 2.63499],
    [0.2, 10.8432],
    [0.3, 102.212],
    [0.4, 9323.9],
  ])('at %d is %d Pa s', (degree, paS) => {
    expect(Math.abs(viscosityPaS(first, degree, 25) / paS - 1)).toBeLessThan(1e-4);
  });

  it.each([
    [0.1, 0.66936],
    [0.3, 1.7411],
    [0.5, 18],
  ])('of the second set at %d is %d Pa s', (degree, paS) => {
    const second = { ...first, freshPaS: 0.5, gelDegree: 0.6, a: 1.5, b: 1 };
    expect(Math.abs(viscosityPaS(second, degree, 25) / paS - 1)).toBeLessThan(1e-4);
  });

  it('has no end from gel on, and is thinner when warm', () => {
    expect(viscosityPaS(first, 0.47, 25)).toBe(Infinity);
    expect(viscosityPaS(first, 0.9, 25)).toBe(Infinity);
    expect(viscosityPaS(first, 0, 35)).toBeLessThan(1);
  });
});

describe('a front against gel', () => {
  const viscosity: Viscosity = {
    freshPaS: 0.3,
    referenceC: 20,
    flowEnergyJMol: 40_000,
    gelDegree: 0.58,
    a: 1.5,
    b: 1,
  };
  const kinetics = {
    shape: { seed: 0.02, m: 0.65, n: 2.5 },
    glass: { tg0C: -35, tgFullC: 82, lambda: 0.3, slowsOverC: 10, halfOverC: 20, widthC: 2.5 },
    referenceC: 20,
    activationEnergyJMol: 52_000,
    ratePerHour: 1,
    heatJG: 430,
  };
  const flow = (lengthM: number) => path({ lengthM, permeabilityM2: 2e-9 });

  it('takes hardly longer than the fresh resin over a short way, and longer over a long one', () => {
    const short = fillAgainstGel(flow(0.2), viscosity, kinetics, 20);
    expect(short.fillMinutes! * 60).toBeGreaterThan(fillSeconds(flow(0.2), 0.3));
    expect(short.fillMinutes! * 60).toBeLessThan(1.1 * fillSeconds(flow(0.2), 0.3));
    expect(short.spareMinutes).toBeCloseTo(short.gelMinutes - short.fillMinutes!, 9);
  });

  it('stops short when gel comes first, further on when the clamp opens sooner', () => {
    const late = fillAgainstGel(flow(6), viscosity, kinetics, 20, 60);
    const soon = fillAgainstGel(flow(6), viscosity, kinetics, 20);
    expect(soon.fillMinutes).toBeNull();
    expect(soon.reachedM).toBeGreaterThan(late.reachedM);
    expect(soon.reachedM).toBeLessThan(6);
    // What it reached is what it could have filled.
    expect(
      fillAgainstGel(flow(soon.reachedM * 0.99), viscosity, kinetics, 20).fillMinutes,
    ).not.toBeNull();
    expect(
      fillAgainstGel(flow(soon.reachedM * 1.01), viscosity, kinetics, 20).fillMinutes,
    ).toBeNull();
  });

  it('runs by Darcy as long as the resin stays thin, and only ever gains', () => {
    for (const form of ['line', 'radial'] as const) {
      const way = { ...flow(1), form, portM: 0.005 };
      const { points, gelMinutes, gelReachM } = flowCourse(way, viscosity, kinetics, 20);
      points.slice(1).forEach((point, i) => {
        expect(point.frontM).toBeGreaterThanOrEqual(points[i]!.frontM);
        expect(point.paS).toBeGreaterThan(points[i]!.paS);
      });
      expect(gelReachM).toBe(points.at(-1)!.frontM);
      // Thickening can only hold it back: never sooner than the fresh resin, never later than the thick.
      const half = points[200]!;
      const seconds = half.minutes * 60;
      expect(fillSeconds({ ...way, lengthM: half.frontM }, 0.3)).toBeLessThan(seconds);
      expect(fillSeconds({ ...way, lengthM: half.frontM }, half.paS)).toBeGreaterThan(seconds);
      expect(gelMinutes).toBeGreaterThan(half.minutes);
    }
  });

  it('is looked up by its thickness, and never past gel', () => {
    const course = flowCourse(flow(1), viscosity, kinetics, 20);
    const thick = reachAtViscosity(course, 1)!;
    const thicker = reachAtViscosity(course, 5)!;
    expect(thick.minutes).toBeLessThan(thicker.minutes);
    expect(thick.frontM).toBeLessThan(thicker.frontM);
    expect(thicker.frontM).toBeLessThanOrEqual(course.gelReachM);
    const near = course.points.find(({ minutes }) => minutes >= thick.minutes)!;
    expect(Math.abs(Math.log(near.paS / 1))).toBeLessThan(0.1);
    expect(reachAtViscosity(course, 0.1)).toBeNull();
  });

  it('gels where the film of the fitted sheet does', () => {
    for (const [, hardener, chemistry] of shippedHardeners) {
      const model = fitSheet(hardener, practice, chemistry);
      const usual = usualViscosity(practice, chemistry);
      const { gelMinutes } = flowCourse(flow(1), usual, model.kinetics!, 20);
      expect(Math.abs(gelMinutes / (60 * model.doseHours.gel!) - 1)).toBeLessThan(1e-6);
    }
  });
});
