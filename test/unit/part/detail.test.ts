import { describe, expect, it } from 'vitest';
import { weightStatement, zoneDetails } from '../../../app/part/detail.ts';
import { measurePart } from '../../../app/part/measure.ts';
import { deflectionUnder, panelCheck, pliesToStiffen } from '../../../app/part/panel.ts';
import { build, library, zone } from './fixtures.ts';

const local = (place: 'outer' | 'between' | 'inner' | 'after', areaM2?: number) => ({
  cloth: 'carbon-twill-200',
  angleDeg: 45,
  place,
  ...(areaM2 === undefined ? {} : { areaM2 }),
});

describe('the section of a zone', () => {
  it('lies from the mould up, without gaps, each ply with its angle', () => {
    const [detail] = zoneDetails(
      build([zone({ local: [local('after', 0.2), local('inner'), local('between', 0.5)] })]),
      library,
    );
    expect(detail!.layers.map((layer) => [layer.layup, layer.angleDeg, layer.cover])).toEqual([
      ['skin', 0, 1],
      ['local', 45, 0.5],
      ['core', null, 1],
      ['inner', 0, 1],
      ['inner', 45, 1],
      ['local-after', 45, 0.2],
    ]);
    detail!.layers.forEach((layer, i) =>
      expect(layer.fromMm).toBe(i === 0 ? 0 : detail!.layers[i - 1]!.toMm),
    );
  });

  it('counts thickness where no local ply lies, and mass where they do', () => {
    const [plain] = zoneDetails(build([zone()]), library);
    const [half] = zoneDetails(build([zone({ local: [local('between', 0.5)] })]), library);
    expect(half!.thicknessMm.total).toBeCloseTo(plain!.thicknessMm.total, 12);
    expect(half!.arealGM2.fibre - plain!.arealGM2.fibre).toBeCloseTo(100, 9);
    expect(plain!.thicknessMm.total).toBeCloseTo(10 + 2 * (200 / (1800 * 0.46)), 9);
    expect(plain!.fibreFraction).toEqual({ outer: 0.46, inner: expect.closeTo(0.46, 12) });
    expect(plain!.arealGM2.coreResin).toBe(300);
  });
});

describe('weight', () => {
  const statement = (target: number | null, includes: 'shell' | 'faired' | 'painted' = 'shell') => {
    const full = build([zone()], {
      part: { zones: [], targetMassKg: target, targetIncludes: includes },
    });
    return weightStatement(full, measurePart(full, library), library);
  };

  it('spreads more the more hands have been at it', () => {
    const { shell, faired, painted } = statement(null);
    const spread = (range: { lowKg: number; highKg: number }): number => range.highKg - range.lowKg;
    expect(spread(faired)).toBeGreaterThan(spread(shell));
    expect(spread(painted)).toBeGreaterThan(spread(faired));
    expect(shell.lowKg).toBeLessThan(shell.usualKg);
  });

  it('judges the target at the state it is meant for', () => {
    const { shell, faired } = statement(null);
    const verdict = (target: number, includes: 'shell' | 'faired' = 'shell') =>
      statement(target, includes).target!.verdict;
    expect(verdict(shell.highKg + 0.001)).toBe('met');
    expect(verdict(shell.usualKg + 0.001)).toBe('likely');
    expect(verdict(shell.usualKg - 0.001)).toBe('unlikely');
    expect(verdict(shell.lowKg - 0.001)).toBe('missed');
    expect(verdict(faired.usualKg + 0.001, 'faired')).toBe('likely');
    expect(statement(faired.usualKg - 0.5, 'faired').target!.overKg).toBeCloseTo(0.5, 2);
  });
});

describe('a panel under a hand', () => {
  it('gives less the thicker the core, and by the plate of its faces', () => {
    const check = (thicknessMm: number) =>
      panelCheck(
        build([zone({ core: { material: 'pvc-80', thicknessMm } })]).part.zones[0]!,
        build([]),
        library,
      )!;
    const [thin, thick] = [check(10), check(20)];
    // Faces far apart: bending goes with the square of their distance.
    const faceMm = 200 / (1800 * 0.46);
    const expected = ((20 + faceMm) / (10 + faceMm)) ** 2;
    expect(thin.hand!.bendingMm / thick.hand!.bendingMm / expected).toBeCloseTo(1, 1);
    expect(thin.hand!.shearMm).toBeGreaterThan(thick.hand!.shearMm);
    expect(thin.hand!.totalMm).toBeCloseTo(thin.hand!.bendingMm + thin.hand!.shearMm, 12);
  });

  it('bends and shears as beam theory says where the panel is long', () => {
    // Across a long flat strip: 5 q L4 / 384 D. D of like thin faces, and of the core at 2.6 G.
    const full = build([zone({ sizeM: [12, 0.3], areaM2: 3.6 })]);
    const [faceMm, coreMm, spanMm, q] = [200 / (1800 * 0.46), 10, 300, 0.001];
    const d = coreMm + faceMm;
    const rigidity =
      (50_000 * faceMm * d * d) / 2 / (1 - 0.06 ** 2) + (2.6 * 27 * coreMm ** 3) / 12 / (1 - 0.09);
    const shear = (d * d * 27) / coreMm;
    const bent = deflectionUnder(
      { kind: 'patch', loadN: q * 12_000 * spanMm, sideAMm: 12_000, sideBMm: spanMm },
      full.part.zones[0]!,
      full,
      library,
    )!;
    expect(bent.bendingMm / ((5 * q * spanMm ** 4) / (384 * rigidity))).toBeCloseTo(1, 2);
    expect(bent.shearMm / ((q * spanMm ** 2) / (8 * shear))).toBeCloseTo(1, 2);
    const check = panelCheck(full.part.zones[0]!, full, library)!;
    expect((check.bendingNm[1] * 1000) / rigidity).toBeCloseTo(1, 2);
    // 100 N through the core round a square of 90 mm.
    expect(check.coreShear!.stressMPa).toBeCloseTo(100 / (4 * 90 * d), 9);
    expect(check.coreShear!.strengthMPa).toBe(1.15);
  });

  it('is measured over the zone, less of it where it is curved', () => {
    const sides = (changes: Parameters<typeof zone>[0]) => {
      const full = build([zone(changes)]);
      return panelCheck(full.part.zones[0]!, full, library)!;
    };
    expect(sides({ areaM2: 0.25 })).toMatchObject({ sidesMm: [500, 500], sidesAssumed: true });
    expect(sides({ sizeM: [2, 0.4] })).toMatchObject({ sidesMm: [2000, 400], sidesAssumed: false });
    expect(sides({ shape: 'double' }).sidesMm[0]).toBeLessThan(
      sides({ shape: 'single' }).sidesMm[0],
    );
  });

  it('is mended by local plies between the skins, as few as do it', () => {
    const soft = build([
      zone({ areaM2: 0.36, core: { material: 'pvc-80', thicknessMm: 4, treatment: 'plain' } }),
    ]);
    const bare = soft.part.zones[0]!;
    expect(panelCheck(bare, soft, library)!.holds).toBe(false);
    const added = pliesToStiffen(bare, soft, library)!;
    expect(added.length).toBeGreaterThan(0);
    const mended = (plies: typeof added) =>
      panelCheck({ ...bare, local: plies }, soft, library)!.holds;
    expect(mended(added)).toBe(true);
    expect(mended(added.slice(0, -1))).toBe(false);
  });

  it('is unknown for a cloth without moduli', () => {
    const full = build([zone()]);
    const cloths = library.cloths.map((cloth) => ({ ...cloth, e1GPa: null }));
    expect(panelCheck(full.part.zones[0]!, full, { ...library, cloths })).toBeNull();
  });
});
