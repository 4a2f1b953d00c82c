/** Mould lag, a measured room, heat under a bag and a hardener for one cure, through the whole plan. */
import { describe, expect, it } from 'vitest';
import { planResultSchema, type Build } from '../../../app/document/schema.ts';
import { roomOf } from '../../../app/plan/room.ts';
import { temperatureAt } from '../../../app/cure/profile.ts';
import { sheetDataOf } from '../../../app/shop/sheetData.ts';
import { cureCards } from '../../../app/shop/cureCard.ts';
import { shoppingList } from '../../../app/shop/shopping.ts';
import { isoToMinute } from '../../../app/time/zone.ts';
import { read } from '../../support/builds.ts';
import { contextFor, LIBRARY, planFor, ROOMY, withPart, withRow } from '../judge/builds.ts';

const APART: Build = {
  ...ROOMY,
  route: { joints: { 'skin-core': 'apart', 'core-inner': 'apart' } },
};
const TENT: Build = { ...APART, room: { ...APART.room, tent: { maxC: 60 } } };
const heat = (layup: string, temperatureC = 40) => ({
  layup,
  steps: [{ temperatureC, rampKPerHour: 10, holdHours: 8 }],
});
const cureOf = (document: Build, id: string, library = LIBRARY) =>
  planFor(document, 'first', undefined, library).result.cures.find((cure) => cure.id === id)!;
const hours = (from: string | null, to: string | null): number =>
  (isoToMinute(to!)! - isoToMinute(from!)!) / 60;

describe('a mould that lags', () => {
  it('holds back what is laid on it after a cold night, not what is laid off it', () => {
    const cold: Build = { ...APART, room: { temperatureC: { day: 22, night: 14 } } };
    const quick = withRow(LIBRARY, 'moulds', 'board-medium', { lagHours: 0 });
    const gelHours = (library = LIBRARY) => {
      const { firstMix, gel } = cureOf(cold, 'skin', library);
      return hours(firstMix, gel);
    };
    expect(gelHours()).toBeGreaterThan(gelHours(quick) + 0.2);
    const context = contextFor(cold);
    expect(context.room.mould).not.toEqual(context.room.air);
    expect(contextFor(cold, undefined, quick).room.mould).toEqual(context.room.air);
  });
});

describe('a measured room', () => {
  const from = '2027-04-28T00:00:00Z';
  const measured = (place: 'air' | 'part') => ({
    name: 'shelf probe',
    place,
    from,
    temperaturesC: Array.from({ length: 72 }, () => 26),
  });
  const at = (iso: string) => isoToMinute(iso)!;
  const rooms = (place: 'air' | 'part') => {
    const { build, library, first, horizon } = contextFor({
      ...APART,
      room: { temperatureC: { day: 20, night: 16 }, measured: measured(place) },
    });
    return roomOf(build, library, first, horizon);
  };

  it('stands for day and night as far as it goes; the mould lags behind a log of the air alone', () => {
    const [air, part] = [rooms('air'), rooms('part')];
    const [before, early, late, after] = [
      at('2027-04-27T23:30+00:00'),
      at('2027-04-28T00:30+00:00'),
      at('2027-04-28T20:00+00:00'),
      at('2027-05-01T02:00+00:00'),
    ];
    expect(temperatureAt(air.air, before)).toBe(16);
    expect(temperatureAt(air.air, early)).toBe(26);
    expect(temperatureAt(air.air, after)).toBe(16);
    expect(temperatureAt(air.mould, early)!).toBeLessThan(22);
    expect(temperatureAt(air.mould, late)).toBe(26);
    expect(temperatureAt(part.mould, early)).toBe(26);
    expect(temperatureAt(part.air, early)).toBe(16);
  });

  it('makes the cures inside it quicker when it is warmer', () => {
    const warm = { ...APART, room: { ...APART.room, measured: measured('part') } };
    const pinned = { pins: [{ stage: 'layup:skin', start: '2027-04-29T08:00' }] };
    const [logged, expected] = [warm, APART].map((document) =>
      cureOf({ ...document, ...pinned }, 'skin'),
    );
    expect(hours(logged!.firstMix, logged!.gel)).toBeLessThan(
      hours(expected!.firstMix, expected!.gel) - 0.5,
    );
    expect(logged!.temperatureC!.max).toBe(26);
  });
});

describe('heat under the bag of one cure', () => {
  const plain = planFor(TENT);
  const warm = planFor({ ...TENT, heat: [heat('skin')] });
  const skin = (outcome: typeof plain) => outcome.result.cures.find(({ id }) => id === 'skin')!;

  it('brings its milestones forward, raises its Tg, and leaves the others by the room', () => {
    const pair = [plain, warm].map((one) => skin(one));
    const [cool, hot] = pair.map((cure) => hours(cure.firstMix, cure.demouldFrom));
    expect(hot!).toBeLessThan(cool! - 4);
    expect(hours(pair[1]!.firstMix, pair[1]!.gel)).toBeLessThan(
      hours(pair[0]!.firstMix, pair[0]!.gel),
    );
    expect(pair[1]!.tgC!).toBeGreaterThan(pair[0]!.tgC! + 1);
    expect(pair[1]!.temperatureC!.max).toBeGreaterThan(38);
    const inner = warm.result.cures.find(({ id }) => id === 'inner')!;
    expect(inner.temperatureC!.max).toBeLessThanOrEqual(21);
    expect(planResultSchema.safeParse(warm.result).error).toBeUndefined();
  });

  it('holds the tent until the bag comes off, which is not before the programme has run', () => {
    const stage = warm.result.stages.find(({ id }) => id === 'cure:skin')!;
    expect(stage.gear).toContain('tent');
    const long = planFor({
      ...TENT,
      heat: [{ layup: 'skin', steps: [{ temperatureC: 30, rampKPerHour: 10, holdHours: 60 }] }],
    });
    const { start, end } = long.result.stages.find(({ id }) => id === 'cure:skin')!;
    expect(hours(start, end)).toBeGreaterThanOrEqual(60);
    expect(plain.result.stages.find(({ id }) => id === 'cure:skin')!.gear).not.toContain('tent');
  });

  it('is in the curve, in the profile of its cure, and on its card', () => {
    const { start, end, hottestC } = warm.detail.cures['skin']!.heat!;
    expect([end - start, hottestC]).toEqual([114 + 480, 40]);
    expect(temperatureAt(warm.detail.cures['skin']!.profile, end - 30)!).toBeGreaterThan(38);
    const points = warm.detail.curves.find(({ cure }) => cure === 'skin')!.points;
    expect(Math.max(...points.map((point) => point.temperatureC))).toBeGreaterThan(38);
    const card = JSON.stringify(cureCards(sheetDataOf(warm)).find(({ id }) => id === 'cure-skin'));
    expect(card).toContain('tent or oven to 40 °C until');
    expect(card).toContain('Heat off');
  });

  it('makes a post-cure needless where every cure in the mould is hot enough', () => {
    const served = withPart(TENT, { serviceMaxC: 40 });
    const codes = (document: Build) => planFor(document).result.findings.map(({ code }) => code);
    expect(codes(served)).toContain('post-cure-planned');
    const all = { ...served, heat: ['skin', 'core', 'inner'].map((layup) => heat(layup, 45)) };
    expect(codes(all)).not.toContain('post-cure-planned');
    expect(codes({ ...all, heat: all.heat.slice(1) })).toContain('post-cure-planned');
  });
});

describe('a hardener for one cure', () => {
  const own = planFor(APART);
  const mixed = planFor({
    ...APART,
    resin: { system: 'orrin-40', hardener: 'medium', hardenerFor: { core: 'slow' } },
  });

  it('has its own clock, and the scale its own ratio', () => {
    const gel = (outcome: typeof own, id: string) => {
      const cure = outcome.result.cures.find((one) => one.id === id)!;
      return hours(cure.firstMix, cure.gel);
    };
    expect(gel(mixed, 'core')).toBeGreaterThan(gel(own, 'core') + 1);
    expect(Math.abs(gel(mixed, 'skin') - gel(own, 'skin'))).toBeLessThan(0.5);
    const ratio = (cure: string) => {
      const mix = mixed.result.mixes.find((one) => one.cure === cure)!;
      return mix.hardenerG / mix.resinG;
    };
    expect(ratio('core')).toBeCloseTo(0.26, 2);
    expect(ratio('skin')).toBeCloseTo(0.28, 2);
  });

  it('is bought beside the other, each for its own mixes', () => {
    const bought = (outcome: typeof own) =>
      new Map(shoppingList(outcome).map(({ line }) => [line.id, line.quantity]));
    const [one, two] = [bought(own), bought(mixed)];
    const [medium, slow] = ['orrin-40:medium', 'orrin-40:slow'];
    expect(one.has(slow!)).toBe(false);
    expect(two.get(slow!)!).toBeGreaterThan(0);
    expect(two.get(medium!)!).toBeLessThan(one.get(medium!)!);
    expect(two.get(slow!)! + two.get(medium!)!).toBeCloseTo(one.get(medium!)!, 1);
  });

  it('of a merged bag is that of the first layup that names one', () => {
    const bag = planFor({
      ...ROOMY,
      route: { joints: { 'skin-core': 'apart', 'core-inner': 'one-bag' } },
      resin: { system: 'orrin-40', hardener: 'medium', hardenerFor: { inner: 'slow' } },
    });
    const id = bag.result.route.cures.find(({ layups }) => layups.includes('inner'))!.id;
    expect(bag.detail.cures[id]!.hardener).toBe('slow');
    expect(bag.detail.cures['skin']!.hardener).toBe('medium');
  });

  it('that is not known is a fault with its path', () => {
    const result = read({
      ...APART,
      resin: { system: 'orrin-40', hardener: 'medium', hardenerFor: { core: 'snail' } },
    });
    expect(result.ok ? [] : result.faults.map(({ path }) => path)).toEqual([
      'resin.hardenerFor.core',
    ]);
  });
});

describe('a core that springs', () => {
  it('keeps its bag half as long again, or until demould, never longer', () => {
    const flat = (shape: 'flat' | 'double') =>
      withPart(APART, { zones: APART.part.zones.map((zone) => ({ ...zone, shape })) });
    const plain = cureOf(flat('flat'), 'core');
    const curved = cureOf(flat('double'), 'core');
    const off = (cure: typeof plain) => hours(cure.firstMix, cure.debagFrom);
    expect(off(curved)).toBeGreaterThan(off(plain) + 1);
    expect(curved.debagFrom! <= curved.demouldFrom!).toBe(true);
  });
});

describe('the limits of a layup', () => {
  it('never let a film be worked past its gel, nor ask for vacuum before the first mix', () => {
    const steps = [{ temperatureC: 60, rampKPerHour: 600, holdHours: 8 }];
    const hot: Build = { ...TENT, heat: [{ layup: 'skin', steps }] };
    const quick: Build = { ...APART, resin: { system: 'marl-7', hardener: 'fast' } };
    for (const document of [hot, quick]) {
      for (const cure of planFor(document, 'first').result.cures) {
        if (!cure.openUntil || !cure.gel) continue;
        expect(hours(cure.openUntil, cure.gel)).toBeGreaterThanOrEqual(0);
        expect(hours(cure.firstMix, cure.bagBy)).toBeGreaterThanOrEqual(0);
      }
    }
  });
});
