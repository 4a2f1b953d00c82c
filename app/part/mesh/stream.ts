/** A mesh file read and measured as it comes, for a worker. */
import { measureMesh, type MeshMeasure } from './measure.ts';
import { meshReader } from './read.ts';
import { meshRemarks } from './remarks.ts';
import { unitGuesses, type UnitGuess } from './units.ts';

export interface MeshReading {
  readonly measure: MeshMeasure;
  /** Likeliest first; a person confirms one. */
  readonly units: readonly UnitGuess[];
  readonly remarks: readonly string[];
}

/**
 * Reads a mesh from the pieces of its file and measures it. Stop it by throwing from `progress`.
 * @param name file name
 * @param byteLength size of the whole file
 * @param typedAreaM2 area the zone has so far, to tell the unit by; null when none was typed
 * @param progress share of the file read, 0 to 1
 * @throws MeshFault when the file is no mesh or only half of one
 */
export async function measureFile(
  name: string,
  byteLength: number,
  pieces: AsyncIterable<Uint8Array>,
  typedAreaM2: number | null,
  progress: (share: number) => void = () => undefined,
): Promise<MeshReading> {
  const reader = meshReader(name, byteLength);
  let read = 0;
  for await (const piece of pieces) {
    reader.push(piece);
    read += piece.length;
    progress(byteLength > 0 ? read / byteLength : 1);
  }
  const measure = measureMesh(reader.finish());
  return { measure, units: unitGuesses(measure, typedAreaM2), remarks: meshRemarks(measure) };
}
