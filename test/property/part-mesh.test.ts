import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { measureMesh, type MeshMeasure } from '../../app/part/mesh/measure.ts';
import { meshReader, readMesh } from '../../app/part/mesh/read.ts';
import { MeshFault } from '../../app/part/mesh/weld.ts';
import {
  binaryStl,
  bytesOf,
  textStl,
  type Corner,
  type Triangle,
} from '../unit/part/mesh-files.ts';
import { forAll, tally } from '../support/draws.ts';

const coordinate = fc.integer({ min: -40, max: 40 });
const corner = fc.tuple(coordinate, coordinate, coordinate);
/** Corners in a small space meet often, those in a large one seldom. */
const near = fc.integer({ min: -1, max: 1 });
const nearCorner = fc.tuple(near, near, near);
const few = { minLength: 1, maxLength: 30 };
const soup = fc.oneof(
  fc.array(fc.tuple(corner, corner, corner), few),
  fc.array(fc.tuple(nearCorner, nearCorner, nearCorner), few),
);
/** Triangles of two corners only: no surface at all. */
const slivers = fc.array(
  fc.tuple(corner, corner).map(([a, b]): [Corner, Corner, Corner] => [a, b, a]),
  few,
);

function objOf(triangles: readonly Triangle[]): Uint8Array {
  const lines = triangles.flat().map((point) => `v ${point.join(' ')}`);
  const faces = triangles.map((_, i) => `f ${3 * i + 1} ${3 * i + 2} ${3 * i + 3}`);
  return bytesOf([...lines, ...faces, ''].join('\n'));
}

const FORMATS: readonly (readonly [string, (triangles: readonly Triangle[]) => Uint8Array])[] = [
  ['a.stl', binaryStl],
  ['b.stl', textStl],
  ['c.obj', objOf],
];

/** The measure, or null for a file that is refused; anything else that is thrown is a failure. */
function measured(name: string, bytes: Uint8Array): MeshMeasure | null {
  try {
    return measureMesh(readMesh(name, bytes));
  } catch (error) {
    if (error instanceof MeshFault) return null;
    throw error;
  }
}

/** The same census made the plain way: corners by their text, edges by a map. */
function plainCensus(triangles: readonly Triangle[]): object {
  const key = (point: Corner): string => point.join(',');
  const faces = triangles.filter((t) => new Set(t.map(key)).size === 3);
  const edges = new Map<string, number[]>();
  let area = 0;
  for (const [a, b, c] of faces) {
    for (const [from, to] of [
      [a, b],
      [b, c],
      [c, a],
    ] as const) {
      const forward = key(from) < key(to);
      const edge = forward ? `${key(from)} ${key(to)}` : `${key(to)} ${key(from)}`;
      edges.set(edge, [...(edges.get(edge) ?? []), forward ? 1 : -1]);
    }
    const u = [0, 1, 2].map((i) => b[i]! - a[i]!) as [number, number, number];
    const v = [0, 1, 2].map((i) => c[i]! - a[i]!) as [number, number, number];
    area +=
      Math.hypot(u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]) /
      2;
  }
  const uses = [...edges.entries()];
  const free = uses.filter(([, turns]) => turns.length === 1).map(([edge]) => edge);
  const length = (edge: string): number => {
    const [from, to] = edge.split(' ').map((p) => p.split(',').map(Number)) as [number[], number[]];
    return Math.hypot(from[0]! - to[0]!, from[1]! - to[1]!, from[2]! - to[2]!);
  };
  return {
    faces: faces.length,
    collapsedFaces: triangles.length - faces.length,
    vertices: new Set(triangles.flat().map(key)).size,
    area: expect.closeTo(area, 3),
    edge: expect.closeTo(
      free.reduce((sum, edge) => sum + length(edge), 0),
      3,
    ),
    overfullEdges: uses.filter(([, turns]) => turns.length > 2).length,
    turnedEdges: uses.filter(([, turns]) => turns.length === 2 && turns[0] === turns[1]).length,
    closed: free.length === 0,
  };
}

describe('any soup of triangles', () => {
  it('is counted as a plain count by maps does, in every format', () => {
    const seen = tally('measured', 'collapsed face', 'edge of two faces', 'refused');
    forAll(
      fc.property(fc.oneof({ arbitrary: soup, weight: 9 }, slivers), (triangles) => {
        for (const [name, write] of FORMATS) {
          const measure = measured(name, write(triangles));
          seen.saw(measure ? 'measured' : 'refused');
          if (measure && measure.collapsedFaces > 0) seen.saw('collapsed face');
          if (measure && triangles.length > 1 && measure.vertices < 3 * measure.faces) {
            seen.saw('edge of two faces');
          }
          if (measure) expect(measure).toMatchObject(plainCensus(triangles));
          else expect(triangles.every((t) => new Set(t.map(String)).size < 3)).toBe(true);
        }
      }),
      { seed: 1, seen, numRuns: 150 },
    );
  });

  it('moved or turned about keeps its area, edge and shape', () => {
    const seen = tally('measured');
    forAll(
      fc.property(soup, coordinate, (triangles, by) => {
        const before = measured('a.stl', binaryStl(triangles));
        const turned = triangles.map((t) =>
          t.map(([x, y, z]) => [y + by, z - by, x + 2 * by]),
        ) as unknown as Triangle[];
        const after = measured('a.stl', binaryStl(turned));
        if (!before || !after) return;
        seen.saw('measured');
        expect(after.area).toBeCloseTo(before.area, 3);
        expect(after.edge).toBeCloseTo(before.edge, 3);
        expect(after.pieces).toBe(before.pieces);
      }),
      { seed: 2, seen },
    );
  });
});

describe('a damaged file', () => {
  const damage = fc.record({
    format: fc.constantFrom(...FORMATS),
    triangles: soup,
    at: fc.double({ min: 0, max: 1, noNaN: true }),
    bytes: fc.uint8Array({ minLength: 1, maxLength: 8 }),
    cut: fc.double({ min: 0, max: 1, noNaN: true }),
  });

  it('is refused in words or measured in numbers, never anything else', () => {
    const seen = tally('measured', 'refused');
    forAll(
      fc.property(damage, ({ format: [name, write], triangles, at, bytes, cut }) => {
        const file = write(triangles);
        const struck = file.slice();
        struck.set(
          bytes.subarray(0, struck.length),
          Math.floor(at * (struck.length - bytes.length)),
        );
        for (const broken of [struck, file.slice(0, Math.floor(cut * file.length))]) {
          const measure = measured(name, broken);
          seen.saw(measure ? 'measured' : 'refused');
          if (!measure) continue;
          // A hit on an exponent may make a coordinate of any finite size.
          expect(Number.isNaN(measure.area)).toBe(false);
          expect(measure.area).toBeGreaterThanOrEqual(0);
          expect(measure.vertices).toBeGreaterThan(2);
        }
      }),
      { seed: 3, seen, numRuns: 400 },
    );
  });

  it('of random bytes is refused, whole or in pieces', () => {
    const seen = tally('whole', 'in pieces');
    forAll(
      fc.property(
        fc.uint8Array({ maxLength: 3000 }),
        fc.constantFrom('x.stl', 'x.obj', 'x'),
        fc.integer({ min: 1, max: 700 }),
        (bytes, name, size) => {
          seen.saw(bytes.length > size ? 'in pieces' : 'whole');
          const read = (): unknown => {
            const reader = meshReader(name, bytes.length);
            for (let at = 0; at < bytes.length; at += size) {
              reader.push(bytes.subarray(at, at + size));
            }
            return reader.finish();
          };
          expect(read).toThrow(MeshFault);
        },
      ),
      { seed: 4, seen, numRuns: 300 },
    );
  });
});
