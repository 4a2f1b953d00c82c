/** Area and free edge of simple shapes, for people who have a tape measure and no drawing. Metres. */

export type Shape =
  | { readonly kind: 'rectangle'; readonly lengthM: number; readonly girthM: number }
  | { readonly kind: 'triangle'; readonly baseM: number; readonly heightM: number }
  | { readonly kind: 'disc'; readonly diameterM: number }
  | { readonly kind: 'ellipse'; readonly lengthM: number; readonly widthM: number }
  /** A tube or part of one: `arcDeg` 360 is closed along its length. */
  | {
      readonly kind: 'cylinder';
      readonly diameterM: number;
      readonly lengthM: number;
      readonly arcDeg: number;
    }
  /** A cone or its stump, open at both ends; `topM` 0 is a full cone. */
  | {
      readonly kind: 'cone';
      readonly baseM: number;
      readonly topM: number;
      readonly heightM: number;
    }
  /** Cap of a sphere by its rim and rise. */
  | { readonly kind: 'dome'; readonly rimM: number; readonly riseM: number };

/**
 * Area, m2, and free edge, m, of a shape; null when a measure is not above zero or they contradict each
 * other. Elementary geometry; the ellipse's edge by Ramanujan's second formula (1914), error below
 * 0.05 % down to a tenth of the length.
 */
export function shapeReach(shape: Shape): { areaM2: number; edgeM: number } | null {
  const reach = measured(shape);
  return reach.areaM2 > 0 && Number.isFinite(reach.areaM2) && reach.edgeM >= 0 ? reach : null;
}

function measured(shape: Shape): { areaM2: number; edgeM: number } {
  switch (shape.kind) {
    case 'rectangle':
      return positive([shape.lengthM, shape.girthM], (l, g) => [l * g, 2 * (l + g)]);
    case 'triangle':
      // Edge of the isosceles one; a tape measure is seldom more exact.
      return positive([shape.baseM, shape.heightM], (b, h) => [
        (b * h) / 2,
        b + 2 * Math.hypot(b / 2, h),
      ]);
    case 'disc':
      return positive([shape.diameterM], (d) => [(Math.PI * d * d) / 4, Math.PI * d]);
    case 'ellipse':
      return positive([shape.lengthM, shape.widthM], (l, w) => [
        (Math.PI * l * w) / 4,
        ellipseEdge(l / 2, w / 2),
      ]);
    case 'cylinder':
      return positive([shape.diameterM, shape.lengthM, shape.arcDeg], (d, l, arc) => {
        const girth = (Math.PI * d * Math.min(arc, 360)) / 360;
        return [girth * l, 2 * girth + (arc >= 360 ? 0 : 2 * l)];
      });
    case 'cone':
      return positive([shape.baseM, shape.heightM], (base, height) => {
        const slant = Math.hypot(height, (base - shape.topM) / 2);
        return shape.topM < 0
          ? [NaN, NaN]
          : [(Math.PI * (base + shape.topM) * slant) / 2, Math.PI * (base + shape.topM)];
      });
    case 'dome':
      return positive([shape.rimM, shape.riseM], (rim, rise) => [
        Math.PI * ((rim / 2) ** 2 + rise * rise),
        Math.PI * rim,
      ]);
  }
}

function positive(
  measures: readonly number[],
  reach: (a: number, b: number, c: number) => readonly [number, number],
): { areaM2: number; edgeM: number } {
  if (measures.some((m) => !(m > 0) || !Number.isFinite(m))) return { areaM2: NaN, edgeM: NaN };
  const [areaM2, edgeM] = reach(measures[0]!, measures[1] ?? 0, measures[2] ?? 0);
  return { areaM2, edgeM };
}

function ellipseEdge(a: number, b: number): number {
  const h = ((a - b) / (a + b)) ** 2;
  return Math.PI * (a + b) * (1 + (3 * h) / (10 + Math.sqrt(4 - 3 * h)));
}
