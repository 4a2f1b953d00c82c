import { describe, expect, it } from 'vitest';
import { shapeReach, type Shape } from '../../../app/part/shapes.ts';

/** Surface and rim of a curve turned about an axis, by summing 20,000 rings. */
function turned(radius: (t: number) => number, height: (t: number) => number): number {
  const steps = 20_000;
  let area = 0;
  for (let i = 0; i < steps; i++) {
    const [a, b] = [i / steps, (i + 1) / steps];
    const slant = Math.hypot(radius(b) - radius(a), height(b) - height(a));
    area += Math.PI * (radius(a) + radius(b)) * slant;
  }
  return area;
}

describe('area and edge of simple shapes', () => {
  it('a girth of cloth', () => {
    expect(shapeReach({ kind: 'rectangle', lengthM: 2, girthM: 0.8 })).toEqual({
      areaM2: 1.6,
      edgeM: 5.6,
    });
    expect(shapeReach({ kind: 'triangle', baseM: 3, heightM: 2 })).toEqual({
      areaM2: 3,
      edgeM: 3 + 2 * 2.5,
    });
  });

  it('a dome, against rings summed over its sphere', () => {
    const [rim, rise] = [1.6, 0.4];
    // The sphere's radius from rim and rise.
    const radius = ((rim / 2) ** 2 + rise ** 2) / (2 * rise);
    const top = Math.asin(rim / 2 / radius);
    const area = turned(
      (t) => radius * Math.sin(t * top),
      (t) => radius * Math.cos(t * top),
    );
    const reach = shapeReach({ kind: 'dome', rimM: rim, riseM: rise })!;
    expect(reach.areaM2).toBeCloseTo(area, 6);
    expect(reach.edgeM).toBeCloseTo(Math.PI * rim, 9);
  });

  it('a cone and its stump, against rings', () => {
    for (const topM of [0, 0.3]) {
      const area = turned(
        (t) => 0.5 * (1 - t) + (topM / 2) * t,
        (t) => 0.7 * t,
      );
      const reach = shapeReach({ kind: 'cone', baseM: 1, topM, heightM: 0.7 })!;
      expect(reach.areaM2).toBeCloseTo(area, 9);
      expect(reach.edgeM).toBeCloseTo(Math.PI * (1 + topM), 9);
    }
  });

  it('part of a tube has four edges, a whole one two', () => {
    const tube = (arcDeg: number) =>
      shapeReach({ kind: 'cylinder', diameterM: 0.6, lengthM: 2, arcDeg })!;
    expect(tube(180).areaM2).toBeCloseTo(Math.PI * 0.3 * 2, 9);
    expect(tube(180).edgeM).toBeCloseTo(2 * Math.PI * 0.3 + 4, 9);
    expect(tube(360).edgeM).toBeCloseTo(2 * Math.PI * 0.6, 9);
  });

  it('an ellipse, its edge against a walk round it', () => {
    let walked = 0;
    const at = (i: number) => [
      Math.cos((2 * Math.PI * i) / 1e5),
      0.2 * Math.sin((2 * Math.PI * i) / 1e5),
    ];
    for (let i = 0; i < 1e5; i++) {
      const [[x1, y1], [x2, y2]] = [at(i), at(i + 1)] as [[number, number], [number, number]];
      walked += Math.hypot(x2 - x1, y2 - y1);
    }
    const reach = shapeReach({ kind: 'ellipse', lengthM: 2, widthM: 0.4 })!;
    expect(reach.areaM2).toBeCloseTo(Math.PI * 0.2, 9);
    expect(Math.abs(reach.edgeM / walked - 1)).toBeLessThan(5e-4);
    const round = shapeReach({ kind: 'ellipse', lengthM: 1, widthM: 1 })!;
    expect(round).toEqual(shapeReach({ kind: 'disc', diameterM: 1 }));
  });

  it('nothing comes of a measure that is not above zero', () => {
    const bad: Shape[] = [
      { kind: 'rectangle', lengthM: 0, girthM: 1 },
      { kind: 'disc', diameterM: -1 },
      { kind: 'dome', rimM: 1, riseM: Number.NaN },
      { kind: 'cone', baseM: 1, topM: -0.1, heightM: 1 },
      { kind: 'cylinder', diameterM: 1, lengthM: Infinity, arcDeg: 90 },
    ];
    for (const shape of bad) expect(shapeReach(shape)).toBeNull();
  });
});
