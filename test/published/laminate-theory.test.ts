/**
 * Laminate theory held to closed forms: the sandwich beam of H. G. Allen, Analysis and Design of
 * Structural Sandwich Panels (1969), eq. 2.3, and sheets of one material.
 */
import { describe, expect, it } from 'vitest';
import { laminateStiffness, type Lamina } from '../../app/part/stiffness.ts';

/** A sandwich beam with like faces. N, mm, MPa. */
const glass = {
  faceMPa: 20_000,
  faceMm: 1,
  coreMm: 20,
  coreMPa: 70,
  widthMm: 50,
};
/** Flexural rigidity with the faces' and the core's own bending, N mm2 (Allen, eq. 2.3). */
function rigidityNmm2({
  faceMPa,
  faceMm: t,
  coreMm: c,
  coreMPa,
  widthMm: b,
}: typeof glass): number {
  const d = c + t;
  return (faceMPa * b * t ** 3) / 6 + (faceMPa * b * t * d * d) / 2 + (coreMPa * b * c ** 3) / 12;
}

describe('laminate theory (R. M. Jones, 2nd ed.; from memory)', () => {
  const isotropic = (thicknessMm: number, eMPa: number, nu: number, angleDeg = 0): Lamina => ({
    thicknessMm,
    angleDeg,
    e1MPa: eMPa,
    e2MPa: eMPa,
    g12MPa: eMPa / (2 * (1 + nu)),
    nu12: nu,
  });

  it('gives the plate rigidity of one isotropic sheet at any angle', () => {
    const d = (210_000 * 1000) / (12 * (1 - 0.09));
    for (const angle of [0, 30, 45, -70]) {
      const { d: bending } = laminateStiffness([isotropic(10, 210_000, 0.3, angle)]);
      expect(bending.xx / d).toBeCloseTo(1, 9);
      expect(bending.yy / d).toBeCloseTo(1, 9);
      expect(bending.xs / d).toBeCloseTo(0, 9);
    }
  });

  it('gives the beam rigidity for faces and core without Poisson effect', () => {
    const { faceMPa, faceMm, coreMm, coreMPa, widthMm } = glass;
    const face = isotropic(faceMm, faceMPa, 0);
    const { d, b } = laminateStiffness([face, isotropic(coreMm, coreMPa, 0), face]);
    expect((d.xx * widthMm) / rigidityNmm2(glass)).toBeCloseTo(1, 9);
    expect(b.xx).toBeCloseTo(0, 6);
  });

  it('condenses coupling to the true rigidity of uneven faces about their own neutral plane', () => {
    // Two sheets of 1 and 3 mm, one material, nu 0: together a 4 mm sheet, wherever the cut is drawn.
    const { reducedD } = laminateStiffness([isotropic(1, 1000, 0), isotropic(3, 1000, 0)]);
    expect(reducedD.xx).toBeCloseTo((1000 * 64) / 12, 6);
    // Faces 1 and 2 mm on a core of no stiffness: E t1 t2 d2 / (t1 + t2) + own bending.
    const [t1, t2, c] = [1, 2, 10];
    const d = c + (t1 + t2) / 2;
    const expected = 1000 * ((t1 * t2 * d * d) / (t1 + t2) + (t1 ** 3 + t2 ** 3) / 12);
    const uneven = laminateStiffness([
      isotropic(t1, 1000, 0),
      isotropic(c, 1e-9, 0),
      isotropic(t2, 1000, 0),
    ]);
    expect(uneven.reducedD.xx / expected).toBeCloseTo(1, 6);
  });

  it('is the same in every direction for 0, 60, -60 (quasi-isotropic)', () => {
    const ply = (angleDeg: number): Lamina => ({
      thicknessMm: 0.2,
      angleDeg,
      e1MPa: 140_000,
      e2MPa: 9000,
      g12MPa: 5000,
      nu12: 0.3,
    });
    const { a } = laminateStiffness([0, 60, -60].map(ply));
    expect(a.xx / a.yy).toBeCloseTo(1, 9);
    expect(a.ss).toBeCloseTo((a.xx - a.xy) / 2, 6);
    expect(a.xs).toBeCloseTo(0, 6);
  });
});
