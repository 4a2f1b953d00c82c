/**
 * Fibre, resin and thickness of a cured laminate, voids left out.
 * Formulas: rule of mixtures by mass and volume as in ASTM D3171, methods I and II (from memory).
 */

/**
 * Density of a void-free laminate, kg/m3.
 * @param fibreVolumeFraction 0 to 1
 * @param fibreKgM3 density of the fibre
 * @param matrixKgM3 density of the cured resin
 */
export function laminateDensityKgM3(
  fibreVolumeFraction: number,
  fibreKgM3: number,
  matrixKgM3: number,
): number {
  return fibreVolumeFraction * fibreKgM3 + (1 - fibreVolumeFraction) * matrixKgM3;
}

/**
 * Cured thickness of one ply, mm: areal mass of the fibre over its density and volume fraction.
 * @param arealGM2 mass of the dry cloth, g/m2
 * @param fibreVolumeFraction above 0, to 1
 */
export function plyThicknessMm(
  arealGM2: number,
  fibreKgM3: number,
  fibreVolumeFraction: number,
): number {
  return arealGM2 / (fibreKgM3 * fibreVolumeFraction);
}

/**
 * Cured resin in one ply, g/m2.
 * @param arealGM2 mass of the dry cloth, g/m2
 * @param fibreVolumeFraction above 0, to 1
 */
export function plyResinGM2(
  arealGM2: number,
  fibreKgM3: number,
  fibreVolumeFraction: number,
  matrixKgM3: number,
): number {
  const thicknessMm = plyThicknessMm(arealGM2, fibreKgM3, fibreVolumeFraction);
  return thicknessMm * (1 - fibreVolumeFraction) * matrixKgM3;
}

/**
 * Fibre volume fraction of a laminate measured with a caliper (ASTM D3171 method II), 0 to 1.
 * @param arealGM2 mass of one dry ply, g/m2
 * @param plies how many
 * @param thicknessMm of the laminate
 */
export function volumeFractionFromThickness(
  arealGM2: number,
  plies: number,
  fibreKgM3: number,
  thicknessMm: number,
): number {
  return (arealGM2 * plies) / (fibreKgM3 * thicknessMm);
}

/**
 * Void volume fraction from a burn-off (ASTM D3171 method I), 0 to 1. Below zero the inputs contradict each
 * other: a density or the burn-off is wrong.
 * @param fibreMassFraction 0 to 1
 * @param laminateKgM3 density of the laminate as weighed
 */
export function voidFraction(
  fibreMassFraction: number,
  laminateKgM3: number,
  fibreKgM3: number,
  matrixKgM3: number,
): number {
  const fibre = (fibreMassFraction * laminateKgM3) / fibreKgM3;
  const matrix = ((1 - fibreMassFraction) * laminateKgM3) / matrixKgM3;
  return 1 - fibre - matrix;
}
