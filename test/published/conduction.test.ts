import { describe, expect, it } from 'vitest';
import { GAS_CONSTANT, ZERO_C_IN_K } from '../../app/cure/arrhenius.ts';
import {
  conduct,
  type ConductionCase,
  type ConductionLayer,
  type Face,
} from '../../app/cure/conduction.ts';

const HALF_MM = 20;
const DIFFUSIVITY = 0.2 / (1100 * 1800);
const inert: ConductionLayer = {
  name: 'wall',
  thicknessMm: HALF_MM,
  conductivityWMK: 0.2,
  densityKgM3: 1100,
  heatCapacityJKgK: 1800,
  resin: null,
};
const insulated: Face = { kind: 'insulated' };
const held = (temperatureC: number): Face => ({ kind: 'held', temperatureC: () => temperatureC });
const air = (temperatureC: number, biot: number): Face => ({
  kind: 'air',
  temperatureC: () => temperatureC,
  lossWM2K: (biot * 0.2) / (HALF_MM / 1000),
});
const hoursFor = (fourier: number) => (fourier * (HALF_MM / 1000) ** 2) / DIFFUSIVITY / 3600;

/** Half a wall (or a rod, or a ball) from its middle out, at 1 C before and 0 C around. */
const cooling = (
  form: ConductionCase['form'],
  last: Face,
  fourier: number,
  more: Partial<ConductionCase> = {},
) =>
  conduct({
    form,
    layers: [inert],
    first: insulated,
    last,
    startC: 1,
    hours: hoursFor(fourier),
    cells: 100,
    longestStepH: hoursFor(0.0004),
    stepK: 1,
    ...more,
  });

/** Value between cell middles; the profile is even about the middle of the body. */
const at = ({ endC, placeMm }: ReturnType<typeof conduct>, mm: number): number => {
  const i = placeMm.findIndex((place) => place >= mm);
  if (i <= 0) return endC[0]! + ((endC[0]! - endC[1]!) * placeMm[0]!) / (2 * placeMm[1]!);
  const share = (mm - placeMm[i - 1]!) / (placeMm[i]! - placeMm[i - 1]!);
  return endC[i - 1]! + share * (endC[i]! - endC[i - 1]!);
};
const near = (found: number, wanted: number, share: number) =>
  expect(Math.abs(found / wanted - 1), `${found} for ${wanted}`).toBeLessThan(share);

/**
 * Plane wall with its faces held: theta = 4/pi sum (-1)^n/(2n+1) exp(-(2n+1)^2 pi^2 Fo/4)
 * cos((2n+1) pi x/2L) (Carslaw & Jaeger, sections 3.3 and 3.4, from memory; values computed apart
 * from this code). Middle and half way out.
 */
describe('a wall with held faces', () => {
  it.each([
    [0.05, 0.996869, 0.886152],
    [0.1, 0.949305, 0.735651],
    [0.2, 0.772312, 0.553176],
    [0.5, 0.370777, 0.262188],
    [1, 0.107977, 0.0763513],
  ])('at Fo %d stands at %d and %d', (fourier, middle, halfWay) => {
    const result = cooling('slab', held(0), fourier);
    near(at(result, 0), middle, 0.005);
    near(at(result, HALF_MM / 2), halfWay, 0.005);
  });
});

/** Full series for a wall losing heat to air, middle and surface; computed apart from this code. */
describe('a wall in air', () => {
  it.each([
    [1, 0.2, 0.95064, 0.64339],
    [1, 1, 0.53386, 0.34818],
    [10, 0.5, 0.45464, 0.06433],
    [0.1, 1, 0.92239, 0.87813],
  ])('of Bi %d at Fo %d stands at %d and %d', (biot, fourier, middle, surface) => {
    const result = cooling('slab', air(0, biot), fourier);
    near(at(result, 0), middle, 0.005);
    const last = result.endC.at(-1)!;
    // From the last cell's middle to the face the flux is that into the air.
    const face = last / (1 + (biot * (HALF_MM - result.placeMm.at(-1)!)) / HALF_MM);
    near(face, surface, 0.005);
  });
});

/**
 * One-term coefficients C1 and zeta1 of wall, cylinder and sphere (Incropera & DeWitt, table 5.1;
 * rows Bi 0.1, 1 and 10 as printed): theta at the middle = C1 exp(-zeta1^2 Fo), Fo over 0.2.
 */
describe('the one-term tables', () => {
  it.each([
    ['slab', 0.1, 0.3111, 1.0161],
    ['slab', 1, 0.8603, 1.1191],
    ['slab', 10, 1.4289, 1.262],
    ['cylinder', 0.1, 0.4417, 1.0246],
    ['cylinder', 1, 1.2558, 1.2071],
    ['cylinder', 10, 2.1795, 1.5677],
    ['sphere', 0.1, 0.5423, 1.0298],
    ['sphere', 1, 1.5708, 1.2732],
    ['sphere', 10, 2.8363, 1.9249],
  ] as const)('%s of Bi %d', (form, biot, zeta, c1) => {
    const fourier = 0.4;
    const result = cooling(form, air(0, biot), fourier, { longestStepH: hoursFor(0.0001) });
    near(at(result, 0), c1 * Math.exp(-(zeta ** 2) * fourier), 0.005);
  });
});

describe('implicit in time', () => {
  it('stays within its bounds at any step', () => {
    const result = cooling('slab', held(0), 5, { longestStepH: hoursFor(5), stepK: 100 });
    expect(result.steps).toBeLessThan(20);
    for (const temperatureC of result.endC) {
      expect(temperatureC).toBeGreaterThanOrEqual(0);
      expect(temperatureC).toBeLessThanOrEqual(1);
    }
  });

  it('passes heat through layers in series as their resistances say', () => {
    const result = conduct({
      form: 'slab',
      layers: [
        { ...inert, name: 'skin', thicknessMm: 2, conductivityWMK: 0.4 },
        { ...inert, name: 'core', thicknessMm: 20, conductivityWMK: 0.04 },
      ],
      first: held(60),
      last: held(20),
      startC: 20,
      hours: 400,
      cells: 60,
      longestStepH: 5,
      stepK: 5,
    });
    // 2/0.4 = 5 and 20/0.04 = 500: the interface stands 1/101 of the way down.
    near(at(result, 2) - 20, 40 * (500 / 505), 0.005);
  });
});

const GLASS = { tg0C: -35, tgFullC: 82, lambda: 0.3, slowsOverC: 10, halfOverC: 20, widthC: 2.5 };

/** A wall heated evenly by a reaction that does not use itself up; `slow` is its rate at 25 C, 1/s. */
const heated = (energyJMol: number, slow: number, thicknessMm: number): ConductionLayer => ({
  ...inert,
  thicknessMm,
  resin: {
    massShare: 1,
    kinetics: {
      shape: { seed: 1, m: 1, n: 1 },
      glass: GLASS,
      referenceC: 25,
      activationEnergyJMol: energyJMol,
      ratePerHour: slow * 3600 * 1e-9,
      heatJG: 400e9,
    },
  },
});

it('stands in the steady state q L^2 / 2k above its faces, evenly heated', () => {
  const result = conduct({
    form: 'slab',
    layers: [heated(0, 1e-5, HALF_MM)],
    first: insulated,
    last: held(25),
    startC: 25,
    hours: 60,
    cells: 100,
    longestStepH: 1,
    stepK: 2,
  });
  const q = 1100 * 400_000 * 1e-5;
  near(at(result, 0) - 25, (q * (HALF_MM / 1000) ** 2) / (2 * 0.2), 0.005);
});

/**
 * Critical parameter delta = rho Q E k(T0) r^2 / (R T0^2 lambda) with held faces: 0.88 slab, 2.00
 * cylinder, 3.32 sphere (Frank-Kamenetskii 1938, as printed in later abstracts; more digits computed
 * from the Bratu problem). Exact for R T0 / E -> 0, so the energy is taken high.
 */
describe('the critical runaway parameter', () => {
  const energy = 1_500_000;
  const kelvin = 25 + ZERO_C_IN_K;
  const excess = (GAS_CONSTANT * kelvin ** 2) / energy;
  const runsAway = (form: ConductionCase['form'], delta: number): boolean => {
    const slow =
      (delta * GAS_CONSTANT * kelvin ** 2 * 0.2) /
      (1100 * 400_000 * energy * (HALF_MM / 1000) ** 2);
    const result = conduct({
      form,
      layers: [heated(energy, slow, HALF_MM)],
      first: insulated,
      last: held(25),
      startC: 25,
      hours: hoursFor(60),
      cells: 60,
      longestStepH: hoursFor(0.5),
      stepK: excess / 5,
      stopAtC: 25 + 4 * excess,
    });
    return result.peakC > 25 + 3 * excess;
  };

  it.each([
    ['slab', 0.87846],
    ['cylinder', 2],
    ['sphere', 3.32199],
  ] as const)('of a %s is %d within two per cent', (form, critical) => {
    expect(runsAway(form, critical * 0.98)).toBe(false);
    expect(runsAway(form, critical * 1.02)).toBe(true);
  });

  it('and the middle of a slab just below it never stands 1.187 R T0^2 / E above its faces', () => {
    const slow =
      (0.98 * 0.87846 * GAS_CONSTANT * kelvin ** 2 * 0.2) /
      (1100 * 400_000 * energy * (HALF_MM / 1000) ** 2);
    const result = conduct({
      form: 'slab',
      layers: [heated(energy, slow, HALF_MM)],
      first: insulated,
      last: held(25),
      startC: 25,
      hours: hoursFor(60),
      cells: 60,
      longestStepH: hoursFor(0.5),
      stepK: excess / 5,
    });
    expect((result.peakC - 25) / excess).toBeLessThan(1.18684 * 1.02);
    expect((result.peakC - 25) / excess).toBeGreaterThan(0.7);
  });
});
