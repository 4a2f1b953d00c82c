import { describe, expect, it } from 'vitest';
import type { Build } from '../../../app/document/schema.ts';
import { partChecks } from '../../../app/part/checks.ts';
import { build, library, zone } from './fixtures.ts';

const codes = (
  zones: Parameters<typeof build>[0],
  changes: Partial<Build> = {},
  rows = library,
): string[] =>
  partChecks(build(zones, changes), rows).map(
    ({ finding }) => `${finding.severity} ${finding.code}`,
  );

const core = (material: string, thicknessMm = 10) => ({
  core: { material, thicknessMm, treatment: 'plain' as const },
});
const polyester = { resin: { system: 'marl-7', hardener: 'medium' } };

describe('materials that do not go together', () => {
  it('a plain carbon panel has nothing against it', () => {
    expect(codes([zone()])).toEqual([]);
  });

  it('styrene stops at foam that it dissolves, in the core or the mould', () => {
    expect(codes([zone(core('xps-33'))], polyester)).toContain('stop styrene-dissolves');
    expect(codes([zone()], polyester)).not.toContain('stop styrene-dissolves');
    expect(codes([zone()], polyester)).toContain('warn styrene-vacuum');
    expect(codes([zone()], { ...polyester, mould: { material: 'eps-coated' } })).toContain(
      'stop styrene-dissolves',
    );
    expect(codes([zone()], { mould: { material: 'eps-coated' } })).not.toContain(
      'stop styrene-dissolves',
    );
  });

  it('epoxy on the same foam is warned of solvents', () => {
    expect(codes([zone(core('xps-33'))])).toContain('note solvent-core');
    expect(codes([zone(core('xps-33'))], { mould: { release: 'film-slick' } })).not.toContain(
      'note solvent-core',
    );
  });

  it('bake and service are held against the core', () => {
    const bake = (bakeC: number) => ({ outside: [{ name: 'Paint', workingDays: 3, bakeC }] });
    expect(codes([zone()], bake(75))).not.toContain('stop heat-over-limit');
    expect(codes([zone()], bake(76))).toContain('stop heat-over-limit');
    expect(codes([zone()], { part: { zones: [], serviceMaxC: 80 } })).toContain(
      'stop heat-over-limit',
    );
  });

  it('light foam is spared full vacuum', () => {
    expect(codes([zone(core('eps-20'))])).toContain('warn vacuum-crushes-core');
  });

  it('a tent hotter than the mould is told', () => {
    expect(codes([zone()], { room: { tent: { maxC: 90 } } })).toContain('note heat-over-limit');
  });

  it('release film stops at double curvature', () => {
    const film = { mould: { release: 'film-slick' } };
    expect(codes([zone({ shape: 'single' })], film)).not.toContain('stop release-not-for-shape');
    expect(codes([zone({ shape: 'double' })], film)).toContain('stop release-not-for-shape');
  });
});

describe('out of the usual range', () => {
  const withFraction = (fibreFraction: number) => ({
    ...library,
    cloths: library.cloths.map((cloth) =>
      cloth.id === 'carbon-twill-200' ? { ...cloth, fibreFraction } : cloth,
    ),
  });

  it('fibre fraction beyond hands, below cloth, and without any resin', () => {
    expect(codes([zone()], {}, withFraction(0.5))).toEqual([]);
    expect(codes([zone()], {}, withFraction(0.55))).toEqual(['warn fibre-fraction-high']);
    expect(codes([zone()], {}, withFraction(0.25))).toEqual(['warn fibre-fraction-low']);
    expect(codes([zone()], {}, withFraction(1))).toEqual(['stop laminate-dry']);
    expect(codes([zone()], {}, withFraction(0))).toEqual(['warn fibre-fraction-low']);
  });

  it('a veil may be as rich as it likes', () => {
    const veil = [{ cloth: 'veil-30' }, { cloth: 'carbon-twill-200' }];
    expect(codes([zone({ outer: veil })])).toEqual([]);
  });

  it('a stack thicker than its gap, to the tenth of a millimetre', () => {
    // 10 mm of core and two plies of 0.2415 mm.
    expect(codes([zone({ gapMm: 10.49 })])).toEqual([]);
    expect(codes([zone({ gapMm: 10.48 })])).toEqual(['stop core-over-gap']);
  });

  it('core bent too tight, unless it is scored', () => {
    const scored = { material: 'pvc-80', thicknessMm: 10, treatment: 'scored' as const };
    expect(codes([zone({ radiusMm: 600 })])).toEqual([]);
    expect(codes([zone({ radiusMm: 599 })])).toEqual(['warn core-bend-tight']);
    expect(codes([zone({ radiusMm: 300, core: scored })])).toEqual(['note core-kerfs-open']);
  });

  it('core in a thickness nobody stocks', () => {
    expect(codes([zone(core('pvc-80', 7))])).toEqual(['note core-thickness-odd']);
  });

  it('a zone of nothing, and a flat laminate that will bow', () => {
    expect(codes([zone({ outer: [], inner: [], core: null })])).toEqual(['stop zone-empty']);
    const two = [{ cloth: 'carbon-twill-200' }, { cloth: 'glass-twill-163' }];
    expect(codes([zone({ outer: two, inner: [], core: null })])).toEqual(['note skins-uneven']);
  });

  it('every fact has its words, with numbers in them and no gaps', () => {
    const facts = partChecks(
      build(
        [
          zone({ ...core('xps-33', 7), radiusMm: 100, gapMm: 3, shape: 'double' }),
          zone({ id: 'b', core: { material: 'eps-20', thicknessMm: 20, treatment: 'grooved' } }),
        ],
        {
          ...polyester,
          mould: { material: 'eps-coated', release: 'film-slick' },
          room: { tent: { maxC: 90 } },
          part: { zones: [], serviceMaxC: 90 },
        },
      ),
      library,
    );
    expect(facts.length).toBeGreaterThan(10);
    for (const fact of facts) {
      expect(fact.finding.message).not.toMatch(/undefined|NaN|null/);
    }
  });
});
