/**
 * Deflection of a rectangular plate under a spread, patch or point load.
 * Simply supported: double sine series with transverse shear (S. Timoshenko and S. Woinowsky-Krieger,
 * Theory of Plates and Shells, 2nd ed. (1959), art. 28 to 34 and 85 for orthotropic plates; shear term
 * after Allen (1969), ch. 5).
 * Bending that couples with twisting is taken up in coupled.ts. N, mm, MPa.
 */
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
