import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { SectionLayer } from '../../../app/part/detail.ts';
import { drawSection, scaleBarMm } from '../../../renderer/part/laminate/section.ts';
import { forAll } from '../../support/draws.ts';

const stack = (thicknesses: readonly number[]): SectionLayer[] => {
  let atMm = 0;
  return thicknesses.map((mm, i) => {
    const fromMm = atMm;
    atMm += mm;
    return { kind: 'ply', layup: 'skin', name: `${i}`, angleDeg: 0, fromMm, toMm: atMm, cover: 1 };
  });
};

describe('a section to scale', () => {
  it('gives each layer its share of the height, mould side below', () => {
    const { layers, height } = drawSection(stack([0.25, 10, 0.25]), 210, 18);
    expect(layers.map((layer) => layer.height)).toEqual([5, 200, 5]);
    expect(layers.map(({ y }) => y)).toEqual([205, 5, 0]);
    expect(height).toBe(210);
  });

  it('keeps labels apart, in order and inside, however thin the plies', () => {
    forAll(
      fc.property(
        fc.array(fc.double({ min: 0.05, max: 40, noNaN: true }), { minLength: 1, maxLength: 40 }),
        (thicknesses) => {
          const { layers, height } = drawSection(stack(thicknesses), 200, 18);
          const labels = layers.map(({ labelY }) => labelY);
          for (const [i, at] of labels.entries()) {
            expect(at).toBeGreaterThanOrEqual(9 - 1e-6);
            expect(at).toBeLessThanOrEqual(height - 9 + 1e-6);
            if (i > 0) expect(labels[i - 1]! - at).toBeGreaterThanOrEqual(18 - 1e-6);
          }
          const total = layers.reduce((sum, layer) => sum + layer.height, 0);
          expect(total).toBeCloseTo(height, 6);
        },
      ),
      { seed: 1 },
    );
  });

  it('leaves a label where its layer is when there is room', () => {
    const { layers } = drawSection(stack([5, 5, 5]), 210, 18);
    for (const { labelY, y, height } of layers) expect(labelY).toBeCloseTo(y + height / 2, 9);
  });

  it.each([
    [10.8, 5],
    [0.9, 0.2],
    [4, 2],
    [31, 10],
  ])('%s mm has a scale bar of %s mm', (totalMm, bar) => {
    expect(scaleBarMm(totalMm)).toBe(bar);
  });
});
