/**
 * Deflection of a rectangular plate under a spread, patch or point load.
 * Simply supported: double sine series with transverse shear (S. Timoshenko and S. Woinowsky-Krieger,
 * Theory of Plates and Shells, 2nd ed. (1959), art. 28 to 34 and 85 for orthotropic plates; shear term
 * after Allen (1969), ch. 5). Clamped: energy method on clamped-beam functions, no shear.
 * Bending that couples with twisting is taken up in coupled.ts. N, mm, MPa.
 */
import { solveLinear } from './linear.ts';

/** Bending and shear stiffness of a plate; `shear` null: stiff against shear. */
export interface PlateStiffness {
  /** N mm, along the sides a and b. */
  readonly dx: number;
  readonly dy: number;
  /** D12 + 2 D66, N mm. */
  readonly dxy: number;
  /** D16 and D26: bending along a and along b that twists the plate, N mm. Zero for an orthotropic one. */
  readonly dxs: number;
  readonly dys: number;
  /** Transverse shear stiffness by width, N/mm. */
  readonly shear: number | null;
}

/** A load centred on the plate: over everything, over a patch, or at a point. */
export type PlateLoad =
  | { readonly kind: 'uniform'; readonly pressureMPa: number }
  | {
      readonly kind: 'patch';
      readonly loadN: number;
      readonly sideAMm: number;
      readonly sideBMm: number;
    }
  | { readonly kind: 'point'; readonly loadN: number };

/** Stiffness of an isotropic plate: D = E h3 / 12 (1 - nu2). */
export function isotropicPlate(eMPa: number, thicknessMm: number, nu: number): PlateStiffness {
  const d = (eMPa * thicknessMm ** 3) / (12 * (1 - nu * nu));
  return { dx: d, dy: d, dxy: d, dxs: 0, dys: 0, shear: null };
}

/** Terms each way; odd ones only, for every load is centred. */
const TERMS = 60;

/**
 * Deflection at the middle of a simply supported a x b plate, mm, without the coupling of bending and
 * twisting. With core shear a point load has no
 * finite answer (the series grows with its terms): give the patch it really acts on.
 * @returns the part from bending, the part from core shear, and their sum
 */
export function simplySupportedMm(
  plate: PlateStiffness,
  aMm: number,
  bMm: number,
  load: PlateLoad,
): { bendingMm: number; shearMm: number; totalMm: number } {
  let bendingMm = 0;
  let shearMm = 0;
  for (let m = 1; m <= 2 * TERMS; m += 2) {
    for (let n = 1; n <= 2 * TERMS; n += 2) {
      const alpha = (m * Math.PI) / aMm;
      const beta = (n * Math.PI) / bMm;
      const term = middleSign(m, n) * loadTerm(load, m, n, aMm, bMm);
      const curvature =
        plate.dx * alpha ** 4 + 2 * plate.dxy * alpha ** 2 * beta ** 2 + plate.dy * beta ** 4;
      bendingMm += term / curvature;
      if (plate.shear !== null) shearMm += term / (plate.shear * (alpha ** 2 + beta ** 2));
    }
  }
  return { bendingMm, shearMm, totalMm: bendingMm + shearMm };
}

/** sin(m pi / 2) sin(n pi / 2) for odd m and n: the shape's value at the middle. */
const middleSign = (m: number, n: number): number => (((m + n) / 2 - 1) % 2 === 0 ? 1 : -1);

/** Fourier coefficient of the load, MPa, for odd m and n. */
function loadTerm(load: PlateLoad, m: number, n: number, aMm: number, bMm: number): number {
  if (load.kind === 'uniform') return (16 * load.pressureMPa) / (Math.PI ** 2 * m * n);
  const point = (middleSign(m, n) * 4 * load.loadN) / (aMm * bMm);
  if (load.kind === 'point') return point;
  const spread = (k: number, sideMm: number, spanMm: number): number => {
    const x = (k * Math.PI * sideMm) / (2 * spanMm);
    return x === 0 ? 1 : Math.sin(x) / x;
  };
  return point * spread(m, load.sideAMm, aMm) * spread(n, load.sideBMm, bMm);
}

const CLAMPED_TERMS = 8;

/**
 * Deflection at the middle of a clamped a x b plate, mm, bending only. Symmetric clamped-beam functions
 * each way; within 1 % of the tables for spread loads, 2 % for a point.
 */
export function clampedMm(
  plate: PlateStiffness,
  aMm: number,
  bMm: number,
  load: PlateLoad,
): number {
  const count = CLAMPED_TERMS;
  const size = count * count;
  const matrix: number[][] = [];
  const right: number[] = [];
  for (let i = 0; i < size; i++) {
    const [m, n] = [Math.floor(i / count), i % count];
    const row: number[] = [];
    for (let j = 0; j < size; j++) {
      const [p, q] = [Math.floor(j / count), j % count];
      const stretch =
        (plate.dx * BEAM.curve[m]![p]! * BEAM.mass[n]![q]! * bMm) / aMm ** 3 +
        (plate.dy * BEAM.mass[m]![p]! * BEAM.curve[n]![q]! * aMm) / bMm ** 3 +
        (2 * plate.dxy * BEAM.slope[m]![p]! * BEAM.slope[n]![q]!) / (aMm * bMm);
      row.push(stretch);
    }
    matrix.push(row);
    right.push(loadWork(load, m, n, aMm, bMm));
  }
  const weights = solveLinear(matrix, right);
  return weights.reduce((w, weight, i) => {
    const [m, n] = [Math.floor(i / count), i % count];
    return w + weight * BEAM.value(m, 0.5) * BEAM.value(n, 0.5);
  }, 0);
}

/** Work of the load on one pair of functions. */
function loadWork(load: PlateLoad, m: number, n: number, aMm: number, bMm: number): number {
  if (load.kind === 'point') return load.loadN * BEAM.value(m, 0.5) * BEAM.value(n, 0.5);
  if (load.kind === 'uniform') {
    return load.pressureMPa * aMm * bMm * BEAM.mean(m, 1) * BEAM.mean(n, 1);
  }
  return load.loadN * BEAM.mean(m, load.sideAMm / aMm) * BEAM.mean(n, load.sideBMm / bMm);
}

/** Symmetric functions of a clamped span, 0 to 1, and their integrals over the span. */
const BEAM = clampedFunctions(CLAMPED_TERMS);

interface ClampedFunctions {
  value(m: number, x: number): number;
  /** Mean over the middle stretch of length `share`. */
  mean(m: number, share: number): number;
  readonly mass: readonly (readonly number[])[];
  /** Integral of the product of slopes. */
  readonly slope: readonly (readonly number[])[];
  /** Integral of the product of curvatures. */
  readonly curve: readonly (readonly number[])[];
}

/**
 * (1 - cos(2 pi x)) and higher cosine pairs: cos(2 pi m x) - cos(2 pi (m + 1) x) vanish with their
 * slope at both ends and are complete for symmetric deflections.
 */
function clampedFunctions(count: number): ClampedFunctions {
  const w = (m: number): number => 2 * Math.PI * m;
  const value = (m: number, x: number): number => Math.cos(w(m) * x) - Math.cos(w(m + 1) * x);
  const cosMean = (k: number, share: number): number => {
    if (k === 0) return 1;
    const half = (w(k) * share) / 2;
    return (Math.cos(w(k) / 2) * Math.sin(half)) / half;
  };
  // Integral of cos(2 pi i x) cos(2 pi j x) over 0..1, and the same of sines.
  const cosine = (i: number, j: number): number => (i !== j ? 0 : i === 0 ? 1 : 0.5);
  const sine = (i: number, j: number): number => (i === j && i > 0 ? 0.5 : 0);
  const table = (weight: (i: number, j: number) => number): number[][] =>
    Array.from({ length: count }, (_, m) =>
      Array.from(
        { length: count },
        (_, p) => weight(m, p) - weight(m, p + 1) - weight(m + 1, p) + weight(m + 1, p + 1),
      ),
    );
  return {
    value,
    mean: (m, share) => cosMean(m, share) - cosMean(m + 1, share),
    mass: table(cosine),
    slope: table((i, j) => w(i) * w(j) * sine(i, j)),
    curve: table((i, j) => w(i) ** 2 * w(j) ** 2 * cosine(i, j)),
  };
}
