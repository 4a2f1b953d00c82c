/** A skin laid in sections: areas, cloth, resin, weight and bags of each, and all of them together. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { clothOf, practiceOf } from '../../../app/document/library.ts';
import type { Build, FullBuild } from '../../../app/document/schema.ts';
import { bagStack } from '../../../app/part/bag-stack.ts';
import { cutList } from '../../../app/part/cuts.ts';
import { plyResinGM2 } from '../../../app/part/laminate.ts';
import { measurePart } from '../../../app/part/measure.ts';
import { enumerateRoutes } from '../../../app/route/routes.ts';
import { contextOf } from '../../../app/plan/context.ts';
import { forAll, tally } from '../../support/draws.ts';
import { library, NOW, read, smallBuild } from '../../support/builds.ts';

type Zone = Build['part']['zones'][number];
const practice = practiceOf(library());

const build = (zones: readonly Zone[], sections?: Build['part']['sections']): FullBuild => {
  const document = { ...smallBuild(), part: { zones, ...(sections ? { sections } : {}) } };
  const answer = read(document);
  if (!answer.ok) throw new Error(JSON.stringify(answer.faults));
  return answer.build;
};

const PLY = { cloth: 'carbon-twill-200' };
const LONG: Zone = {
  areaM2: 2,
  edgeM: 6,
  sizeM: [2, 1],
  outer: [PLY, { ...PLY, angleDeg: 45 }, PLY],
  core: { material: 'pvc-80', thicknessMm: 10 },
  inner: [PLY],
  local: [{ ...PLY, place: 'outer', areaM2: 0.1 }],
};

const sum = (values: readonly number[]): number => values.reduce((total, v) => total + v, 0);
const partOf = (own: FullBuild) => measurePart(own, library());
const skinsOf = (own: FullBuild) => partOf(own).layups.filter(({ id }) => id.startsWith('skin'));

/** A ply of the test's cloth, kg/m2 of fibre and of resin: areal weight, and the rule of mixtures by hand. */
const laid = () => {
  const { arealGM2, fibreDensityKgM3, fibreFraction, rollWidthMm } = clothOf(library(), PLY.cloth);
  const matrix = library().resins.find(({ id }) => id === 'orrin-40')!.curedDensityKgM3;
  const resinG = plyResinGM2(arealGM2, fibreDensityKgM3, fibreFraction, matrix);
  return { kgM2: (arealGM2 + resinG) / 1000, rolls: 1 + practice('ply-overlap-mm') / rollWidthMm };
};

describe('a skin of three plies, 2 m by 1 m, in two sections', () => {
  const whole = build([LONG]);
  const split = build([LONG], { skin: 2 });
  const [first, second] = skinsOf(split);
  const [one] = skinsOf(whole);

  it('is two layups of half the area, patches in the first', () => {
    expect([first!.name, second!.name]).toEqual(['Outer skin section 1', 'Outer skin section 2']);
    expect([first!.areaM2, second!.areaM2]).toEqual([1, 1]);
    expect([first!.plies, second!.plies]).toEqual([4, 3]);
    expect(one!.section).toBeNull();
  });

  it('has a joint as long as the shorter side, its band a step on for each ply', () => {
    expect(first!.section).toMatchObject({ number: 1, count: 2, jointM: 0, bandM2: 0 });
    expect(second!.section).toMatchObject({ number: 2, count: 2, jointM: 1 });
    // 25 mm of overlap and two steps of 75 mm: rows of practice, common practice.
    expect(second!.section!.bandM2).toBeCloseTo(0.175, 9);
  });

  it('weighs what the overlaps weigh more, and nothing else', () => {
    const { kgM2, rolls } = laid();
    const shell = (own: FullBuild) => {
      const { fibre, resin } = partOf(own).massKg;
      return fibre + resin;
    };
    const overlapM2 = 3 * 1 * 0.025 * rolls;
    expect(shell(split) - shell(whole)).toBeCloseTo(overlapM2 * kgM2, 9);
    expect(partOf(split).massKg.core).toBe(partOf(whole).massKg.core);
  });

  it('takes half a bag for each section and its own joint, not the bag of all', () => {
    const { id: filmId } = library().consumables.find(({ use }) => use === 'bag-film')!;
    const film = (own: FullBuild, bags: number) =>
      partOf(own)
        .kitFor(bags, 10)
        .find(({ id }) => id === filmId)!.quantity;
    const perBag = film(whole, 4) - film(whole, 3);
    const more = film(split, 4) - film(whole, 3);
    expect(more).toBeGreaterThan(0);
    expect(more).toBeLessThan(0.35 * perBag);
  });

  it('cuts its plies to size: even shares, ends set back ply by ply, the overlap on the second', () => {
    const excessMm = practice('ply-excess-mm');
    const along = (id: string) =>
      cutList(split, library())
        .filter((cut) => cut.layup === id)
        .map(({ sizeMm, lapsMm }) => [sizeMm[0] - excessMm, lapsMm]);
    const patchMm = Math.sqrt(0.1) * 1000 - excessMm;
    expect(along('skin')).toEqual([
      [1075, 0],
      [1000, 0],
      [925, 0],
      [expect.closeTo(patchMm, 6), 0],
    ]);
    expect(along('skin-2')).toEqual([
      [950, 25],
      [1025, 25],
      [1100, 25],
    ]);
  });

  it('shows under the bag of a section the joint alone, and under the core one skin', () => {
    const part = partOf(split);
    const cured = (id: 'skin-2' | 'core') =>
      bagStack(split, library(), part, [id])
        .layers.filter(({ kind }) => kind === 'cured')
        .map(({ name }) => name);
    expect(cured('skin-2')).toEqual(['Outer skin section 1, cured, at the joint']);
    expect(cured('core')).toEqual(['Outer skin, cured']);
  });

  it('goes into bags of its own on every route, while the core may still be merged with the inner skin', () => {
    const routes = enumerateRoutes(skinsOf(split).concat(partOf(split).layups.slice(2)));
    expect(routes.map(({ id }) => id).toSorted()).toEqual([
      'skin/skin-2/core+inner',
      'skin/skin-2/core/inner',
      'skin/skin-2/core~inner',
    ]);
  });
});

const drawnZone = fc
  .record({
    lengthM: fc.double({ min: 0.4, max: 4, noNaN: true }),
    girthM: fc.double({ min: 0.4, max: 2, noNaN: true }),
    isSized: fc.boolean(),
    outer: fc.integer({ min: 1, max: 5 }),
    inner: fc.integer({ min: 0, max: 3 }),
  })
  .map(({ lengthM, girthM, isSized, outer, inner }): Zone => ({
    areaM2: lengthM * girthM,
    sizeM: isSized ? [lengthM, girthM] : null,
    outer: Array.from({ length: outer }, () => PLY),
    inner: Array.from({ length: inner }, () => PLY),
  }));

it('keep the area of drawn parts, and the cloth but for the overlaps', () => {
  const seen = tally('in two', 'in three', 'inner');
  const short = ({ sizeM, areaM2 }: Zone) =>
    Math.min(...(sizeM ?? [Math.sqrt(areaM2), Math.sqrt(areaM2)]));
  const property = fc.property(
    fc.array(drawnZone, { minLength: 1, maxLength: 3 }),
    fc.integer({ min: 2, max: 3 }),
    (zones, count) => {
      const [whole, split] = [build(zones), build(zones, { skin: count, inner: count })];
      for (const skin of ['skin', 'inner'] as const) {
        const own = partOf(split).layups.filter(({ section }) => section?.of === skin);
        const one = partOf(whole).layups.find(({ id }) => id === skin);
        expect(own).toHaveLength(one ? count : 0);
        if (!one) continue;
        seen.saw(count === 2 ? 'in two' : 'in three');
        if (skin === 'inner') seen.saw('inner');
        expect(sum(own.map(({ areaM2 }) => areaM2))).toBeCloseTo(one.areaM2, 9);
        const plies = (zone: Zone) => (skin === 'skin' ? zone.outer : zone.inner).length;
        const doubledM2 = sum(zones.map((z) => plies(z) * (count - 1) * short(z) * 0.025));
        const moreM2 = sum(own.map(({ plyAreaM2 }) => plyAreaM2)) - one.plyAreaM2;
        expect(moreM2).toBeCloseTo(doubledM2 * laid().rolls, 9);
        const joints = zones.filter((zone) => plies(zone) > 0).map(short);
        for (const { section } of own.slice(1)) {
          expect(section!.jointM).toBeCloseTo(sum(joints), 9);
        }
      }
    },
  );
  forAll(property, { seed: 20_261, numRuns: 60, seen, least: 20 });
});

it('leaves what is infused in one, and takes what is set for a skin to all of its sections', () => {
  const infused = { ...smallBuild(), part: { ...smallBuild().part, sections: { skin: 3 } } };
  const context = (document: Build) => contextOf(document, library(), NOW);
  const dry = context({ ...infused, part: { ...infused.part, process: 'infused' } });
  expect(dry.part.layups.map(({ id }) => id)).toEqual(['skin', 'core', 'inner']);
  const heat = [
    { layup: 'skin', steps: [{ temperatureC: 40, rampKPerHour: 10, holdHours: 8 }] },
    { layup: 'skin-3', steps: [{ temperatureC: 45, rampKPerHour: 10, holdHours: 8 }] },
  ];
  const resin = { ...infused.resin, hardenerFor: { skin: 'slow' } };
  const set = context({ ...infused, heat, resin, helperFor: ['skin'] }).build;
  const warm = set.heat.map(({ layup, steps }) => [layup, steps[0]!.temperatureC]);
  expect(warm).toEqual([
    ['skin', 40],
    ['skin-3', 45],
    ['skin-2', 40],
  ]);
  expect(set.resin.hardenerFor).toEqual({ skin: 'slow', 'skin-2': 'slow', 'skin-3': 'slow' });
  expect(set.helperFor).toEqual(['skin', 'skin-2', 'skin-3']);
});
