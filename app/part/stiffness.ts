/**
 * Classical laminate theory: stiffness of a stack of thin orthotropic plies, thin or with a core.
 * Formulas: R. M. Jones, Mechanics of Composite Materials, 2nd ed. (1999), ch. 2 and 4 (from memory).
 * Forces in N, lengths in mm, moduli in MPa; angles from the 0 line, anticlockwise, degrees.
 */

/** A layer as the theory sees it. */
export interface Lamina {
  readonly thicknessMm: number;
  readonly angleDeg: number;
  readonly e1MPa: number;
  readonly e2MPa: number;
  readonly g12MPa: number;
  readonly nu12: number;
}

/** Symmetric 3 x 3 matrix by its upper triangle: 11, 12, 16, 22, 26, 66. */
export interface Plane {
  readonly xx: number;
  readonly xy: number;
  readonly xs: number;
  readonly yy: number;
  readonly ys: number;
  readonly ss: number;
}

export interface LaminateStiffness {
  readonly thicknessMm: number;
  /** Membrane, N/mm. */
  readonly a: Plane;
  /** Coupling, N. Zero for a symmetric stack. */
  readonly b: Plane;
  /** Bending about mid-thickness, N mm. */
  readonly d: Plane;
  /** Bending about each direction's own neutral plane, coupling condensed out, N mm. */
  readonly reducedD: Plane;
}

const ZERO: Plane = { xx: 0, xy: 0, xs: 0, yy: 0, ys: 0, ss: 0 };

/** Reduced stiffness of a ply turned to its angle, as its upper triangle, MPa. */
export function turnedStiffness(ply: Lamina): Plane {
  const nu21 = (ply.nu12 * ply.e2MPa) / ply.e1MPa;
  const denominator = 1 - ply.nu12 * nu21;
  const q11 = ply.e1MPa / denominator;
  const q22 = ply.e2MPa / denominator;
  const q12 = (ply.nu12 * ply.e2MPa) / denominator;
  const q66 = ply.g12MPa;
  const angle = (ply.angleDeg * Math.PI) / 180;
  const c = Math.cos(angle);
  const s = Math.sin(angle);
  const c2 = c * c;
  const s2 = s * s;
  const cs = c * s;
  const coupled = q12 + 2 * q66;
  const cross = q11 + q22 - 4 * q66;
  return {
    xx: q11 * c2 * c2 + 2 * coupled * c2 * s2 + q22 * s2 * s2,
    yy: q11 * s2 * s2 + 2 * coupled * c2 * s2 + q22 * c2 * c2,
    xy: cross * c2 * s2 + q12 * (c2 * c2 + s2 * s2),
    ss: (q11 + q22 - 2 * q12 - 2 * q66) * c2 * s2 + q66 * (c2 * c2 + s2 * s2),
    xs: (q11 - q12 - 2 * q66) * c2 * cs + (q12 - q22 + 2 * q66) * s2 * cs,
    ys: (q11 - q12 - 2 * q66) * s2 * cs + (q12 - q22 + 2 * q66) * c2 * cs,
  };
}

/**
 * Membrane, coupling and bending stiffness of a stack, about its middle. An empty stack gives zeros.
 * @param plies from one face to the other: thickness in mm, moduli in MPa, angle in degrees
 */
export function laminateStiffness(plies: readonly Lamina[]): LaminateStiffness {
  const thicknessMm = plies.reduce((total, ply) => total + ply.thicknessMm, 0);
  let from = -thicknessMm / 2;
  let a = ZERO;
  let b = ZERO;
  let d = ZERO;
  for (const ply of plies) {
    const to = from + ply.thicknessMm;
    const q = turnedStiffness(ply);
    a = plus(a, q, to - from);
    b = plus(b, q, (to ** 2 - from ** 2) / 2);
    d = plus(d, q, (to ** 3 - from ** 3) / 3);
    from = to;
  }
  return { thicknessMm, a, b, d, reducedD: plies.length > 0 ? reduced(a, b, d) : ZERO };
}

const plus = (sum: Plane, term: Plane, factor: number): Plane => ({
  xx: sum.xx + term.xx * factor,
  xy: sum.xy + term.xy * factor,
  xs: sum.xs + term.xs * factor,
  yy: sum.yy + term.yy * factor,
  ys: sum.ys + term.ys * factor,
  ss: sum.ss + term.ss * factor,
});

type Row = readonly [number, number, number];
type Matrix = readonly [Row, Row, Row];

const full = (p: Plane): Matrix => [
  [p.xx, p.xy, p.xs],
  [p.xy, p.yy, p.ys],
  [p.xs, p.ys, p.ss],
];

const upper = (m: Matrix): Plane => ({
  xx: m[0][0],
  xy: m[0][1],
  xs: m[0][2],
  yy: m[1][1],
  ys: m[1][2],
  ss: m[2][2],
});

function inverse(p: Plane): Plane {
  const cofactor = {
    xx: p.yy * p.ss - p.ys * p.ys,
    xy: p.xs * p.ys - p.xy * p.ss,
    xs: p.xy * p.ys - p.xs * p.yy,
    yy: p.xx * p.ss - p.xs * p.xs,
    ys: p.xy * p.xs - p.xx * p.ys,
    ss: p.xx * p.yy - p.xy * p.xy,
  };
  const determinant = p.xx * cofactor.xx + p.xy * cofactor.xy + p.xs * cofactor.xs;
  return plus(ZERO, cofactor, 1 / determinant);
}

/** D - B inv(A) B: bending of a stack that may shift its neutral plane. */
function reduced(a: Plane, b: Plane, d: Plane): Plane {
  const taken = multiply(multiply(full(b), full(inverse(a))), full(b));
  return plus(d, upper(taken), -1);
}

function multiply(left: Matrix, right: Matrix): Matrix {
  const cell = (row: Row, column: 0 | 1 | 2): number =>
    row[0] * right[0][column] + row[1] * right[1][column] + row[2] * right[2][column];
  const line = (row: Row): Row => [cell(row, 0), cell(row, 1), cell(row, 2)];
  return [line(left[0]), line(left[1]), line(left[2])];
}
