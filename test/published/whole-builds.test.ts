/**
 * A whole build against what the trade would say of it: common practice, no source. A shell of about 6 kg,
 * built in a rush in one bag and without its paint, in a little over 100 h and 2,000 USD; and the same at
 * four sizes.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { plan } from '../../app/answer/plan.ts';
import type { Build, StageKind } from '../../app/document/schema.ts';
import { FIRST_ANSWER } from '../../app/plan/outcome.ts';
import { library, NOW } from '../support/builds.ts';

const SHELL = JSON.parse(readFileSync('samples/shell-6kg.build.json', 'utf8')) as Build;
const ONE_BAG: Build = {
  ...SHELL,
  outside: [],
  route: {
    joints: { 'skin-local': 'one-bag', 'local-core': 'one-bag', 'core-inner': 'one-bag' },
  },
};

function planned(times: number) {
  const zones = ONE_BAG.part.zones.map((zone) => ({
    ...zone,
    areaM2: zone.areaM2 * times,
    sizeM: null,
    ...(zone.edgeM === undefined ? {} : { edgeM: zone.edgeM * Math.sqrt(times) }),
  }));
  const document = { ...ONE_BAG, part: { ...ONE_BAG.part, zones } };
  const { result, detail } = plan(document, library(), NOW, FIRST_ANSWER);
  const resinKg = detail.kit
    .filter(({ group }) => group === 'resin')
    .reduce((sum, { quantity }) => sum + quantity, 0);
  return { result, totals: result.totals, resinKg };
}

describe('a shell of about 6 kg, in one bag and without its paint', () => {
  it('takes a little over 100 h and 2,000 USD, within a quarter', () => {
    const { totals } = planned(1);
    const within = (value: number, usual: number): void => {
      expect(value).toBeGreaterThan(usual * 0.75);
      expect(value).toBeLessThan(usual * 1.25);
    };
    within(totals.massKg, 6);
    within(totals.labourHours, 102);
    within(totals.materialCost / 100, 2000);
  });

  it('contains the mould, the layup, repair, edge, post-cure, fairing and primer; no drive and no painter', () => {
    const { result } = planned(1);
    expect(result.route.cures).toHaveLength(2);
    const kinds = new Set(result.stages.map(({ kind }) => kind));
    const held: StageKind[] = [
      'mould',
      'seal',
      'bag-test',
      'cutting',
      'core-fit',
      'layup',
      'demould',
      'repair',
      'trim',
      'dry-fit',
      'closeout',
      'post-cure',
      'fit-check',
      'fair',
      'prime',
      'hardware',
      'hand-over',
    ];
    expect(held.filter((kind) => !kinds.has(kind))).toEqual([]);
    for (const kind of ['outside', 'wrap', 'drive'] as const) expect(kinds).not.toContain(kind);
  });

  it('scales over four sizes: weight and resin with area, hours more slowly', () => {
    const sizes = [0.25, 0.5, 1, 2].map(planned);
    const ratios = (pick: (size: ReturnType<typeof planned>) => number): number[] =>
      sizes.slice(1).map((size, i) => pick(size) / pick(sizes[i]!));
    for (const ratio of ratios(({ totals }) => totals.massKg)) {
      expect(ratio).toBeGreaterThan(1.8);
      expect(ratio).toBeLessThan(2.02);
    }
    // What lies over for one repair is the same at every size.
    for (const ratio of ratios(({ resinKg }) => resinKg)) {
      expect(ratio).toBeGreaterThan(1.55);
      expect(ratio).toBeLessThan(2.02);
    }
    for (const ratio of ratios(({ totals }) => totals.labourHours)) {
      expect(ratio).toBeGreaterThan(1.25);
      expect(ratio).toBeLessThan(1.75);
    }
  });
});
