import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { settleBatches } from '../../../app/cure/batches.ts';
import { practice } from './practice-rows.ts';
import { forAll, tally } from '../../support/draws.ts';

const hardener = { partsPer100ByMass: 28 };
const settle = (mixedG: number, wetMinutes: number, potMinutes: number) =>
  settleBatches({
    mixedG,
    mostG: practice('batch-max-g'),
    leastG: practice('batch-min-g'),
    wetMinutesIn: () => wetMinutes,
    hardener,
    potLifeMinutesOf: (massG) => potMinutes * (massG / 100) ** -0.3,
    practice,
  });

describe('batches', () => {
  it('are the fewest under the heaviest cup while there is time', () => {
    expect(settle(1400, 30, 60).map((b) => b.totalG)).toEqual([1400 / 3, 1400 / 3, 1400 / 3]);
  });

  it('get smaller where the wet work is slow against pot life', () => {
    const batches = settle(1400, 120, 60);
    expect(batches.length).toBeGreaterThan(3);
    expect(120 / batches.length).toBeLessThanOrEqual(0.4 * batches[0]!.potLifeMinutes!);
  });

  it('never fall below the lightest sensible cup, however hopeless the pot life', () => {
    expect(settle(1400, 600, 4).map((b) => Math.round(b.totalG))).toEqual(Array(9).fill(156));
  });

  it('are one for a small job and none for nothing', () => {
    expect(settle(80, 20, 60)).toHaveLength(1);
    expect(settle(0, 20, 60)).toEqual([]);
  });

  it('weigh up to the whole, by ratio, spread evenly', () => {
    const seen = tally('one batch', 'several batches');
    forAll(
      fc.property(
        fc.double({ min: 10, max: 20_000, noNaN: true }),
        fc.integer({ min: 0, max: 600 }),
        fc.integer({ min: 1, max: 300 }),
        (mixedG, wetMinutes, pot) => {
          const batches = settle(mixedG, wetMinutes, pot);
          seen.saw(batches.length > 1 ? 'several batches' : 'one batch');
          const total = batches.reduce((sum, b) => sum + b.resinG + b.hardenerG, 0);
          expect(total).toBeCloseTo(mixedG, 6);
          batches.forEach((b, i) => {
            expect(b.number).toBe(i + 1);
            expect(b.totalG).toBeLessThanOrEqual(500 + 1e-9);
            expect(b.hardenerG / b.resinG).toBeCloseTo(0.28, 9);
            expect(b.atShare).toBeCloseTo(i / batches.length, 12);
          });
        },
      ),
      { seed: 1, seen },
    );
  });
});
