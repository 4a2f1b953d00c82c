/**
 * Sandwich beams. Forms of H. G. Allen (1969) and D. Zenkert (1995), beam formulas of ASTM D7250 and
 * C393 (the shear stiffness and thin-face form seen printed, the others from memory). No worked example
 * with numbers is known in print: the numbers are worked by hand from the formulas (computed), and the
 * identities between the sources are checked.
 */
import { describe, expect, it } from 'vitest';
import {
  beamDeflectionMm,
  coreShearMPa,
  faceRigidityNmm2,
  faceStressMPa,
  rigidityNmm2,
  shearStiffnessN,
  type SandwichBeam,
} from '../../app/part/sandwich.ts';
import { laminateStiffness, type Lamina } from '../../app/part/stiffness.ts';

const glass: SandwichBeam = {
  faceMPa: 20_000,
  faceMm: 1,
  coreMm: 20,
  coreMPa: 70,
  coreShearMPa: 25,
  widthMm: 50,
};
const carbon: SandwichBeam = {
  faceMPa: 60_000,
  faceMm: 0.5,
  coreMm: 10,
  coreMPa: 90,
  coreShearMPa: 31,
  widthMm: 30,
};

describe('rigidity and three-point bending (computed)', () => {
  it.each([
    ['glass', glass, 2.23e8, 2.20667e8, 27_562.5, 500, 400, 3.02115, 1.81406],
    ['carbon', carbon, 4.9875e7, 4.965e7, 10_253.25, 100, 300, 1.13293, 0.73148],
  ] as const)('%s', (_, beam, allen, d7250, shear, loadN, spanMm, bendingMm, shearMm) => {
    expect(rigidityNmm2(beam) / allen).toBeCloseTo(1, 4);
    expect(faceRigidityNmm2(beam) / d7250).toBeCloseTo(1, 4);
    expect(shearStiffnessN(beam)).toBeCloseTo(shear, 2);
    const bent = beamDeflectionMm(d7250, shear, loadN, spanMm, 'centre');
    expect(bent.bendingMm).toBeCloseTo(bendingMm, 4);
    expect(bent.shearMm).toBeCloseTo(shearMm, 4);
    expect(bent.totalMm).toBeCloseTo(bendingMm + shearMm, 4);
  });

  it('four-point bending of the glass beam', () => {
    const total = (load: 'quarter-points' | 'third-points'): number =>
      beamDeflectionMm(2.2066667e8, 27_562.5, 500, 400, load).totalMm;
    expect(total('quarter-points')).toBeCloseTo(2.98407, 4);
    expect(total('third-points')).toBeCloseTo(3.78294, 4);
  });

  it('core shear and face stress (C393)', () => {
    expect(coreShearMPa(glass, 500)).toBeCloseTo(0.2381, 4);
    expect(coreShearMPa(carbon, 100)).toBeCloseTo(0.15873, 5);
    // Statics gives the same: moment P S / 4 over b t d, d = (h + c) / 2.
    expect(faceStressMPa(glass, 500, 400)).toBeCloseTo((500 * 400) / 4 / (50 * 1 * 21), 9);
    expect(faceStressMPa(glass, 500, 400)).toBeCloseTo(47.619, 3);
    expect(faceStressMPa(carbon, 100, 300)).toBeCloseTo(47.619, 3);
  });

  it('D7250 and Allen name the same shear stiffness: (h + c)2 / 4 = d2', () => {
    const { coreMm: c, faceMm: t, coreShearMPa: g, widthMm: b } = glass;
    const d7250 = (g * (2 * c + 2 * t) ** 2 * b) / (4 * c);
    expect(shearStiffnessN(glass)).toBeCloseTo(d7250, 9);
  });
});

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
