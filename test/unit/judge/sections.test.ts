/** A skin whose wet work outlasts its resin, laid in sections with staggered overlaps. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { plan } from '../../../app/answer/plan.ts';
import { readLeverId } from '../../../app/document/ids.ts';
import type { Build } from '../../../app/document/schema.ts';
import { applyLever } from '../../../app/judge/levers.ts';
import { contextOf } from '../../../app/plan/context.ts';
import { bagByOf } from '../../../app/plan/cureTimes.ts';
import { LOOKUPS } from '../../../app/plan/lookups.ts';
import { FULL_ANSWER } from '../../../app/plan/outcome.ts';
import { draftRoute, planRoute, type RoutePlan } from '../../../app/plan/routePlan.ts';
import { apartRoute } from '../../../app/route/routes.ts';
import { violations } from '../../../app/schedule/check.ts';
import { textOf } from '../../../app/shop/tree.ts';
import { isoToMinute, minuteToLocal } from '../../../app/time/zone.ts';
import { forAll, tally } from '../../support/draws.ts';
import { library, NOW, read, smallBuild } from '../../support/builds.ts';
import { buildSheets } from '../../support/sheets.ts';

const PLY = { cloth: 'carbon-twill-200' };

/** A wide skin alone on its mould, laid by one or two. */
const build = (areaM2: number, names = ['Mina Vale'], hardener = 'slow'): Build => ({
  ...smallBuild(),
  part: { zones: [{ areaM2, outer: [PLY, PLY], inner: [] }] },
  mould: { release: 'semi-permanent' },
  resin: { system: 'orrin-40', hardener },
  crew: names.map((name) => ({ name })),
  unveiling: '2027-12-01T10:00',
});

const told = (document: Build) => {
  const outcome = plan(document, library(), NOW, FULL_ANSWER);
  const { result } = outcome;
  return {
    outcome,
    result,
    levers: result.findings.flatMap(({ levers }) => levers),
    stops: result.findings.flatMap(({ severity, code }) => (severity === 'stop' ? [code] : [])),
    route: outcome.detail.routes[result.route.id]!,
  };
};

/** Wet stretches with their bag's due time, of those that the plan does not word as too long. */
const wetInTime = (document: Build, { cures, network, placed }: RoutePlan) => {
  const context = contextOf(document, library(), NOW);
  return cures.flatMap((settled) => {
    const stage = `layup:${settled.cure.layups[0]!.id}`;
    const spot = placed.get(stage);
    const isTold =
      network.workedThrough[stage] !== undefined ||
      network.leftOff.some((one) => one.stage === stage && one.rule === 'bag-down');
    if (!spot || isTold) return [];
    return [{ stage, isInTime: spot.end <= bagByOf(context, settled, spot.start)! }];
  });
};

/** The plan of every layup in a bag of its own. */
function planned(document: Build): RoutePlan {
  const context = contextOf(document, library(), NOW);
  return planRoute(context, draftRoute(context, apartRoute(context.part.layups)), 20);
}

const isSections = ({ id }: { readonly id: string }) => readLeverId(id)?.lever === 'sections';

describe('a skin of 5 m2 that one person cannot lay while it is open', () => {
  const document = build(5);
  const before = told(document);
  const lever = before.result.findings
    .find(({ code }) => code === 'open-time-short')!
    .levers.find(isSections)!;
  const changed = applyLever(document, lever.id, library(), LOOKUPS)!;
  const after = told(changed);

  it('is offered in two sections, with what they cost and both answers', () => {
    expect(lever.label).toBe('Lay the outer skin in 2 sections, one after the other');
    expect(lever.clears).toContain('open-time-short');
    expect(lever.before).toMatchObject({ fits: false, route: ['Outer skin'] });
    expect(lever.after).toMatchObject({
      fits: true,
      stops: 0,
      route: ['Outer skin section 1', 'Outer skin section 2'],
    });
    const more = after.result.totals.materialCost - before.result.totals.materialCost;
    expect(more).toBeGreaterThan(0);
    // Material by both plans, and the hours at the shop's wage.
    expect(lever.cost).toBeGreaterThan(more);
    expect(lever.sideEffects[0]).toMatch(
      /^One more cure with its bag, its watched hour and its night; /,
    );
    expect(lever.sideEffects[1]).toContain('2.2 m of joint');
    expect(lever.sideEffects.join(' ')).toContain('away from corners, hard points');
  });

  it('charges the hours that the plan of the changed build has more, but for fairing its step', () => {
    const minutes = (of: typeof before) =>
      of.route.labour
        .filter((entry) => entry.of === 'stage' && !['fair', 'prime'].includes(entry.kind))
        .reduce((sum, { personMinutes }) => sum + personMinutes, 0);
    const material = after.result.totals.materialCost - before.result.totals.materialCost;
    const wage = library().practice.find(({ id }) => id === 'labour-minor-per-h')!.value;
    const charged = ((lever.cost - material) / wage) * 60;
    // Looks at a gel and a surface abraded again are of a plan, not of the sections.
    expect(Math.abs(charged - (minutes(after) - minutes(before)))).toBeLessThan(60);
  });

  it('fits once it is taken: each section in its open time, by a plan that breaks no rule', () => {
    expect(read(changed).ok).toBe(true);
    expect(before.stops).toContain('open-time-short');
    expect(after.stops).toEqual([]);
    expect(after.result.fits).toBe(true);
    const own = planned(changed);
    expect(violations(own.network.problem, own.schedule.placed)).toEqual([]);
    expect(wetInTime(changed, own)).toEqual([
      { stage: 'layup:skin', isInTime: true },
      { stage: 'layup:skin-2', isInTime: true },
    ]);
  });

  it('cures the first section before its joint is made ready, after the bare mould has its coat', () => {
    const at = (id: string) => {
      const { start, end } = after.result.stages.find((one) => one.id === id)!;
      return { start: isoToMinute(start!)!, end: isoToMinute(end!)! };
    };
    const order = [
      'layup:skin',
      'cure:skin',
      'bag-off:skin',
      'release:skin-2',
      'prepare:skin-2',
      'layup:skin-2',
      'cure:skin-2',
      'demould',
    ];
    order.slice(1).forEach((id, i) => {
      const isWithin = id.startsWith('cure');
      const { start, end } = at(order[i]!);
      expect(at(id).start, id).toBeGreaterThanOrEqual(isWithin ? start : end);
    });
    const settles = library().releases.find(({ id }) => id === 'semi-permanent')!.lastWaitMinutes;
    expect(at('layup:skin-2').start).toBeGreaterThanOrEqual(at('release:skin-2').end + settles);
    const stage = after.result.stages.find(({ id }) => id === 'prepare:skin-2')!;
    expect(stage.name).toMatch(/^Strip peel ply off the joint, /);
  });

  it('weighs more by the overlaps and the filler of the step, and costs both in the table of its route', () => {
    expect(after.route.price.map(({ event }) => event)).toContain('section-joint');
    const fillerKg = ({ route }: typeof before) =>
      route.price.reduce((sum, line) => sum + line.fillerKg, 0);
    expect(fillerKg(after)).toBeGreaterThan(fillerKg(before));
    const shell = ({ outcome }: typeof before) => {
      const { fibre, resin } = outcome.detail.part.massKg;
      return (fibre + resin) * 1000;
    };
    const ref = readLeverId(lever.id);
    expect(ref).toMatchObject({ overlapG: Math.round(shell(after) - shell(before)) });
  });

  it('has cards of its own for each section, and its plies in the ply book', () => {
    const { sheets } = buildSheets(after.outcome);
    const ids = sheets.map(({ id }) => id);
    for (const kind of ['go', 'mix', 'cure']) {
      expect(ids).toContain(`${kind}-skin`);
      expect(ids).toContain(`${kind}-skin-2`);
    }
    const text = (id: string) => textOf(sheets.find((one) => one.id === id)!.body);
    expect(text('ply-book')).toContain('Outer skin section 2');
    expect(text('ply-book')).toContain('25 over the section before');
    expect(text('go-skin-2')).toContain('Plies counted: 2 pieces, numbers 3, 4 of the ply book');
    expect(text('go-skin-2')).toContain('Bare mould wiped, released again');
    expect(text('go-skin')).not.toContain('released again');
    const mixed = (cure: string) =>
      after.result.mixes
        .filter((mix) => mix.cure === cure)
        .reduce((sum, { totalG }) => sum + totalG, 0);
    expect(mixed('skin-2')).toBeGreaterThan(mixed('skin'));
    expect(mixed('skin-2')).toBeLessThan(1.1 * mixed('skin'));
  });

  it('is not offered again, nor once the first section has begun', () => {
    expect(applyLever(changed, lever.id, library(), LOOKUPS)).toBeNull();
    expect(after.levers.filter(isSections)).toEqual([]);
    const start = minuteToLocal(NOW, document.zone);
    const begun = {
      ...document,
      records: [{ stage: 'layup:skin', start: `${start.date}T${start.time}`, end: null }],
    };
    expect(told(begun).levers.filter(isSections)).toEqual([]);
  });

  it('is hidden where one more cure would miss the day', () => {
    const ends = before.result.stages.map(({ end }) => isoToMinute(end!)!);
    const { date } = minuteToLocal(Math.max(...ends) + 1440, document.zone);
    const late = told({ ...document, unveiling: `${date}T20:00` });
    expect(late.stops).toContain('open-time-short');
    expect(late.levers.filter(isSections)).toEqual([]);
  });
});

it('is hidden where not even three sections hold', () => {
  const wide = told(build(4, ['Mina Vale', 'Tor Aske'], 'fast'));
  expect(wide.stops).toContain('open-time-short');
  expect(wide.levers.filter(isSections)).toEqual([]);
});

it('plans drawn parts in sections, each wet stretch in its open time, by plans that break no rule', () => {
  const seen = tally('in two', 'in three', 'both skins', 'with core');
  const property = fc.property(
    fc.record({
      areaM2: fc.double({ min: 0.4, max: 5, noNaN: true }),
      skin: fc.integer({ min: 1, max: 3 }),
      inner: fc.integer({ min: 1, max: 3 }),
      cored: fc.boolean(),
      structural: fc.boolean(),
      release: fc.constantFrom('wax-paste', 'semi-permanent', 'pva-over-wax', 'film-slick'),
      hardener: fc.constantFrom('medium', 'slow'),
      people: fc.integer({ min: 1, max: 3 }),
    }),
    ({ areaM2, skin, inner, cored, structural, release, hardener, people }) => {
      const names = ['Mina Vale', 'Tor Aske', 'Joel Field'].slice(0, people);
      const core = cored ? { material: 'pvc-80', thicknessMm: 8 } : null;
      const document: Build = {
        ...build(areaM2, names, hardener),
        part: {
          zones: [{ areaM2, outer: [PLY, PLY], core, inner: [PLY] }],
          sections: { skin, inner },
          structural,
        },
        mould: { release },
      };
      const context = contextOf(document, library(), NOW);
      const { layups } = context.part;
      expect(layups).toHaveLength(skin + inner + (cored ? 1 : 0));
      const own = planRoute(context, draftRoute(context, apartRoute(layups)), 1);
      expect(own.route.cures).toHaveLength(layups.length);
      expect(own.schedule.obstacles).toEqual([]);
      expect(violations(own.network.problem, own.schedule.placed)).toEqual([]);
      for (const { stage, isInTime } of wetInTime(document, own)) {
        expect(isInTime, stage).toBe(true);
      }
      if (skin > 1 && inner > 1) seen.saw('both skins');
      if (skin === 2 || inner === 2) seen.saw('in two');
      if (skin === 3 || inner === 3) seen.saw('in three');
      if (cored && inner > 1) seen.saw('with core');
    },
  );
  forAll(property, { seed: 20_262, numRuns: 40, seen, least: 5 });
});
