/**
 * Faces that bend inward, seams open by rounding and drawings far from zero, against sums made the plain
 * way and against @jscad/modeling 2.13.0 (MIT), an independent geometry library.
 */
import modeling from '@jscad/modeling';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { measureMesh, type MeshMeasure } from '../../app/part/mesh/measure.ts';
import { readMesh } from '../../app/part/mesh/read.ts';
import { meshRemarks } from '../../app/part/mesh/remarks.ts';
import { MeshFault } from '../../app/part/mesh/weld.ts';
import { binaryStl, bytesOf, type Triangle } from '../unit/part/mesh-files.ts';
import { forAll } from '../support/draws.ts';

type Point = readonly [number, number, number];

const { measurements, geometries } = modeling;

const obj = (points: readonly Point[], faces: readonly (readonly number[])[], digits = 9) =>
  bytesOf(
    [
      ...points.map((p) => `v ${p.map((v) => v.toFixed(digits)).join(' ')}`),
      ...faces.map((face) => `f ${face.map((i) => i + 1).join(' ')}`),
      '',
    ].join('\n'),
  );

function read(name: string, bytes: Uint8Array): MeshMeasure | string {
  try {
    return measureMesh(readMesh(name, bytes));
  } catch (error) {
    if (error instanceof MeshFault) return error.code;
    throw error;
  }
}

/** A corner at each of the angles, at its own distance: simple, and mostly bent inward. */
const star = fc
  .array(fc.double({ min: 0.1, max: 1, noNaN: true }), { minLength: 4, maxLength: 40 })
  .map((radii) =>
    radii.map((r, i): [number, number] => {
      const angle = (2 * Math.PI * i) / radii.length;
      return [1000 * r * Math.cos(angle), 1000 * r * Math.sin(angle)];
    }),
  );
const angle = fc.double({ min: 0, max: 6.28, noNaN: true });

/** Lays the plane into space: about z, then about x. */
const laid = (flat: readonly (readonly [number, number])[], a: number, b: number): Point[] =>
  flat.map(([x, y]) => {
    const [u, v] = [x * Math.cos(a) - y * Math.sin(a), x * Math.sin(a) + y * Math.cos(a)];
    return [u, v * Math.cos(b), v * Math.sin(b)];
  });

const outline = (flat: readonly (readonly [number, number])[]): number =>
  flat.reduce((sum, [x, y], i) => {
    const [u, v] = flat[(i + 1) % flat.length]!;
    return sum + Math.hypot(u - x, v - y);
  }, 0);

describe('a face of many corners', () => {
  it('has the area and the edge of its outline, bent inward or not, whatever corner it starts at', () => {
    let inward = 0;
    forAll(
      fc.property(star, angle, angle, fc.nat(), (flat, a, b, start) => {
        const order = flat.map((_, i) => (i + start) % flat.length);
        const measure = read('f.obj', obj(laid(flat, a, b), [order])) as MeshMeasure;
        const area = measurements.measureArea(
          geometries.geom2.fromPoints(flat.map(([x, y]) => [x, y])),
        );
        expect(measure.area / area).toBeCloseTo(1, 5);
        expect(measure.edge / outline(flat)).toBeCloseTo(1, 5);
        expect(measure).toMatchObject({
          faces: flat.length - 2,
          sound: true,
          pieces: 1,
          bentFaces: 0,
        });
        if (flat.some((_, i) => turns(flat, i) < 0)) inward++;
      }),
      { seed: 1, numRuns: 200 },
    );
    expect(inward).toBeGreaterThan(100);
  });

  it('may have corners on a straight edge', () => {
    const flat = [
      [0, 0],
      [1, 0],
      [2, 0],
      [3, 0],
      [3, 1],
      [2, 1],
      [2, 2],
      [2, 3],
      [0, 3],
      [0, 1.5],
    ] as const;
    for (let start = 0; start < flat.length; start++) {
      const order = flat.map((_, i) => (i + start) % flat.length);
      expect(read('f.obj', obj(laid(flat, 1, 2), [order]))).toMatchObject({
        area: expect.closeTo(7, 5) as number,
        edge: expect.closeTo(12, 5) as number,
        sound: true,
      });
    }
  });

  it('that crosses itself or doubles back is refused', () => {
    const bow = [
      [0, 0, 0],
      [2, 1, 0],
      [2, 0, 0],
      [0, 1.5, 0],
    ] as const;
    expect(read('f.obj', obj(bow, [[0, 1, 2, 3]]))).toBe('bad-face');
    const pentagram = [0, 2, 4, 1, 3].map((i): Point => {
      const turn = (2 * Math.PI * i) / 5;
      return [Math.cos(turn), Math.sin(turn), 0];
    });
    expect(read('f.obj', obj(pentagram, [[0, 1, 2, 3, 4]]))).toBe('bad-face');
    const line = [
      [0, 0, 0],
      [1, 0, 0],
      [2, 0, 0],
      [3, 0, 0],
    ] as const;
    expect(read('f.obj', obj(line, [[0, 1, 2, 3]]))).toBe('bad-face');
  });

  it('that does not lie flat is said', () => {
    const saddle = [
      [0, 0, 0.3],
      [1, 0, 0],
      [1, 1, 0.3],
      [0, 1, 0],
    ] as const;
    const measure = read('f.obj', obj(saddle, [[0, 1, 2, 3]])) as MeshMeasure;
    expect(measure.bentFaces).toBe(1);
    expect(meshRemarks(measure).join()).toMatch(/1 face of four or more corners does not lie flat/);
  });
});

function turns(flat: readonly (readonly [number, number])[], i: number): number {
  const n = flat.length;
  const [[ax, ay], [bx, by], [cx, cy]] = [flat[(i + n - 1) % n]!, flat[i]!, flat[(i + 1) % n]!];
  return (bx - ax) * (cy - by) - (by - ay) * (cx - bx);
}

/** A grid of triangles over a gentle dome, each with corners of its own. */
function dome(cells: number, side: number): Triangle[] {
  const at = (i: number, j: number): Point => {
    const [x, y] = [(side * i) / cells, (side * j) / cells];
    return [x, y, 0.2 * side * Math.sin((3 * i) / cells) * Math.sin((2 * j) / cells)];
  };
  const list: Triangle[] = [];
  for (let i = 0; i < cells; i++) {
    for (let j = 0; j < cells; j++) {
      list.push(
        [at(i, j), at(i + 1, j), at(i + 1, j + 1)],
        [at(i, j), at(i + 1, j + 1), at(i, j + 1)],
      );
    }
  }
  return list;
}

const loose = (triangles: readonly Triangle[], digits: number): Uint8Array =>
  obj(
    triangles.flat(),
    triangles.map((_, i) => [3 * i, 3 * i + 1, 3 * i + 2]),
    digits,
  );

describe('seams open by rounding', () => {
  it('are closed, and the edge is that of the sound surface', () => {
    let opened = 0;
    forAll(
      fc.property(
        fc.integer({ min: 2, max: 12 }),
        fc.integer({ min: 1, max: 1e6 }),
        (cells, seed) => {
          const sound = read('a.obj', loose(dome(cells, 1400), 9)) as MeshMeasure;
          let state = seed;
          const noise = (): number => {
            state = (Math.imul(state, 1_103_515_245) + 12_345) >>> 0;
            return (state / 2 ** 32 - 0.5) * 0.01;
          };
          const torn = dome(cells, 1400).map((t) =>
            t.map((p) => p.map((v) => v + noise())),
          ) as unknown as Triangle[];
          const measure = read('b.obj', loose(torn, 9)) as MeshMeasure;
          expect(measure).toMatchObject({ pieces: 1, sound: true, vertices: sound.vertices });
          expect(measure.rims).toHaveLength(1);
          expect(measure.edge / sound.edge).toBeCloseTo(1, 4);
          expect(measure.area / sound.area).toBeCloseTo(1, 4);
          if (measure.joinedCorners > 0) opened++;
        },
      ),
      { seed: 2, numRuns: 40 },
    );
    expect(opened).toBeGreaterThan(20);
  });

  it('stay open where they gape', () => {
    const [left, right] = [dome(4, 1400), dome(4, 1400)];
    const moved = right.map((t) => t.map(([x, y, z]) => [x + 1401, y, z])) as unknown as Triangle[];
    expect(read('a.obj', loose([...left, ...moved], 6))).toMatchObject({
      pieces: 2,
      joinedCorners: 0,
    });
  });
});

describe('a drawing kilometres from zero', () => {
  const away = (triangles: readonly Triangle[], by: Point): Triangle[] =>
    triangles.map((t) => t.map((p) => p.map((v, i) => v + by[i]!))) as unknown as Triangle[];
  const far = fc.double({ min: -1e7, max: 1e7, noNaN: true });

  it('measures as at zero when its file has the digits', () => {
    const home = read('a.obj', loose(dome(8, 1400), 4)) as MeshMeasure;
    forAll(
      fc.property(fc.tuple(far, far, far), (by) => {
        const measure = read('b.obj', loose(away(dome(8, 1400), by), 4)) as MeshMeasure;
        expect(measure.area / home.area).toBeCloseTo(1, 5);
        expect(measure.edge / home.edge).toBeCloseTo(1, 5);
        expect(measure).toMatchObject({ pieces: 1, sound: true, shape: home.shape });
      }),
      { seed: 3, numRuns: 50 },
    );
  });

  it('measures right to a tenth of a percent or is refused when it has not', () => {
    const home = read('a.stl', binaryStl(dome(8, 1400))) as MeshMeasure;
    const seen = { read: 0, refused: 0 };
    forAll(
      fc.property(
        fc.double({ min: 3, max: 10, noNaN: true }),
        fc.integer({ min: 0, max: 2 }),
        fc.boolean(),
        (power, axis, text) => {
          const by = [0, 0, 0].map((_, i) => (i === axis ? 10 ** power : 0)) as unknown as Point;
          const moved = away(dome(8, 1400), by);
          // Seven digits, as programs that hold 32-bit numbers write them.
          const bytes = text
            ? bytesOf(
                [
                  ...moved
                    .flat()
                    .map((p) => `v ${p.map((v) => Number(v.toPrecision(7))).join(' ')}`),
                  ...moved.map((_, i) => `f ${3 * i + 1} ${3 * i + 2} ${3 * i + 3}`),
                ].join('\n'),
              )
            : binaryStl(moved);
          const measure = read(text ? 'b.obj' : 'b.stl', bytes);
          if (typeof measure === 'string') {
            expect(['far-away', 'empty']).toContain(measure);
            seen.refused++;
            return;
          }
          expect(Math.abs(measure.area / home.area - 1)).toBeLessThan(0.001);
          expect(Math.abs(measure.edge / home.edge - 1)).toBeLessThan(0.001);
          seen.read++;
        },
      ),
      { seed: 4, numRuns: 150 },
    );
    expect(seen.read).toBeGreaterThan(20);
    expect(seen.refused).toBeGreaterThan(20);
  });
});
