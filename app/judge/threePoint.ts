/** Lengths in three points, and what a chain of them adds up to. */

/** Least, usual and most of a length, in any one unit. */
export interface ThreePoint {
  readonly least: number;
  readonly usual: number;
  readonly most: number;
}

/** (a + 4 m + b) / 6 (Malcolm, Roseboom, Clark and Fazar 1959). */
export const threePointMean = ({ least, usual, most }: ThreePoint): number =>
  (least + 4 * usual + most) / 6;

/** ((b - a) / 6) squared (same source). */
export const threePointVariance = ({ least, most }: ThreePoint): number =>
  ((most - least) / 6) ** 2;

/** Cells of the grid that the beta density is summed over. */
const CELLS = 4096;

/**
 * Quantiles of the beta law with shapes 1 + 4 k and 1 + 4 (1 - k), k being where the usual value lies
 * between least and most, 0 to 1: entry i holds the quantile of i / steps, as a share of the range.
 */
export function threePointQuantiles(usualShare: number, steps: number): Float64Array {
  const [up, down] = [4 * usualShare, 4 * (1 - usualShare)];
  const below = new Float64Array(CELLS + 1);
  for (let i = 0; i < CELLS; i++) {
    const x = (i + 0.5) / CELLS;
    below[i + 1] = below[i]! + x ** up * (1 - x) ** down;
  }
  const whole = below[CELLS]!;
  const quantiles = new Float64Array(steps + 1);
  let cell = 0;
  for (let i = 1; i < steps; i++) {
    const wanted = (i / steps) * whole;
    while (below[cell + 1]! < wanted) cell++;
    const inCell = below[cell + 1]! - below[cell]!;
    quantiles[i] = (cell + (wanted - below[cell]!) / inCell) / CELLS;
  }
  quantiles[steps] = 1;
  return quantiles;
}

/** The quantile of `share`, 0 to 1, read between the entries of a table. */
export function quantileAt(table: Float64Array, share: number): number {
  const at = Math.min(Math.max(share, 0), 1) * (table.length - 1);
  const i = Math.min(Math.floor(at), table.length - 2);
  return table[i]! + (at - i) * (table[i + 1]! - table[i]!);
}

/**
 * The chance that a chain of lengths is done by `due`, the sum taken as normal (Malcolm et al. 1959).
 * Good for long chains; a sum without spread is done or not done.
 */
export function chainChance(points: readonly ThreePoint[], due: number): number {
  const mean = points.reduce((sum, point) => sum + threePointMean(point), 0);
  const variance = points.reduce((sum, point) => sum + threePointVariance(point), 0);
  if (variance === 0) return due >= mean ? 1 : 0;
  return normalBelow((due - mean) / Math.sqrt(variance));
}

/** Standard normal law: Abramowitz and Stegun 7.1.26 for erf, error below 1.5e-7. */
export function normalBelow(z: number): number {
  const x = Math.abs(z) / Math.SQRT2;
  const t = 1 / (1 + 0.3275911 * x);
  const series =
    t *
    (0.254829592 + t * (-0.284496736 + t * (1.421413741 + t * (-1.453152027 + t * 1.061405429))));
  const erf = 1 - series * Math.exp(-x * x);
  return z >= 0 ? (1 + erf) / 2 : (1 - erf) / 2;
}
