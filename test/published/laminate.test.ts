/**
 * Laminate arithmetic. Formulas as in ASTM D3171, methods I and II (equations from memory); the numbers
 * are worked from them by hand (computed), densities from printed tables: E-glass 2.54 (Jang 1994),
 * carbon 1.80 (Gibson 1994), aramid 1.45 (Gibson, Hyer). The one printed check is MIL-HDBK-17-2F.
 */
import { describe, expect, it } from 'vitest';
import type { ClothRow } from '../../app/document/schema.ts';
import {
  laminateDensityKgM3,
  plyResinGM2,
  plyThicknessMm,
  voidFraction,
  volumeFractionFromThickness,
} from '../../app/part/laminate.ts';
import { readTestPanel } from '../../app/part/test-panel.ts';

describe('density of a laminate without voids (computed)', () => {
  it.each([
    [0.3, 2540, 1602],
    [0.4, 2540, 1736],
    [0.5, 2540, 1870],
    [0.6, 2540, 2004],
    [0.6, 1800, 1560],
    [0.5, 1450, 1325],
  ])('volume %f of %f kg/m3 fibre is %f kg/m3', (volume, fibre, density) => {
    expect(laminateDensityKgM3(volume, fibre, 1200)).toBeCloseTo(density, 6);
  });
});

describe('cured ply (computed)', () => {
  it.each([
    [200, 1800, 0.5, 0.22222, 133.33],
    [300, 2540, 0.45, 0.26247, 173.23],
    [203.4345, 2540, 0.4, 0.20023, 144.16],
    [170, 1450, 0.45, 0.26054, 171.95],
  ])('%f g/m2 of %f kg/m3 at %f', (areal, fibre, fraction, thicknessMm, resinGM2) => {
    expect(plyThicknessMm(areal, fibre, fraction)).toBeCloseTo(thicknessMm, 4);
    expect(plyResinGM2(areal, fibre, fraction, 1200)).toBeCloseTo(resinGM2, 1);
  });

  it('reads the fraction back off a caliper (D3171 method II)', () => {
    expect(volumeFractionFromThickness(200, 8, 1800, 1.76)).toBeCloseTo(0.50505, 5);
  });

  it('shows a burn-off whose densities contradict each other as voids below zero', () => {
    expect(voidFraction(0.7, 1950, 2540, 1200)).toBeCloseTo(-0.0249, 4);
  });
});

describe('a test panel', () => {
  const glass: ClothRow = {
    id: 'glass',
    revision: 1,
    name: 'Glass',
    provenance: { kind: 'demo', source: 'test' },
    fibre: 'glass',
    weave: 'twill',
    arealGM2: 300,
    fibreDensityKgM3: 2540,
    fibreFraction: 0.45,
    e1GPa: null,
    e2GPa: null,
    g12GPa: null,
    nu12: null,
    rollWidthMm: 1000,
    priceMinor: 0,
    leadDays: 0,
    supplier: null,
  };
  // Four plies at 40 %: 1.1811 mm, 2050 g/m2 without voids.
  const thicknessMm = (4 * 300) / (2540 * 0.4);
  const massGM2 = 1200 + thicknessMm * 0.6 * 1200;

  it('gives back the fraction it was made with, and a cloth that carries it', () => {
    const reading = readTestPanel({ plies: 4, thicknessMm, massGM2 }, glass, 1200);
    expect(reading.fibreFraction).toBeCloseTo(0.4, 9);
    expect(reading.voids).toBeCloseTo(0, 9);
    expect(reading.densityKgM3).toBeCloseTo(reading.soundDensityKgM3, 6);
    expect(reading.remarks).toEqual([]);
    expect(reading.cloth).toMatchObject({ revision: 2, provenance: { kind: 'measured' } });
  });

  it('finds voids by the weight that is missing', () => {
    const airy = readTestPanel(
      { plies: 4, thicknessMm, massGM2: massGM2 - thicknessMm * 96 },
      glass,
      1200,
    );
    expect(airy.voids).toBeCloseTo(0.08, 9);
    expect(airy.remarks[0]).toMatch(/8 % voids/);
  });

  it('does not trust a panel that is heavier than it can be (computed: voids -2.49 %)', () => {
    // Wr 70 %, 1.95 g/cm3: one ply of 700 g/m2 in 1000 g/m2.
    const cloth = { ...glass, arealGM2: 700 };
    const trap = readTestPanel({ plies: 1, thicknessMm: 1000 / 1950, massGM2: 1000 }, cloth, 1200);
    expect(trap.voids).toBeCloseTo(-0.0249, 4);
    expect(trap.cloth).toBeNull();
    expect(trap.remarks[0]).toMatch(/contradict/);
    expect(() => readTestPanel({ plies: 4, thicknessMm: 0, massGM2 }, glass, 1200)).toThrow(
      'thicknessMm: found 0, expected more than 0',
    );
  });
});

describe('S2-glass tape in MIL-HDBK-17-2F, ch. 6 (printed: 111 g/m2, 0.0033 to 0.0037 in)', () => {
  it.each([0.28, 0.3, 0.33])('resin content %f comes within 10 %', (resinContent) => {
    // Fibre by mass to fibre by volume.
    const [fibre, resin] = [(1 - resinContent) / 2490, resinContent / 1250];
    const fraction = fibre / (fibre + resin);
    const inches = plyThicknessMm(111, 2490, fraction) / 25.4;
    expect(inches).toBeGreaterThan(0.0033 * 0.9);
    expect(inches).toBeLessThan(0.0037 * 1.1);
  });
});
