/** Neither STL nor OBJ says its unit: a guess from the size, to be confirmed by a person. */
import type { MeshMeasure } from './measure.ts';

/** Units that a mesh may be drawn in, and their length in metres. */
export const MESH_UNITS = { mm: 0.001, cm: 0.01, m: 1, in: 0.0254, ft: 0.3048 } as const;
export type MeshUnit = keyof typeof MESH_UNITS;

/** A mesh in metres, once its unit is agreed. */
export interface MeshInMetres {
  readonly sizeM: readonly [number, number, number];
  readonly areaM2: number;
  readonly edgeM: number;
  readonly volumeM3: number | null;
}

export interface UnitGuess extends MeshInMetres {
  readonly unit: MeshUnit;
  /** A size that a shop builds: the longest side between 0.1 and 15 m. */
  readonly plausible: boolean;
}

/**
 * The measures of a mesh in metres, square and cubic metres, read in a unit.
 * @param unit in which the mesh was drawn
 */
export function inUnit(measure: MeshMeasure, unit: MeshUnit): MeshInMetres {
  const factor = MESH_UNITS[unit];
  const side = (axis: 0 | 1 | 2): number => (measure.max[axis] - measure.min[axis]) * factor;
  return {
    sizeM: [side(0), side(1), side(2)],
    areaM2: measure.area * factor ** 2,
    edgeM: measure.edge * factor,
    volumeM3: measure.volume === null ? null : measure.volume * factor ** 3,
  };
}

const LEAST_M = 0.1;
const MOST_M = 15;
/** The size that a one-off part most often has. */
const USUAL_M = 1.5;

/**
 * Every unit with the size it would mean, likeliest first: nearest to an area that was typed, else to
 * the usual size of a part, with millimetres and metres before the others when they tie. It is a guess:
 * the person confirms one.
 */
export function unitGuesses(measure: MeshMeasure, typedAreaM2: number | null): UnitGuess[] {
  const units = Object.keys(MESH_UNITS) as MeshUnit[];
  const guesses = units.map((unit) => {
    const metres = inUnit(measure, unit);
    const longest = Math.max(...metres.sizeM);
    const off =
      typedAreaM2 !== null
        ? Math.abs(Math.log(metres.areaM2 / typedAreaM2)) / 2
        : Math.abs(Math.log(longest / USUAL_M));
    const plausible = longest >= LEAST_M && longest <= MOST_M;
    return { guess: { unit, ...metres, plausible }, off: off + UNIT_PENALTY[unit] };
  });
  return guesses.sort((a, b) => a.off - b.off).map(({ guess }) => guess);
}

/** Meshes are mostly drawn in millimetres; feet and centimetres are rare. */
const UNIT_PENALTY: Readonly<Record<MeshUnit, number>> = { mm: 0, m: 0.3, in: 0.6, cm: 1, ft: 1.2 };
