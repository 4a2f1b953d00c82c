/**
 * How much softer a simply supported plate is because bending twists it (D16, D26), under a load at its
 * middle. There is no series for it; the energy method on polynomials that are zero along the edge
 * leaves the moments there free and so converges where sines do not (J. E. Ashton and J. M. Whitney,
 * Theory of Laminated Plates (1970); R. M. Jones, Mechanics of Composite Materials (1999), sect. 5.3;
 * both from memory). N, mm.
 */
import { solveLinear } from './linear.ts';
import type { PlateStiffness } from './plate.ts';

/** A load spread over a rectangle at the middle, mm. */
export interface Patch {
  readonly sideAMm: number;
  readonly sideBMm: number;
}

/** Polynomials along each side. */
const COUNT = 10;

/**
 * A long panel under a load at its middle needs more polynomials than these, and its share of coupling
 * falls with its length: the longer side counts for this many shorter ones.
 */
const LONGEST = 2;

/**
 * The energy method answers from below, by up to a tenth of what the coupling adds; that much and half
 * as much again is put on, so that the figure lies on the safe side of the converged one.
 */
const SAFETY = 1.15;

/** D16 and D26 below this share of the bending stiffness are left out: they soften by its square only. */
const SLIGHT = 0.01;

/**
 * Deflection with the coupling over deflection without it, on the safe side: 1 for an orthotropic plate.
 * @param plate stiffness by width; D12 and D66 enter by their sum alone, as the edge is straight
 */
export function couplingFactor(
  plate: PlateStiffness,
  aMm: number,
  bMm: number,
  patch: Patch,
): number {
  const bending = Math.sqrt(plate.dx * plate.dy);
  if (Math.abs(plate.dxs) + Math.abs(plate.dys) < SLIGHT * bending) return 1;
  const sides = [Math.min(aMm, LONGEST * bMm), Math.min(bMm, LONGEST * aMm)] as const;
  const coupled = middleDeflection(plate, sides, patch);
  const without = middleDeflection({ ...plate, dxs: 0, dys: 0 }, sides, patch);
  return 1 + SAFETY * (coupled / without - 1);
}

/** Deflection at the middle under one newton, mm. */
export function middleDeflection(
  plate: PlateStiffness,
  [aMm, bMm]: readonly [number, number],
  patch: Patch,
): number {
  const [along, across] = [2 / aMm, 2 / bMm];
  const area = (aMm * bMm) / 4;
  // Integral of the product of two derivatives, each given by its order along a and across.
  const product = (p: Pair, q: Pair, [pa, pb]: Order, [qa, qb]: Order): number =>
    area *
    along ** (pa + qa) *
    across ** (pb + qb) *
    PRODUCTS[pa][qa][p[0]]![q[0]]! *
    PRODUCTS[pb][qb][p[1]]![q[1]]!;
  const energy = (p: Pair, q: Pair): number =>
    plate.dx * product(p, q, BEND_A, BEND_A) +
    plate.dy * product(p, q, BEND_B, BEND_B) +
    2 * plate.dxy * product(p, q, TWIST, TWIST) +
    2 * plate.dxs * (product(p, q, BEND_A, TWIST) + product(p, q, TWIST, BEND_A)) +
    2 * plate.dys * (product(p, q, BEND_B, TWIST) + product(p, q, TWIST, BEND_B));
  const work = ([i, j]: Pair): number =>
    meanOverMiddle(i, Math.min(1, patch.sideAMm / aMm)) *
    meanOverMiddle(j, Math.min(1, patch.sideBMm / bMm));
  const weights = solveLinear(
    PAIRS.map((p) => PAIRS.map((q) => energy(p, q))),
    PAIRS.map(work),
  );
  return weights.reduce(
    (sum, weight, k) => sum + weight * AT_MIDDLE[PAIRS[k]![0]]! * AT_MIDDLE[PAIRS[k]![1]]!,
    0,
  );
}

type Pair = readonly [number, number];
type Order = readonly [0 | 1 | 2, 0 | 1 | 2];
const BEND_A: Order = [2, 0];
const BEND_B: Order = [0, 2];
const TWIST: Order = [1, 1];

/** Products that stay the same when the plate is turned by half a turn, as a middle load's answer does. */
const PAIRS: readonly Pair[] = Array.from({ length: COUNT * COUNT }, (_, k): Pair => [
  Math.floor(k / COUNT),
  k % COUNT,
]).filter(([i, j]) => (i + j) % 2 === 0);

/**
 * The i-th polynomial over -1 to 1 is P(i + 2) - P(i), P being Legendre's: zero at both ends, with the
 * slope (2 i + 3) P(i + 1). Each is held by its Legendre coefficients, for they are orthogonal.
 */
const SHAPES: readonly (readonly number[])[] = Array.from({ length: COUNT }, (_, i) =>
  coefficients((k) => (k === i + 2 ? 1 : k === i ? -1 : 0)),
);
const SLOPES = Array.from({ length: COUNT }, (_, i) =>
  coefficients((k) => (k === i + 1 ? 2 * i + 3 : 0)),
);
/** P(n)' is the sum of (2 k + 1) P(k) over k = n - 1, n - 3, and so on. */
const CURVES = Array.from({ length: COUNT }, (_, i) =>
  coefficients((k) => (k <= i && (i - k) % 2 === 0 ? (2 * i + 3) * (2 * k + 1) : 0)),
);

function coefficients(of: (k: number) => number): number[] {
  return Array.from({ length: COUNT + 2 }, (_, k) => of(k));
}

type Table = readonly (readonly number[])[];

const integrals = (left: Table, right: Table): Table =>
  left.map((l) =>
    right.map((r) => l.reduce((sum, value, k) => sum + (value * r[k]! * 2) / (2 * k + 1), 0)),
  );

const DERIVATIVES = [SHAPES, SLOPES, CURVES] as const;
const productsOf = (left: Table): readonly [Table, Table, Table] => [
  integrals(left, DERIVATIVES[0]),
  integrals(left, DERIVATIVES[1]),
  integrals(left, DERIVATIVES[2]),
];
/** By the orders of the two derivatives, then by the two polynomials. */
const PRODUCTS = [productsOf(SHAPES), productsOf(SLOPES), productsOf(CURVES)] as const;

/** Legendre's polynomials of degree 0 to `most` at x. */
function legendre(x: number, most: number): number[] {
  const values = [1, x];
  for (let n = 1; n < most; n++) {
    values.push(((2 * n + 1) * x * values[n]! - n * values[n - 1]!) / (n + 1));
  }
  return values;
}

const AT_ZERO = legendre(0, COUNT + 2);
const AT_MIDDLE = Array.from({ length: COUNT }, (_, i) => AT_ZERO[i + 2]! - AT_ZERO[i]!);

/** Mean of the i-th polynomial over the middle `share` of the side. */
function meanOverMiddle(i: number, share: number): number {
  if (i % 2 === 1) return 0;
  const at = legendre(share, i + 3);
  // Integral of P(n) from 0 to x for even n: (P(n + 1) - P(n - 1)) / (2 n + 1).
  const integral = (n: number): number =>
    n === 0 ? share : (at[n + 1]! - at[n - 1]!) / (2 * n + 1);
  return (integral(i + 2) - integral(i)) / share;
}
