/**
 * Meshes against closed forms of elementary geometry and against an independent geometry library,
 * @jscad/modeling 2.13.0 with its STL and OBJ writers (MIT): its shapes, its files, its measures.
 */
import modeling from '@jscad/modeling';
import objSerializer from '@jscad/obj-serializer';
import stlSerializer from '@jscad/stl-serializer';
import { describe, expect, it } from 'vitest';
import { measureMesh, type MeshMeasure } from '../../app/part/mesh/measure.ts';
import { readMesh } from '../../app/part/mesh/read.ts';
import { binaryStl, textStl, type Triangle } from '../unit/part/mesh-files.ts';

const { primitives, booleans, transforms, measurements } = modeling;

const measured = (triangles: readonly Triangle[]): MeshMeasure =>
  measureMesh(readMesh('shape.stl', binaryStl(triangles)));

/** Cone on a regular polygon, apex at height h; with or without its floor. */
function cone(sides: number, radius: number, height: number, floor: boolean): Triangle[] {
  const rim = (i: number): [number, number, number] => {
    const angle = (2 * Math.PI * (i % sides)) / sides;
    return [radius * Math.cos(angle), radius * Math.sin(angle), 0];
  };
  const list: Triangle[] = [];
  for (let i = 0; i < sides; i++) {
    list.push([rim(i), rim(i + 1), [0, 0, height]]);
    if (floor) list.push([rim(i + 1), rim(i), [0, 0, 0]]);
  }
  return list;
}

describe('closed forms', () => {
  it('a box', () => {
    const [a, b, c] = [300, 400, 500];
    const box = primitives.cuboid({ size: [a, b, c] });
    const [bytes] = stlSerializer.serialize({ binary: false }, box);
    const mesh = measureMesh(readMesh('box.stl', new TextEncoder().encode(bytes as string)));
    expect(mesh.area).toBeCloseTo(2 * (a * b + b * c + c * a), 3);
    expect(mesh.volume).toBeCloseTo(a * b * c, 0);
    expect(mesh.closed && mesh.sound).toBe(true);
    expect([mesh.vertices, mesh.faces, mesh.pieces]).toEqual([8, 12, 1]);
  });

  it('an open cone on a polygon: area n s r sin(pi/n), one rim 2 n r sin(pi/n)', () => {
    const [n, r, h] = [180, 500, 900];
    const half = Math.sin(Math.PI / n);
    const slant = Math.hypot(h, r * Math.cos(Math.PI / n));
    const mesh = measured(cone(n, r, h, false));
    expect(mesh.area / (n * r * half * slant)).toBeCloseTo(1, 6);
    expect(mesh.edge / (2 * n * r * half)).toBeCloseTo(1, 6);
    expect(mesh.rims).toHaveLength(1);
    expect(mesh.volume).toBeNull();
    // And the round cone to the polygon's error: pi r sqrt(r2 + h2).
    expect(mesh.area / (Math.PI * r * Math.hypot(r, h))).toBeCloseTo(1, 3);
  });

  it('a closed cone: a third of floor times height', () => {
    const [n, r, h] = [60, 200, 330];
    const floor = (n / 2) * r * r * Math.sin((2 * Math.PI) / n);
    expect(measured(cone(n, r, h, true)).volume! / ((floor * h) / 3)).toBeCloseTo(1, 6);
  });

  it('spheres close on 4 pi r2 and 4/3 pi r3 with the square of the step', () => {
    const off = (segments: number): number[] => {
      const sphere = primitives.sphere({ radius: 500, segments });
      const all = joined(stlSerializer.serialize({ binary: true }, sphere));
      const mesh = measureMesh(readMesh('sphere.stl', all));
      expect(mesh.closed && mesh.sound).toBe(true);
      return [
        1 - mesh.area / (4 * Math.PI * 500 ** 2),
        1 - mesh.volume! / ((4 / 3) * Math.PI * 500 ** 3),
      ];
    };
    const [coarse, fine] = [off(32), off(64)];
    for (const i of [0, 1]) {
      expect(fine[i]).toBeLessThan(0.005);
      expect(coarse[i]! / fine[i]!).toBeGreaterThan(3.8);
      expect(coarse[i]! / fine[i]!).toBeLessThan(4.2);
    }
  });
});

/** The pieces of one file. */
function joined(parts: readonly (string | ArrayBuffer)[]): Uint8Array {
  const bytes = parts.map((part) =>
    typeof part === 'string' ? new TextEncoder().encode(part) : new Uint8Array(part),
  );
  const all = new Uint8Array(bytes.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of bytes) {
    all.set(part, at);
    at += part.length;
  }
  return all;
}

describe('@jscad/modeling', () => {
  const shapes = {
    torus: primitives.torus({
      innerRadius: 60,
      outerRadius: 200,
      innerSegments: 40,
      outerSegments: 60,
    }),
    'rounded box': primitives.roundedCuboid({
      size: [300, 200, 100],
      roundRadius: 20,
      segments: 24,
    }),
    'two spheres apart': booleans.union(
      primitives.sphere({ radius: 100, segments: 24 }),
      transforms.translate([500, 0, 0], primitives.sphere({ radius: 50, segments: 24 })),
    ),
    'stump of a cone': primitives.cylinderElliptic({
      height: 400,
      startRadius: [200, 150],
      endRadius: [80, 60],
      segments: 48,
    }),
  };

  it.each(Object.entries(shapes))('%s: area, volume and bounds from its own files', (_, shape) => {
    const area = measurements.measureArea(shape);
    const volume = measurements.measureVolume(shape);
    const [low, high] = measurements.measureBoundingBox(shape);
    const files: [string, Uint8Array][] = [
      ['binary.stl', joined(stlSerializer.serialize({ binary: true }, shape))],
      ['text.stl', joined(stlSerializer.serialize({ binary: false }, shape))],
      ['shape.obj', joined(objSerializer.serialize({}, shape))],
    ];
    for (const [name, bytes] of files) {
      const mesh = measureMesh(readMesh(name, bytes));
      // Its writers snap corners to a grid of 1e-5 of the size.
      expect(Math.abs(mesh.area / area - 1), name).toBeLessThan(5e-5);
      expect(Math.abs(mesh.volume! / volume - 1), name).toBeLessThan(5e-5);
      for (const axis of [0, 1, 2] as const) {
        expect(mesh.min[axis], name).toBeCloseTo(low[axis], 1);
        expect(mesh.max[axis], name).toBeCloseTo(high[axis], 1);
      }
    }
  });

  it('counts the two spheres as two pieces', () => {
    const bytes = joined(stlSerializer.serialize({ binary: true }, shapes['two spheres apart']));
    expect(measureMesh(readMesh('two.stl', bytes)).pieces).toBe(2);
  });
});

describe('one surface in three formats', () => {
  it('measures the same', () => {
    const triangles = cone(90, 700, 400, false);
    const binary = measureMesh(readMesh('a.stl', binaryStl(triangles)));
    const text = measureMesh(readMesh('a.stl', textStl(triangles)));
    expect(text).toEqual(binary);
  });
});
