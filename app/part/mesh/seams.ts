/** Closes seams that are open by rounding alone: corners of free edges that all but meet become one. */
import type { Mesh } from './weld.ts';

/** Corners as close as this share of the whole mesh's diagonal are one corner, a tenth of a mm on a metre. */
const ROUNDING = 1e-4;

/** And no farther apart than this share of the mean free edge, so that no real edge collapses. */
const EDGE_SHARE = 0.02;

/**
 * The mesh with those corners joined, and how many were; the same mesh when there are none.
 * @param free pairs of vertex numbers: the free edges
 * @param diagonal of the bounds
 */
export function closeSeams(
  mesh: Mesh,
  free: Uint32Array,
  diagonal: number,
): { mesh: Mesh; joined: number } {
  const rim = Uint32Array.from(new Set(free));
  const tolerance = Math.min(ROUNDING * diagonal, EDGE_SHARE * meanLength(mesh.vertices, free));
  if (!(tolerance > 0)) return { mesh, joined: 0 };
  const target = neighbours(mesh.vertices, rim, tolerance);
  keepFaces(mesh.faces, target);
  if (target.size === 0) return { mesh, joined: 0 };
  const faces = mesh.faces.map((vertex) => target.get(vertex) ?? vertex);
  return { mesh: { ...mesh, faces }, joined: target.size };
}

/** Undoes every joining that would collapse a face: the short side of a thin face is no seam. */
function keepFaces(faces: Uint32Array, target: Map<number, number>): void {
  for (let changed = target.size > 0; changed;) {
    changed = false;
    for (let i = 0; i < faces.length; i += 3) {
      const [a, b, c] = [faces[i]!, faces[i + 1]!, faces[i + 2]!];
      const [ta, tb, tc] = [target.get(a) ?? a, target.get(b) ?? b, target.get(c) ?? c];
      if (ta !== tb && tb !== tc && tc !== ta) continue;
      for (const vertex of [a, b, c]) if (target.delete(vertex)) changed = true;
    }
  }
}

function meanLength(vertices: Float32Array, free: Uint32Array): number {
  let total = 0;
  for (let i = 0; i < free.length; i += 2) total += apart(vertices, free[i]!, free[i + 1]!);
  return (2 * total) / free.length;
}

const apart = (vertices: Float32Array, a: number, b: number): number =>
  Math.hypot(
    vertices[a * 3]! - vertices[b * 3]!,
    vertices[a * 3 + 1]! - vertices[b * 3 + 1]!,
    vertices[a * 3 + 2]! - vertices[b * 3 + 2]!,
  );

/** For each corner that meets an earlier one within the tolerance: the number of that one. */
function neighbours(
  vertices: Float32Array,
  rim: Uint32Array,
  tolerance: number,
): Map<number, number> {
  const cells = new Map<string, number[]>();
  const target = new Map<number, number>();
  const cell = (value: number): number => Math.floor(value / tolerance);
  for (const vertex of rim) {
    const [i, j, k] = [0, 1, 2].map((axis) => cell(vertices[vertex * 3 + axis]!)) as Cell;
    const near = nearest(cells, [i, j, k], (other) => apart(vertices, vertex, other) <= tolerance);
    if (near !== null) {
      target.set(vertex, near);
      continue;
    }
    const key = `${i} ${j} ${k}`;
    const list = cells.get(key);
    if (list) list.push(vertex);
    else cells.set(key, [vertex]);
  }
  return target;
}

type Cell = [number, number, number];

function nearest(
  cells: ReadonlyMap<string, readonly number[]>,
  [i, j, k]: Cell,
  isNear: (other: number) => boolean,
): number | null {
  for (let di = -1; di <= 1; di++) {
    for (let dj = -1; dj <= 1; dj++) {
      for (let dk = -1; dk <= 1; dk++) {
        const found = cells.get(`${i + di} ${j + dj} ${k + dk}`)?.find(isNear);
        if (found !== undefined) return found;
      }
    }
  }
  return null;
}
