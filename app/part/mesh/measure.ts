/** Area, volume, edge and soundness of a mesh, in the units of its file. */
import { closeSeams } from './seams.ts';
import type { Mesh } from './weld.ts';

/** One closed run of free edge. */
export interface Rim {
  readonly length: number;
  readonly edges: number;
}

export interface MeshMeasure {
  readonly faces: number;
  readonly vertices: number;
  readonly area: number;
  /** Enclosed volume; null for an open or muddled surface. */
  readonly volume: number | null;
  /** Length of all free edges. */
  readonly edge: number;
  /** Free edges by connected run, longest first. */
  readonly rims: readonly Rim[];
  /** Connected pieces. */
  readonly pieces: number;
  /** Edges shared by more than two faces. */
  readonly overfullEdges: number;
  /** Edges whose two faces look opposite ways. */
  readonly turnedEdges: number;
  readonly collapsedFaces: number;
  /** Faces of four or more corners that are not flat. */
  readonly bentFaces: number;
  /** Corners of free edges that lay within rounding of another and were joined to it. */
  readonly joinedCorners: number;
  /** No free edge: a solid, whose area counts both its sides. */
  readonly closed: boolean;
  /** Every edge has one face or two that look the same way. */
  readonly sound: boolean;
  /** How the faces turn: all one way, about one axis, or every way. */
  readonly shape: 'flat' | 'single' | 'double';
  readonly min: readonly [number, number, number];
  readonly max: readonly [number, number, number];
}

/** Measures a mesh; time and memory grow with its faces. */
export function measureMesh(read: Mesh): MeshMeasure {
  const { min, max } = bounds(read.vertices);
  const asRead = edgeCensus(read);
  const diagonal = Math.hypot(max[0] - min[0], max[1] - min[1], max[2] - min[2]);
  const { mesh, joined } = closeSeams(read, asRead.free, diagonal);
  const edges = joined === 0 ? asRead : edgeCensus(mesh);
  const { area, volume, normals } = areaAndVolume(mesh, min, max);
  const rims = rimsOf(edges.free, mesh.vertices);
  const closed = edges.free.length === 0;
  const sound = edges.overfull === 0 && edges.turned === 0;
  return {
    faces: mesh.faces.length / 3,
    vertices: mesh.vertices.length / 3 - joined,
    area,
    volume: closed && sound ? Math.abs(volume) : null,
    edge: rims.reduce((sum, rim) => sum + rim.length, 0),
    rims,
    pieces: countPieces(mesh),
    overfullEdges: edges.overfull,
    turnedEdges: edges.turned,
    collapsedFaces: mesh.collapsed,
    bentFaces: mesh.bent,
    joinedCorners: joined,
    closed,
    sound,
    shape: shapeOf(normals, area),
    min,
    max,
  };
}

type Vector = [number, number, number];

function bounds(vertices: Float32Array): { min: Vector; max: Vector } {
  const min: Vector = [Infinity, Infinity, Infinity];
  const max: Vector = [-Infinity, -Infinity, -Infinity];
  for (let axis = 0; axis < 3; axis++) {
    let [least, most] = [Infinity, -Infinity];
    for (let i = axis; i < vertices.length; i += 3) {
      const value = vertices[i]!;
      if (value < least) least = value;
      if (value > most) most = value;
    }
    min[axis] = least;
    max[axis] = most;
  }
  return { min, max };
}

/** Sums of n n^T over the faces, n the unit normal, weighed by area: xx, yy, zz, xy, yz, zx. */
type NormalSums = [number, number, number, number, number, number];

/** Sum of face areas, and of signed tetrahedra about the middle of the bounds (divergence theorem). */
function areaAndVolume(
  { vertices, faces }: Mesh,
  min: Vector,
  max: Vector,
): { area: number; volume: number; normals: NormalSums } {
  const [ox, oy, oz] = [(min[0] + max[0]) / 2, (min[1] + max[1]) / 2, (min[2] + max[2]) / 2];
  let twiceArea = 0;
  let sixVolumes = 0;
  let [xx, yy, zz, xy, yz, zx] = [0, 0, 0, 0, 0, 0];
  for (let i = 0; i < faces.length; i += 3) {
    const a = faces[i]! * 3;
    const b = faces[i + 1]! * 3;
    const c = faces[i + 2]! * 3;
    const ax = vertices[a]! - ox;
    const ay = vertices[a + 1]! - oy;
    const az = vertices[a + 2]! - oz;
    const ux = vertices[b]! - ox - ax;
    const uy = vertices[b + 1]! - oy - ay;
    const uz = vertices[b + 2]! - oz - az;
    const vx = vertices[c]! - ox - ax;
    const vy = vertices[c + 1]! - oy - ay;
    const vz = vertices[c + 2]! - oz - az;
    const nx = uy * vz - uz * vy;
    const ny = uz * vx - ux * vz;
    const nz = ux * vy - uy * vx;
    const size = Math.sqrt(nx * nx + ny * ny + nz * nz);
    twiceArea += size;
    if (size > 0) {
      xx += (nx * nx) / size;
      yy += (ny * ny) / size;
      zz += (nz * nz) / size;
      xy += (nx * ny) / size;
      yz += (ny * nz) / size;
      zx += (nz * nx) / size;
    }
    sixVolumes += ax * nx + ay * ny + az * nz;
  }
  const normals = [xx, yy, zz, xy, yz, zx].map((sum) => sum / 2) as NormalSums;
  return { area: twiceArea / 2, volume: sixVolumes / 6, normals };
}

/** Mean square of the sine of 5 degrees: a surface that turns less counts as not turning. */
const TURN = Math.sin((5 * Math.PI) / 180) ** 2;

/** A flat surface has one direction of normals, a singly curved one a fan of them in one plane. */
function shapeOf(normals: NormalSums, area: number): 'flat' | 'single' | 'double' {
  const [, middle, least] = eigenvalues(normals.map((sum) => sum / area) as NormalSums);
  if (middle < TURN) return 'flat';
  return least < TURN ? 'single' : 'double';
}

/** Eigenvalues of a symmetric 3 x 3 matrix, greatest first (O. K. Smith, Comm. ACM 4 (1961) 168). */
function eigenvalues([xx, yy, zz, xy, yz, zx]: NormalSums): Vector {
  const mean = (xx + yy + zz) / 3;
  const [a, b, c] = [xx - mean, yy - mean, zz - mean];
  const p = Math.sqrt((a * a + b * b + c * c + 2 * (xy * xy + yz * yz + zx * zx)) / 6);
  if (p === 0) return [mean, mean, mean];
  const determinant = a * (b * c - yz * yz) - xy * (xy * c - yz * zx) + zx * (xy * yz - b * zx);
  const r = Math.min(1, Math.max(-1, determinant / (2 * p ** 3)));
  const angle = Math.acos(r) / 3;
  const most = mean + 2 * p * Math.cos(angle);
  const least = mean + 2 * p * Math.cos(angle + (2 * Math.PI) / 3);
  return [most, 3 * mean - most - least, least];
}

/** Edges sorted by their lower vertex, and what meets at each. */
function edgeCensus(mesh: Mesh): {
  /** Pairs of vertex numbers. */
  free: Uint32Array;
  overfull: number;
  turned: number;
} {
  const { starts, uppers } = edgesByLowerVertex(mesh);
  const free: number[] = [];
  let overfull = 0;
  let turned = 0;
  for (let lower = 0; lower + 1 < starts.length; lower++) {
    const end = starts[lower + 1]!;
    sortRange(uppers, starts[lower]!, end);
    for (let i = starts[lower]!; i < end;) {
      const upper = uppers[i]! >>> 1;
      let count = 0;
      let forward = 0;
      for (; i < end && uppers[i]! >>> 1 === upper; i++) {
        count++;
        forward += uppers[i]! & 1;
      }
      if (count === 1) free.push(lower, upper);
      else if (count > 2) overfull++;
      else if (forward !== 1) turned++;
    }
  }
  return { free: Uint32Array.from(free), overfull, turned };
}

/**
 * Counting sort of all edges: those whose lower vertex is v stand from `starts[v]` to `starts[v + 1]`.
 * An entry is the upper vertex, doubled; its last bit says that the face runs from lower to upper.
 */
function edgesByLowerVertex({ vertices, faces }: Mesh): {
  starts: Uint32Array;
  uppers: Uint32Array;
} {
  const vertexCount = vertices.length / 3;
  const starts = new Uint32Array(vertexCount + 1);
  // The edge from corner i to the next one of its face.
  const nextCorner = (i: number): number => (i % 3 === 2 ? i - 2 : i + 1);
  for (let i = 0; i < faces.length; i++) {
    const from = faces[i]!;
    const to = faces[nextCorner(i)]!;
    starts[(from < to ? from : to) + 1]!++;
  }
  for (let v = 0; v < vertexCount; v++) starts[v + 1]! += starts[v]!;
  const next = starts.slice();
  const uppers = new Uint32Array(faces.length);
  for (let i = 0; i < faces.length; i++) {
    const from = faces[i]!;
    const to = faces[nextCorner(i)]!;
    if (from < to) uppers[next[from]!++] = to * 2 + 1;
    else uppers[next[to]!++] = from * 2;
  }
  return { starts, uppers };
}

/** A range is mostly a handful of entries; the sort of the runtime costs more than it saves there. */
function sortRange(list: Uint32Array, from: number, to: number): void {
  if (to - from > 24) {
    list.subarray(from, to).sort();
    return;
  }
  for (let i = from + 1; i < to; i++) {
    const value = list[i]!;
    let j = i - 1;
    for (; j >= from && list[j]! > value; j--) list[j + 1] = list[j]!;
    list[j + 1] = value;
  }
}

/** Connected runs of free edges. */
function rimsOf(free: Uint32Array, vertices: Float32Array): Rim[] {
  const numbers = new Map<number, number>();
  const number = (vertex: number): number => {
    const known = numbers.get(vertex);
    if (known !== undefined) return known;
    numbers.set(vertex, numbers.size);
    return numbers.size - 1;
  };
  const ends = Uint32Array.from(free, number);
  const sets = new DisjointSets(numbers.size);
  for (let i = 0; i < ends.length; i += 2) sets.join(ends[i]!, ends[i + 1]!);
  const rims = new Map<number, { length: number; edges: number }>();
  for (let i = 0; i < free.length; i += 2) {
    const root = sets.find(ends[i]!);
    const rim = rims.get(root) ?? { length: 0, edges: 0 };
    rim.length += distance(vertices, free[i]!, free[i + 1]!);
    rim.edges++;
    rims.set(root, rim);
  }
  return [...rims.values()].sort((a, b) => b.length - a.length);
}

function distance(vertices: Float32Array, a: number, b: number): number {
  const [i, j] = [a * 3, b * 3];
  return Math.hypot(
    vertices[i]! - vertices[j]!,
    vertices[i + 1]! - vertices[j + 1]!,
    vertices[i + 2]! - vertices[j + 2]!,
  );
}

/** Pieces that share no vertex; vertices of collapsed faces alone do not count. */
function countPieces({ vertices, faces }: Mesh): number {
  const sets = new DisjointSets(vertices.length / 3);
  for (let i = 0; i < faces.length; i += 3) {
    sets.join(faces[i]!, faces[i + 1]!);
    sets.join(faces[i]!, faces[i + 2]!);
  }
  const used = new Uint8Array(vertices.length / 3);
  let pieces = 0;
  for (const vertex of faces) {
    const root = sets.find(vertex);
    if (used[root] === 0) {
      used[root] = 1;
      pieces++;
    }
  }
  return pieces;
}

/** Union by lower root, with path halving. */
class DisjointSets {
  readonly #parent: Uint32Array;

  constructor(size: number) {
    this.#parent = new Uint32Array(size);
    for (let i = 0; i < size; i++) this.#parent[i] = i;
  }

  find(item: number): number {
    const parent = this.#parent;
    let at = item;
    while (parent[at] !== at) {
      parent[at] = parent[parent[at]!]!;
      at = parent[at]!;
    }
    return at;
  }

  join(a: number, b: number): void {
    const [rootA, rootB] = [this.find(a), this.find(b)];
    if (rootA === rootB) return;
    this.#parent[Math.max(rootA, rootB)] = Math.min(rootA, rootB);
  }
}
