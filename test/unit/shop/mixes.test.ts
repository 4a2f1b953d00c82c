import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { cupUsedBy, scaleReadings, stampMixes, mixDestination } from '../../../app/shop/mixes.ts';
import { forAll } from '../../support/draws.ts';

const batch = (number: number, atShare: number, potLifeMinutes: number | null) => ({
  number,
  resinG: 300,
  hardenerG: 84,
  totalG: 384,
  potLifeMinutes,
  peakC: 120,
  atShare,
});
const asText = (minute: number) => `m${minute}`;

describe('batches on the clock', () => {
  test('each is mixed at its share of the wet work and used within its pot life', () => {
    const mixes = stampMixes({
      cureId: 'skin',
      batches: [batch(1, 0, 40.9), batch(2, 0.5, 40.9)],
      layupStart: 1000,
      layupEnd: 1181,
      bagBy: null,
      iso: asText,
    });
    expect(mixes.map((mix) => [mix.batch, mix.mixAt, mix.useBy])).toEqual([
      [1, 'm1000', 'm1040'],
      [2, 'm1091', 'm1131'],
    ]);
  });

  test('an unknown pot life leaves the limit open instead of guessing one', () => {
    const [mix] = stampMixes({
      cureId: 'skin',
      batches: [batch(1, 0.2, null)],
      layupStart: 0,
      layupEnd: 100,
      bagBy: null,
      iso: asText,
    });
    expect(mix).toMatchObject({ mixAt: 'm20', useBy: null, potLifeMin: null });
  });
});

describe('the last moment of a cup', () => {
  test('is its pot life, but never later than its bag must be down', () => {
    expect(cupUsedBy(1000, 40.9, 1060)).toBe(1040);
    expect(cupUsedBy(1030, 40.9, 1060)).toBe(1060);
    expect(cupUsedBy(1030, 40.9, null)).toBe(1070);
    expect(cupUsedBy(1030, null, 1060)).toBeNull();
    expect(cupUsedBy(1060, 40.9, 1060)).toBeNull();
  });
});

describe('scale readings', () => {
  test('a batch of 400 g reads in whole grams, the tolerance is 2 % of the hardener', () => {
    expect(scaleReadings({ resinG: 300, hardenerG: 120 }, 0.02)).toEqual({
      decimals: 0,
      resinG: 300,
      hardenerG: 120,
      cumulativeG: 420,
      toleranceG: 2,
      lowestG: 418,
      highestG: 422,
    });
  });

  test('the printed numbers add up and stay inside the tolerance of the exact ratio', () => {
    forAll(
      fc.property(
        fc.double({ min: 50, max: 900, noNaN: true }),
        fc.double({ min: 0.01, max: 1, noNaN: true }),
        (resinG, ratio) => {
          const read = scaleReadings({ resinG, hardenerG: resinG * ratio }, 0.02);
          const digit = 10 ** -read.decimals;
          expect(read.resinG + read.hardenerG).toBeCloseTo(read.cumulativeG, 6);
          expect(Math.abs(read.hardenerG / (read.resinG * ratio) - 1)).toBeLessThan(0.02);
          expect(read.toleranceG).toBeLessThanOrEqual(resinG * ratio * 0.02 + 1e-6);
          expect(read.highestG - read.cumulativeG).toBeCloseTo(read.toleranceG, 6);
          expect(Math.abs(read.resinG - resinG)).toBeLessThanOrEqual(digit / 2 + 1e-9);
        },
      ),
      { seed: 1 },
    );
  });
});

describe('where a batch goes', () => {
  const layups = [
    { name: 'Outer skin', mixedG: 600, infused: false },
    { name: 'Core bond', mixedG: 300, infused: false },
  ];
  const mixes = [{ totalG: 400 }, { totalG: 400 }, { totalG: 100 }];

  test('batches are used up in the order of the layups', () => {
    expect(mixes.map((_, i) => mixDestination(layups, mixes, i))).toEqual([
      'Outer skin',
      'Outer skin and Core bond',
      'Core bond',
    ]);
  });

  test('a bucket of an infusion goes into everything under its bag', () => {
    const dry = layups.map((one) => ({ ...one, infused: one.name === 'Outer skin' }));
    expect(mixDestination(dry, mixes, 0)).toBe('Outer skin and Core bond');
  });

  test('with no masses known every layup is named', () => {
    expect(mixDestination(layups, [{ totalG: 0 }], 0)).toBe('Outer skin and Core bond');
  });
});
