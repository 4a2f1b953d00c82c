/** What a test panel off the bench says about the cloth: caliper and scales against the library. */
import type { ClothRow } from '../document/schema.ts';
import { laminateDensityKgM3, voidFraction, volumeFractionFromThickness } from './laminate.ts';

/** A flat panel of one cloth, cured as the part will be, free of peel ply. */
export interface TestPanel {
  readonly plies: number;
  readonly thicknessMm: number;
  /** Weighed, by area. */
  readonly massGM2: number;
}

export interface TestPanelReading {
  readonly fibreFraction: number;
  /** Of the volume; below zero when thickness, weight and densities contradict each other. */
  readonly voids: number;
  readonly densityKgM3: number;
  /** Without voids at that fibre fraction. */
  readonly soundDensityKgM3: number;
  readonly remarks: readonly string[];
  /** The cloth with its measured fibre fraction; null when the reading is not to be trusted. */
  readonly cloth: ClothRow | null;
}

/** Rounding of a caliper and a kitchen scale reaches about so far below zero. */
const LEAST_VOIDS = -0.015;
/** Beyond this, common practice would look for a leak. */
const MANY_VOIDS = 0.05;

/**
 * Fibre fraction and voids of a test panel (ASTM D3171: method II for the fibre, the densities for the
 * voids; from memory).
 * @throws RangeError when a measure is not above zero
 */
export function readTestPanel(
  panel: TestPanel,
  cloth: ClothRow,
  matrixKgM3: number,
): TestPanelReading {
  const { plies, thicknessMm, massGM2 } = panel;
  for (const [name, value] of Object.entries({ plies, thicknessMm, massGM2 })) {
    if (!(value > 0)) throw new RangeError(`${name}: found ${value}, expected more than 0`);
  }
  const { arealGM2, fibreDensityKgM3 } = cloth;
  const fibreFraction = volumeFractionFromThickness(arealGM2, plies, fibreDensityKgM3, thicknessMm);
  const densityKgM3 = massGM2 / thicknessMm;
  const fibreMass = (arealGM2 * plies) / massGM2;
  const voids = voidFraction(fibreMass, densityKgM3, fibreDensityKgM3, matrixKgM3);
  const contradicts = voids < LEAST_VOIDS || fibreMass >= 1 || fibreFraction >= 1;
  const remarks: string[] = [];
  if (contradicts) {
    remarks.push(
      'Thickness, weight and densities contradict each other: weigh and measure again, count the plies.',
    );
  } else if (voids > MANY_VOIDS) {
    remarks.push(
      `${Math.round(voids * 100)} % voids: look for a leak, a dry spot or a rough face.`,
    );
  }
  return {
    fibreFraction,
    voids,
    densityKgM3,
    soundDensityKgM3: laminateDensityKgM3(fibreFraction, fibreDensityKgM3, matrixKgM3),
    remarks,
    cloth: contradicts ? null : measuredCloth(cloth, fibreFraction, panel),
  };
}

const measuredCloth = (cloth: ClothRow, fibreFraction: number, panel: TestPanel): ClothRow => ({
  ...cloth,
  revision: cloth.revision + 1,
  provenance: {
    kind: 'measured',
    source: `test panel of ${panel.plies} plies, ${panel.thicknessMm} mm, ${panel.massGM2} g/m2`,
  },
  fibreFraction,
});
