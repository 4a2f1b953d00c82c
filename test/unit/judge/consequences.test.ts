/**
 * What the trade says of merges, release, fills and local plies (common practice, no source), as the
 * plans show it, and turned round when its row of the table is turned round.
 */
import { describe, expect, it } from 'vitest';
import type { Build, ConsequenceRow, JointState, Library } from '../../../app/document/schema.ts';
import { LOOKUPS } from '../../../app/plan/lookups.ts';
import { finishReaches } from '../../../app/document/finish.ts';
import { consequencesOf, fillChoice } from '../../../app/plan/consequences.ts';
import { leverEdit } from '../../../app/judge/levers.ts';
import { whyImpossible } from '../../../app/judge/possible.ts';
import { wetFaultsOf } from '../../../app/plan/wetWindows.ts';
import { draftRoute, planRoute } from '../../../app/plan/routePlan.ts';
import { routeOf } from '../../../app/route/routes.ts';
import { contextFor, LIBRARY, NOW, ROOMY, withPart, withRow, withZone } from './builds.ts';

type Joints = Record<string, JointState>;
const ONE_BAG: Joints = { 'skin-core': 'one-bag', 'core-inner': 'one-bag' };

/** A small part that one bag is possible for, in a steady room; weighed faired, with all its filler. */
const SMALL: Build = withPart(
  withZone(
    { ...ROOMY, resin: { system: 'orrin-40', hardener: 'slow' }, unveiling: '2027-09-30T18:00' },
    { areaM2: 0.6 },
  ),
  { targetIncludes: 'faired' },
);

function planned(document: Build, joints: Joints, library = LIBRARY) {
  const context = contextFor(document, NOW, library);
  const draft = draftRoute(context, routeOf(context.part.layups, joints));
  return {
    plan: planRoute(context, draft, 1),
    reasons: whyImpossible(context, draft, wetFaultsOf(context, draft)),
  };
}

const withEvent = (id: string, change: Partial<ConsequenceRow>): Library =>
  withRow(LIBRARY, 'consequences', id, change);

describe('one bag', () => {
  const days = (joints: Joints, library = LIBRARY) =>
    planned(SMALL, joints, library).plan.schedule.end! / 1440;

  it('saves days against separate cures', () => {
    expect(days({}) - days(ONE_BAG)).toBeGreaterThan(1);
  });
  it('saves none where its fairing took weeks', () => {
    const weeks = withEvent('joint-one-bag', { extraHours: 60 });
    expect(days({}, weeks) - days(ONE_BAG, weeks)).toBeLessThan(0);
  });
  it('can only be recommended under paint', () => {
    const clear = withPart(SMALL, { finish: 'clear' });
    const codes = (library = LIBRARY) =>
      planned(clear, ONE_BAG, library).reasons.map((reason) => reason.code);
    expect(codes()).toContain('finish-not-reachable');
    expect(planned(SMALL, ONE_BAG).reasons).toEqual([]);
    expect(codes(withEvent('joint-one-bag', { bestFinish: 'clear' }))).not.toContain(
      'finish-not-reachable',
    );
  });
});

describe('the filler of a route', () => {
  it('lies on the faired part, not on the bare shell, and is bought', () => {
    const bare = withPart(SMALL, { targetIncludes: 'shell' });
    const [merged, apart] = [planned(bare, ONE_BAG).plan, planned(bare, {}).plan];
    expect(merged.massKg).toBeCloseTo(apart.massKg, 9);
    expect(merged.fillerKg).toBeGreaterThan(apart.fillerKg);
    const bought = (plan: typeof merged) =>
      plan.kit.find(({ id }) => id === 'filler-light')!.quantity;
    expect(bought(merged) - bought(apart)).toBeGreaterThan(merged.fillerKg - apart.fillerKg - 0.1);
    expect(planned(SMALL, ONE_BAG).plan.massKg).toBeGreaterThan(merged.massKg);
  });
});

describe('separate cures', () => {
  it('give straighter fibre: a better finish, less filler, less weight', () => {
    const [apart, merged] = [planned(SMALL, {}).plan, planned(SMALL, ONE_BAG).plan];
    expect(finishReaches(apart.finish, 'clear')).toBe(true);
    expect(finishReaches(merged.finish, 'clear')).toBe(false);
    expect(merged.massKg).toBeGreaterThan(apart.massKg);
    const kind = withEvent('joint-one-bag', { bestFinish: 'clear', fillerKgM2: -0.1 });
    const turned = planned(SMALL, ONE_BAG, kind).plan;
    expect(finishReaches(turned.finish, 'clear')).toBe(true);
    expect(turned.massKg).toBeLessThan(planned(SMALL, {}, kind).plan.massKg);
  });
  it('pay nothing for a joint behind the cured skin, unless the table says it shows', () => {
    const inner: Joints = { 'core-inner': 'one-bag' };
    expect(planned(SMALL, inner).plan.massKg).toBeCloseTo(planned(SMALL, {}).plan.massKg, 6);
    const anywhere = withEvent('joint-one-bag', { touches: 'any' });
    const [merged, apart] = [planned(SMALL, inner, anywhere), planned(SMALL, {}, anywhere)];
    expect(merged.plan.massKg).toBeGreaterThan(apart.plan.massKg);
    expect(merged.plan.finish).toBe('painted');
  });
});

describe('filling', () => {
  it('in one heavy go beats several thin ones, each with its drying time', () => {
    const choice = fillChoice(LIBRARY, 3)!;
    expect(choice.better).toBe('one-heavy');
    expect(choice.extraMinutes).toBeGreaterThan(60);
    expect(choice.extraWaitHoursAt20C).toBeGreaterThanOrEqual(12);
    const turned = withEvent('many-thin-fills', {
      fairMinutesPerM2: -20,
      extraHours: -1,
      waitHoursAt20C: 0,
    });
    expect(fillChoice(turned, 3)!.better).toBe('several-thin');
  });
});

/** The price of what is expected of the release, hours. */
function releaseHours(document: Build, release: string, library = LIBRARY): number {
  const { plan } = planned({ ...document, mould: { release } }, {}, library);
  const line = plan.price.find((one) => one.event === 'hard-demould');
  return line ? line.minutes / 60 : 0;
}

describe('a hard demould', () => {
  it('costs about a day of filling on a part of some 4 m2', () => {
    const large = withZone(SMALL, { areaM2: 3.9, edgeM: 7.6 });
    const sticks = withRow(LIBRARY, 'releases', 'wax-paste', { hardDemouldChance: 1 });
    const hours = releaseHours(large, 'wax-paste', sticks);
    expect(hours).toBeGreaterThan(6);
    expect(hours).toBeLessThan(12);
    const easy = {
      ...sticks,
      ...{
        consequences: withEvent('hard-demould', {
          fairMinutesPerM2: 0,
          fairMinutesPerEdgeM: 0,
          extraHours: 0,
        }).consequences,
      },
    };
    expect(releaseHours(large, 'wax-paste', easy)).toBe(0);
  });
  it('is mostly spared by a slick film, at little cost', () => {
    const wax = releaseHours(SMALL, 'wax-paste');
    const film = releaseHours(SMALL, 'film-slick');
    expect(film).toBeLessThan(0.35 * wax);
    const cost = (release: string) =>
      planned({ ...SMALL, mould: { release } }, {}).plan.materialCostMinor;
    const extra = cost('film-slick') - cost('wax-paste');
    expect(extra).toBeLessThan(0.05 * cost('wax-paste'));
    const rough = withRow(LIBRARY, 'releases', 'film-slick', { hardDemouldChance: 0.5 });
    expect(releaseHours(SMALL, 'film-slick', rough)).toBeGreaterThan(
      releaseHours(SMALL, 'wax-paste', rough),
    );
  });
});

describe('local plies', () => {
  const local = (place: 'between' | 'after'): Build =>
    withZone(SMALL, { local: [{ cloth: 'glass-twill-300', areaM2: 0.2, place }] });
  const hours = (place: 'between' | 'after', library = LIBRARY) =>
    planned(local(place), {}, library).plan.labourHours;

  it('cost least between the skins, laid with the outer skin', () => {
    const together = planned(local('between'), { 'skin-local': 'one-bag' }).plan;
    expect(together.labourHours).toBeLessThan(hours('after'));
    expect(hours('between')).toBeLessThan(hours('after'));
  });
  it('would cost less after demould if the table paid for it', () => {
    const paid = withEvent('local-after', { extraHours: -20 });
    expect(hours('between', paid)).toBeGreaterThan(hours('after', paid));
  });
  it('move there by a lever', () => {
    const edit = leverEdit(local('after'), 'local-between', LIBRARY, LOOKUPS)!;
    expect(planned(edit.document, {}).plan.labourHours).toBeCloseTo(hours('between'), 6);
  });
});

describe('core on an upright face', () => {
  const upright = withZone(SMALL, { vertical: true });
  const line = (joints: Joints, document = upright) =>
    planned(document, joints).plan.price.find((one) => one.event === 'vertical-core');

  it('is priced, and more so where it is bedded with the outer skin', () => {
    expect(line({}, SMALL)).toBeUndefined();
    expect(line({})!.minutes).toBeGreaterThan(0);
    expect(line(ONE_BAG)!.minutes).toBeGreaterThan(line({})!.minutes);
    expect(line({})!.bestFinish).toBe('clear');
    expect(line(ONE_BAG)!.bestFinish).toBe('painted');
  });
});

describe('the price of a route', () => {
  it('is made of its lines', () => {
    const { plan } = planned(SMALL, ONE_BAG);
    const filler = plan.price.reduce((sum, line) => sum + line.fillerKg, 0);
    const apart = planned(SMALL, {}).plan;
    const apartFiller = apart.price.reduce((sum, line) => sum + line.fillerKg, 0);
    expect(plan.massKg - apart.massKg).toBeCloseTo(filler - apartFiller, 9);
    expect(plan.price.filter((line) => line.event === 'joint-one-bag')).toHaveLength(2);
  });
  it('has no fairing on a hidden part', () => {
    const context = contextFor(withPart(SMALL, { finish: 'hidden' }));
    const route = routeOf(context.part.layups, ONE_BAG);
    const hidden = consequencesOf({ ...context, route });
    expect(hidden.fillerKg).toBe(0);
  });
});

describe('a part of half or twice the area', () => {
  const sized = (factor: number): Build =>
    withZone(withZone(SMALL, { areaM2: 1.2 * factor }), { edgeM: 4.4 * Math.sqrt(factor) });
  const of = (factor: number) => {
    const { plan } = planned(sized(factor), {});
    const { plan: merged } = planned(sized(factor), ONE_BAG);
    return { plan, merged, filler: merged.massKg - plan.massKg };
  };
  const [half, one, twice] = [of(0.5), of(1), of(2)];

  it('weighs about half or twice', () => {
    expect(twice.plan.massKg / one.plan.massKg).toBeCloseTo(2, 1);
    expect(half.plan.massKg / one.plan.massKg).toBeCloseTo(0.5, 1);
    expect(twice.filler / one.filler).toBeCloseTo(2, 6);
  });
  it('takes more than half and less than twice the hours: setting up does not scale', () => {
    const up = twice.plan.labourHours / one.plan.labourHours;
    const down = half.plan.labourHours / one.plan.labourHours;
    expect(up).toBeGreaterThan(1.2);
    expect(up).toBeLessThan(2);
    expect(down).toBeGreaterThan(0.5);
    expect(down).toBeLessThan(0.85);
  });
  it('costs less than twice the material: cups, tape and brushes are there already', () => {
    const up = twice.plan.materialCostMinor / one.plan.materialCostMinor;
    expect(up).toBeGreaterThan(1.3);
    expect(up).toBeLessThan(2.05);
  });
});
