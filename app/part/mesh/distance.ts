/** Whether a drawing far from its zero point is still told apart by the numbers of its file. */
import type { Mesh } from './weld.ts';

/** Far: this many times its own size from zero. */
const FAR = 1000;

/**
 * Coordinates must be written to this share of a mean edge. Areas then stay right to a tenth of a percent,
 * also where a further digit before the point makes the next steps ten times coarser.
 */
const FINE = 0.005;

type Vector = readonly [number, number, number];

/**
 * True when the mesh is far from zero along an axis and its coordinates there are too coarse.
 * @param origin what was taken off every coordinate
 * @param steps the finest step of the coordinates as written; infinite for 32-bit numbers
 */
export function isTooFar({ vertices, faces }: Mesh, origin: Vector, steps: Vector): boolean {
  const reach = [0, 0, 0];
  for (let i = 0; i < vertices.length; i++) {
    const size = Math.abs(vertices[i]!);
    if (size > reach[i % 3]!) reach[i % 3] = size;
  }
  const size = Math.hypot(reach[0]!, reach[1]!, reach[2]!);
  const farAxes = ([0, 1, 2] as const).filter((axis) => Math.abs(origin[axis]) > FAR * size);
  if (farAxes.length === 0) return false;
  const edge = meanEdge(vertices, faces);
  return farAxes.some((axis) => {
    const step = Number.isFinite(steps[axis]) ? steps[axis] : floatStep(origin[axis]);
    return step > FINE * edge;
  });
}

/** Distance of neighbouring 32-bit numbers: 2^-23 of the power of two below. */
const floatStep = (value: number): number => 2 ** (Math.floor(Math.log2(Math.abs(value))) - 23);

function meanEdge(vertices: Float32Array, faces: Uint32Array): number {
  let total = 0;
  for (let i = 0; i < faces.length; i++) {
    const a = faces[i]! * 3;
    const b = faces[i % 3 === 2 ? i - 2 : i + 1]! * 3;
    total += Math.hypot(
      vertices[a]! - vertices[b]!,
      vertices[a + 1]! - vertices[b + 1]!,
      vertices[a + 2]! - vertices[b + 2]!,
    );
  }
  return total / faces.length;
}
