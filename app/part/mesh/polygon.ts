/**
 * Cuts a face of more than three corners into triangles, bent inward or not: ears are cut off one by one
 * (G. H. Meisters, Amer. Math. Monthly 82 (1975) 648) on the plane of the face's area vector (Newell).
 */

/** A face as triangles by the numbers of its corners, and how far it is from flat. */
export interface CutFace {
  /** Three corner numbers of each triangle, turning as the face does. */
  readonly triangles: readonly number[];
  /** Greatest distance of a corner from the face's plane, as a share of its longest side or diagonal. */
  readonly bend: number;
}

/** More corners than this take too long to cut. */
export const MOST_CORNERS = 2000;

/** A cross product below this share of the face's size squared is a straight run of corners. */
const STRAIGHT = 1e-9;

interface Flat {
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** Twice an area below this is none. */
  readonly none: number;
  /** True when two corner numbers are one point of the surface. */
  same(a: number, b: number): boolean;
}

/**
 * Triangles of a polygon given by x, y, z of each corner.
 * @param points 3 n coordinates
 * @param vertices number of the vertex at each corner: a face may come back to one
 * @returns null when the face crosses itself or has no area
 */
export function cutFace(points: Float64Array, vertices: readonly number[]): CutFace | null {
  const count = vertices.length;
  const { flat, bend } = flatten(points, vertices);
  if (!flat) return null;
  const left = Array.from({ length: count }, (_, i) => i);
  const triangles: number[] = [];
  const inward = left.filter((i) => turn(flat, before(left, i), i, after(left, i)) < -flat.none);
  if (inward.length === 0 && turnsOnce(flat, left)) {
    for (let i = 2; i < count; i++) triangles.push(0, i - 1, i);
    return { triangles, bend };
  }
  let place = 0;
  let tried = 0;
  while (left.length > 3) {
    const at = place % left.length;
    const [a, b, c] = [before(left, at), left[at]!, after(left, at)];
    if (isEar(flat, a, b, c, inward)) {
      triangles.push(a, b, c);
      left.splice(at, 1);
      tried = 0;
      // The corner before may now be an ear of its own; the next one is looked at first, which keeps
      // triangles from growing long.
      place = at;
    } else if (++tried > left.length) return null;
    else place = at + 1;
  }
  const [a, b, c] = left as [number, number, number];
  if (turn(flat, a, b, c) < -flat.none) return null;
  triangles.push(a, b, c);
  return { triangles, bend };
}

const before = (list: readonly number[], at: number): number =>
  list[(at + list.length - 1) % list.length]!;
const after = (list: readonly number[], at: number): number => list[(at + 1) % list.length]!;

/** Twice the signed area of a triangle on the plane. */
const turn = ({ x, y }: Flat, a: number, b: number, c: number): number =>
  (x[b]! - x[a]!) * (y[c]! - y[a]!) - (y[b]! - y[a]!) * (x[c]! - x[a]!);

/** An ear turns outward or lies straight, and no inward corner is inside it. */
function isEar(flat: Flat, a: number, b: number, c: number, inward: readonly number[]): boolean {
  const area = turn(flat, a, b, c);
  if (area < -flat.none) return false;
  if (area <= flat.none) return isBetween(flat, a, b, c);
  return inward.every((i) => {
    if (i === a || i === b || i === c) return true;
    if (flat.same(i, a) || flat.same(i, b) || flat.same(i, c)) return true;
    return (
      turn(flat, a, b, i) < -flat.none ||
      turn(flat, b, c, i) < -flat.none ||
      turn(flat, c, a, i) < -flat.none
    );
  });
}

/** A corner on a straight run lies between its neighbours; one that doubles back does not. */
function isBetween({ x, y }: Flat, a: number, b: number, c: number): boolean {
  const along = (x[b]! - x[a]!) * (x[c]! - x[b]!) + (y[b]! - y[a]!) * (y[c]! - y[b]!);
  return along >= 0;
}

/** A star of five points turns outward at every corner and goes round twice: it crosses itself. */
function turnsOnce({ x, y }: Flat, left: readonly number[]): boolean {
  const heading = (i: number): number => {
    const j = after(left, i);
    return Math.atan2(y[j]! - y[i]!, x[j]! - x[i]!);
  };
  let whole = 0;
  for (const i of left) {
    let step = heading(after(left, i)) - heading(i);
    while (step < -Math.PI) step += 2 * Math.PI;
    while (step > Math.PI) step -= 2 * Math.PI;
    whole += step;
  }
  return Math.abs(whole - 2 * Math.PI) < 0.01;
}

/** The face on its own plane, seen so that it turns to the left. */
function flatten(
  points: Float64Array,
  vertices: readonly number[],
): { flat: Flat | null; bend: number } {
  const count = vertices.length;
  const [ox, oy, oz] = [points[0]!, points[1]!, points[2]!];
  let [nx, ny, nz, size] = [0, 0, 0, 0];
  for (let i = 0; i < count; i++) {
    const j = ((i + 1) % count) * 3;
    const [ax, ay, az] = [points[i * 3]! - ox, points[i * 3 + 1]! - oy, points[i * 3 + 2]! - oz];
    const [bx, by, bz] = [points[j]! - ox, points[j + 1]! - oy, points[j + 2]! - oz];
    nx += ay * bz - az * by;
    ny += az * bx - ax * bz;
    nz += ax * by - ay * bx;
    size = Math.max(size, Math.hypot(ax, ay, az));
  }
  const normal = Math.hypot(nx, ny, nz);
  const none = STRAIGHT * size * size;
  if (!(normal > none)) return { flat: null, bend: 0 };
  const [ux, uy, uz] = [nx / normal, ny / normal, nz / normal];
  // A direction across the normal, made from the axis that is farthest from it.
  const least = Math.min(Math.abs(ux), Math.abs(uy), Math.abs(uz));
  const axis = Math.abs(ux) === least ? [1, 0, 0] : Math.abs(uy) === least ? [0, 1, 0] : [0, 0, 1];
  const [px, py, pz] = [
    uy * axis[2]! - uz * axis[1]!,
    uz * axis[0]! - ux * axis[2]!,
    ux * axis[1]! - uy * axis[0]!,
  ];
  const across = Math.hypot(px, py, pz);
  const x = new Float64Array(count);
  const y = new Float64Array(count);
  let [lowest, highest] = [Infinity, -Infinity];
  for (let i = 0; i < count; i++) {
    const [ax, ay, az] = [points[i * 3]! - ox, points[i * 3 + 1]! - oy, points[i * 3 + 2]! - oz];
    x[i] = (ax * px + ay * py + az * pz) / across;
    y[i] =
      (ax * (uy * pz - uz * py) + ay * (uz * px - ux * pz) + az * (ux * py - uy * px)) / across;
    const height = ax * ux + ay * uy + az * uz;
    lowest = Math.min(lowest, height);
    highest = Math.max(highest, height);
  }
  const same = (a: number, b: number): boolean => vertices[a] === vertices[b];
  return { flat: { x, y, none, same }, bend: (highest - lowest) / (2 * size) };
}
