import { Solver } from 'odex';
import { expect, it } from 'vitest';
import { rateFactor } from '../../app/cure/arrhenius.ts';
import { conduct, type ConductionLayer } from '../../app/cure/conduction.ts';
import { shapeRate } from '../../app/cure/kinetics.ts';

const kinetics = {
  shape: { seed: 0.02, m: 0.65, n: 2.5 },
  glass: { tg0C: -35, tgFullC: 82, lambda: 0.3, slowsOverC: 10, halfOverC: 20, widthC: 2.5 },
  referenceC: 20,
  activationEnergyJMol: 52_000,
  ratePerHour: 1.05,
  heatJG: 430,
};
const skin: ConductionLayer = {
  name: 'skin',
  thicknessMm: 5,
  conductivityWMK: 0.35,
  densityKgM3: 1440,
  heatCapacityJKgK: 1100,
  resin: { kinetics, massShare: 0.44 },
};
const core: ConductionLayer = {
  name: 'core',
  thicknessMm: 15,
  conductivityWMK: 0.035,
  densityKgM3: 80,
  heatCapacityJKgK: 1400,
  resin: null,
};
const LOSS = 8;
const ROOM_C = 22;

/**
 * A skin on a core, cut into the same cells, as plain differential equations: by lines, with the
 * independent integrator (odex, after Hairer & Wanner).
 */
function byLines(hours: number): number[] {
  const cells = [skin, core].flatMap((layer, i) =>
    Array.from({ length: i === 0 ? 3 : 9 }, () => ({
      width: layer.thicknessMm / 1000 / (i === 0 ? 3 : 9),
      layer,
    })),
  );
  const n = cells.length;
  const half = cells.map(({ width, layer }) => width / 2 / layer.conductivityWMK);
  const toAir = 1 / (half[0]! + 1 / LOSS);
  const solver = new Solver(2 * n);
  solver.relativeTolerance = 1e-8;
  solver.absoluteTolerance = 1e-8;
  solver.maxSteps = 200_000;
  const { y } = solver.solve(
    (_hours, state) => {
      const out = new Array<number>(2 * n).fill(0);
      for (let i = 0; i < n; i++) {
        const { width, layer } = cells[i]!;
        const t = state[i]!;
        let heat = i === 0 ? toAir * (ROOM_C - t) : (state[i - 1]! - t) / (half[i - 1]! + half[i]!);
        if (i < n - 1) heat += (state[i + 1]! - t) / (half[i]! + half[i + 1]!);
        const store = width * layer.densityKgM3 * layer.heatCapacityJKgK;
        out[i] = (heat * 3600) / store;
        if (!layer.resin) continue;
        const rate =
          kinetics.ratePerHour *
          rateFactor(kinetics.activationEnergyJMol, t, kinetics.referenceC) *
          shapeRate(kinetics.shape, state[n + i]!);
        out[n + i] = rate;
        out[i]! += (rate * 430_000 * 0.44) / layer.heatCapacityJKgK;
      }
      return out;
    },
    0,
    [...new Array<number>(n).fill(ROOM_C), ...new Array<number>(n).fill(0)],
    hours,
  );
  return y.slice(0, n);
}

it.each([0.5, 1.2, 1.8])('the stack after %d h stands where an independent one does', (hours) => {
  const { endC, placeMm } = conduct({
    form: 'slab',
    layers: [skin, core],
    first: { kind: 'air', temperatureC: () => ROOM_C, lossWM2K: LOSS },
    last: { kind: 'insulated' },
    startC: ROOM_C,
    hours,
    cells: 12,
    longestStepH: 0.00003,
    stepK: 0.05,
  });
  const other = byLines(hours);
  expect(placeMm).toHaveLength(other.length);
  // Backward Euler is first order in its step: the step here is a tenth of a second.
  endC.forEach((temperatureC, i) => {
    expect(Math.abs(temperatureC - other[i]!) / other[i]!).toBeLessThan(1e-4);
  });
});

it('an insulated stack keeps the energy of its reaction', () => {
  const whole = conduct({
    form: 'slab',
    layers: [skin],
    first: { kind: 'insulated' },
    last: { kind: 'insulated' },
    startC: 20,
    hours: 50,
    cells: 10,
    longestStepH: 1,
    stepK: 3,
  });
  const { least, greatest } = whole.layers[0]!.degree!;
  expect(greatest - least).toBeLessThan(1e-9);
  for (const temperatureC of whole.endC) {
    expect(temperatureC - 20).toBeCloseTo(((430_000 * 0.44) / 1100) * least, 3);
  }
});
