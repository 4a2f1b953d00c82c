import { describe, expect, it } from 'vitest';
import { MissingRow } from '../../../app/document/library.ts';
import { STAGE_KINDS } from '../../../app/document/schema.ts';
import { crewMinutes } from '../../../app/part/labour.ts';
import { measurePart } from '../../../app/part/measure.ts';
import { build, library, zone } from './fixtures.ts';

const strips = { widthMm: 60, plies: [{ cloth: 'carbon-twill-200', angleDeg: 45 }] };
const layupIds = (zones: Parameters<typeof build>[0]): string[] =>
  measurePart(build(zones), library).layups.map((layup) => layup.id);

describe('layups of a part', () => {
  it('come in the order of the chain, those of the trimmed part last, empty ones left out', () => {
    const local = (place: 'outer' | 'between' | 'inner' | 'after') => ({
      cloth: 'carbon-twill-200',
      place,
      areaM2: 0.1,
    });
    expect(layupIds([zone()])).toEqual(['skin', 'core', 'inner']);
    expect(
      layupIds([zone({ closeout: strips, local: [local('after'), local('between')] })]),
    ).toEqual(['skin', 'local', 'core', 'inner', 'local-after', 'closeout']);
    expect(layupIds([zone({ core: null, inner: [] })])).toEqual(['skin']);
    expect(layupIds([zone({ local: [local('outer'), local('inner')] })])).toEqual([
      'skin',
      'core',
      'inner',
    ]);
  });

  it('need resin for cloth, core, bleed and cup', () => {
    const [skin, core, inner] = measurePart(build([zone()]), library).layups;
    // By hand: ply 200 g/m2 at 1.80 and 46 %, 1180 kg/m3 resin: 153.9 g/m2 over 1.16 m2 laid.
    const laid = 1 * (1 + 25 / 1270) + 4 * 0.035;
    const plyG = (200 / (1800 * 0.46)) * 0.54 * 1180 * laid;
    expect(skin!.plyAreaM2).toBeCloseTo(laid, 9);
    expect(skin!.mixedG).toBeCloseTo((plyG + 60) / 0.94, 6);
    expect(core!.mixedG).toBeCloseTo((150 + 60) / 0.94, 6);
    expect(inner!.mixedG).toBeCloseTo((plyG + 150 + 60) / 0.94, 6);
  });

  it('take hands by area, plies, shape and uprightness', () => {
    const minutes = (changes: Parameters<typeof zone>[0]): number =>
      measurePart(build([zone(changes)]), library).layups[0]!.personMinutes;
    const flat = minutes({});
    expect(minutes({ shape: 'double' })).toBeGreaterThan(flat * 1.15);
    expect(minutes({ vertical: true })).toBeGreaterThan(flat);
    const two = [{ cloth: 'carbon-twill-200' }, { cloth: 'carbon-twill-200' }];
    expect(minutes({ outer: two })).toBeGreaterThan(flat);
    const first = measurePart(
      build([zone()], { part: { zones: [], familiarity: 'first' } }),
      library,
    );
    expect(first.layups[0]!.personMinutes).toBeCloseTo(flat * 1.35, 9);
  });

  it('holds the thickest place of a layup', () => {
    const part = measurePart(
      build([zone(), zone({ id: 'pad', core: { material: 'pvc-80', thicknessMm: 20 } })]),
      library,
    );
    expect(part.layups.find((layup) => layup.id === 'core')!.thicknessMm).toBe(20);
  });
});

describe('mass', () => {
  it('counts skins, core, uptake, closeout, fairing and paint once each', () => {
    const { massKg } = measurePart(build([zone({ closeout: strips })]), library);
    const overlap = 1 + 25 / 1270;
    expect(massKg.fibre).toBeCloseTo(0.4 * overlap, 9);
    expect(massKg.core).toBeCloseTo(0.8, 9);
    expect(massKg.coreResin).toBeCloseTo(0.3, 9);
    expect(massKg.fairing).toBeCloseTo(0.4, 9);
    expect(massKg.paint).toBeCloseTo(0.5, 9);
    expect(massKg.closeout).toBeGreaterThan(0.04 * 4);
  });

  it('is counted as the target says', () => {
    const counted = (targetIncludes: 'shell' | 'faired' | 'painted'): number =>
      measurePart(build([zone()], { part: { zones: [], targetIncludes } }), library).countedMassKg;
    expect(counted('faired') - counted('shell')).toBeCloseTo(0.4, 9);
    expect(counted('painted') - counted('faired')).toBeCloseTo(0.5, 9);
  });

  it('grows by the open kerfs of a scored core', () => {
    const coreResin = (treatment: 'plain' | 'scored'): number =>
      measurePart(
        build([zone({ core: { material: 'pvc-80', thicknessMm: 10, treatment } })]),
        library,
      ).massKg.coreResin;
    expect(coreResin('scored') - coreResin('plain')).toBeCloseTo((430 - 150) / 1000, 9);
  });

  it('leaves the closed zone sums equal to the shell without its closeout', () => {
    const part = measurePart(
      build([zone(), zone({ id: 'b', areaM2: 0.4, core: null, closeout: strips })]),
      library,
    );
    const { fibre, resin, core, coreResin } = part.massKg;
    const zones = part.zones.reduce((sum, z) => sum + z.massKg, 0);
    expect(zones).toBeCloseTo(fibre + resin + core + coreResin, 9);
  });
});

describe('kit', () => {
  const kit = (bags: number, batches: number, changes = {}) =>
    new Map(
      measurePart(build([zone()], changes), library)
        .kitFor(bags, batches)
        .map((line) => [line.id, line]),
    );

  it('uses bag materials once a bag and cups once a batch', () => {
    const [one, three] = [kit(1, 5), kit(3, 9)];
    expect(three.get('peel-ply-85')!.quantity).toBeCloseTo(3 * 1.15, 0);
    expect(one.get('peel-ply-85')!.quantity).toBeCloseTo(1.2, 9);
    expect(three.get('cups-mixing')!.quantity - one.get('cups-mixing')!.quantity).toBe(8);
    expect(three.get('carbon-twill-200')!.quantity).toBe(one.get('carbon-twill-200')!.quantity);
  });

  it('parts resin and hardener by the mixing ratio', () => {
    const lines = kit(3, 9);
    const [resin, hardener] = [lines.get('orrin-40')!, lines.get('orrin-40:medium')!];
    expect(hardener.quantity / resin.quantity).toBeCloseTo(0.28, 1);
    expect(hardener.quantity / resin.quantity).toBeGreaterThanOrEqual(0.28 - 1e-9);
  });

  it('buys whole sheets of core and whole pieces', () => {
    const core = kit(3, 9).get('pvc-80-10mm')!;
    expect(core.quantity / 1.22).toBeCloseTo(Math.round(core.quantity / 1.22), 9);
    for (const line of kit(2, 3).values()) {
      if (line.unit === 'piece') expect(Number.isInteger(line.quantity)).toBe(true);
      expect(Number.isInteger(line.costMinor)).toBe(true);
    }
  });

  it('pays for machining only when it is bought in', () => {
    expect(kit(3, 9).has('board-medium-machining')).toBe(false);
    const outside = [{ name: 'Mill', kind: 'machining', workingDays: 3 }];
    expect(kit(3, 9, { outside }).has('board-medium-machining')).toBe(true);
  });

  it('needs no mould where one stands sealed', () => {
    const lines = kit(3, 9, { mould: { sealed: true } });
    expect([...lines.values()].filter((line) => line.group === 'mould')).toEqual([]);
  });
});

describe('more hands', () => {
  it('are quicker, but each stands a little in the way', () => {
    expect(crewMinutes(120, 1, library)).toBe(120);
    expect(crewMinutes(120, 2, library)).toBeCloseTo(60 * 1.08, 9);
    expect(crewMinutes(120, 4, library)).toBeCloseTo(30 * 1.24, 9);
  });
});

describe('a part of nothing', () => {
  it('is zero everywhere, and no number is missing', () => {
    const part = measurePart(build([]), library);
    expect(part.layups).toEqual([]);
    expect(part.kitFor(3, 4)).toEqual([]);
    expect(part.areaM2).toBe(0);
    expect(part.countedMassKg).toBe(0);
    for (const kind of STAGE_KINDS) expect(part.workFor(kind).personMinutes).toBe(0);
  });
});

describe('a row that is missing', () => {
  it('is named by table and id', () => {
    const measured = () =>
      measurePart(build([zone()]), {
        ...library,
        labour: library.labour.filter((row) => row.id !== 'layup-core'),
      });
    expect(measured).toThrow(MissingRow);
    expect(measured).toThrow('labour has no row layup-core');
    expect(() => measurePart(build([zone({ outer: [{ cloth: 'nowhere' }] })]), library)).toThrow(
      'cloths has no row nowhere',
    );
  });
});
