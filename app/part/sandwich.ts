/**
 * Bending and shear of a sandwich beam with like faces. N, mm, MPa.
 * Sources: H. G. Allen, Analysis and Design of Structural Sandwich Panels (1969), ch. 2, and
 * D. Zenkert, An Introduction to Sandwich Construction (1995), ch. 3, for D and the shear stiffness;
 * ASTM D7250 and C393 for the beam formulas (forms from memory, checked against each other).
 */

export interface SandwichBeam {
  readonly faceMPa: number;
  readonly faceMm: number;
  readonly coreMm: number;
  readonly coreMPa: number;
  readonly coreShearMPa: number;
  readonly widthMm: number;
}

/** Flexural rigidity with the faces' and the core's own bending, N mm2 (Allen, eq. 2.3). */
export function rigidityNmm2(beam: SandwichBeam): number {
  const { faceMPa, faceMm: t, coreMm: c, coreMPa, widthMm: b } = beam;
  const d = c + t;
  return (faceMPa * b * t ** 3) / 6 + (faceMPa * b * t * d * d) / 2 + (coreMPa * b * c ** 3) / 12;
}

/** Flexural rigidity of the faces alone, about the mid-plane, N mm2 (ASTM D7250). */
export function faceRigidityNmm2({ faceMPa, faceMm, coreMm, widthMm }: SandwichBeam): number {
  const h = coreMm + 2 * faceMm;
  return (faceMPa * widthMm * (h ** 3 - coreMm ** 3)) / 12;
}

/** Transverse shear stiffness, N: b d2 G / c (Allen, eq. 2.19; equal to D7250's U). */
export function shearStiffnessN({ coreMm, faceMm, coreShearMPa, widthMm }: SandwichBeam): number {
  return (widthMm * (coreMm + faceMm) ** 2 * coreShearMPa) / coreMm;
}

/** How a beam on two supports is loaded. */
export type BeamLoad = 'centre' | 'quarter-points' | 'third-points';

const BENDING = { centre: 1 / 48, 'quarter-points': 11 / 768, 'third-points': 23 / 1296 } as const;
const SHEARING = { centre: 1 / 4, 'quarter-points': 1 / 8, 'third-points': 1 / 6 } as const;

/** Mid-span deflection, mm, of a total load P over span S: bending and shear apart (ASTM D7250). */
export function beamDeflectionMm(
  rigidity: number,
  shearStiffness: number,
  loadN: number,
  spanMm: number,
  load: BeamLoad,
): { bendingMm: number; shearMm: number; totalMm: number } {
  const bendingMm = (BENDING[load] * loadN * spanMm ** 3) / rigidity;
  const shearMm = (SHEARING[load] * loadN * spanMm) / shearStiffness;
  return { bendingMm, shearMm, totalMm: bendingMm + shearMm };
}

/** Core shear stress under a central load, MPa: P / ((h + c) b) (ASTM C393). */
export function coreShearMPa(beam: SandwichBeam, loadN: number): number {
  return loadN / ((2 * beam.coreMm + 2 * beam.faceMm) * beam.widthMm);
}

/** Face stress under a central load, MPa: P S / (2 t (h + c) b) (ASTM C393). */
export function faceStressMPa(beam: SandwichBeam, loadN: number, spanMm: number): number {
  return (coreShearMPa(beam, loadN) * spanMm) / (2 * beam.faceMm);
}
