/** The search over all levers: a front that no choice dominates, three offers, the same every time. */
import { describe, expect, it } from 'vitest';
import type { Build } from '../../../app/document/schema.ts';
import {
  combinations,
  greedySets,
  leverDimensions,
  leverSets,
} from '../../../app/judge/leverSpace.ts';
import { recommend } from '../../../app/judge/recommend.ts';
import { searchLevers, type Choice, type Screened } from '../../../app/judge/search.ts';
import { leverSearch } from '../../../app/answer/leverSearch.ts';
import { contextFor, LIBRARY, NOW, planFor, ROOMY } from './builds.ts';

const LIMITS = {
  mostLooked: 5000,
  mostScreened: 120,
  mostPlanned: 16,
  mostOdds: 5,
  mostOfOneCure: 3,
};
const WISHES = { targetMassKg: null, currency: 'EUR' };
const LATE: Build = {
  ...ROOMY,
  crew: [{ name: 'Ida Moss' }, { name: 'Per Lunde' }],
  unveiling: '2027-05-04T18:00',
};

function searched(document: Build, limits = LIMITS) {
  const run = leverSearch(document, LIBRARY, NOW, limits);
  let step = run.next();
  const phases = new Set<string>();
  let firstFront = 0;
  for (let yields = 1; !step.done; yields++) {
    phases.add(step.value.phase);
    if (firstFront === 0 && step.value.front.length > 0) firstFront = yields;
    step = run.next();
  }
  return { result: step.value, phases, firstFront };
}

describe('sets of levers', () => {
  it('hold one alternative of each kind, fewest levers first', () => {
    const open = ['hardener-fast', 'hardener-slow', 'saturday', 'longer-day', 'release-wax'];
    const sets = [...leverSets(leverDimensions(open))];
    expect(sets).toHaveLength(3 * 4 * 2);
    expect(sets[0]).toEqual([]);
    expect(sets.every((set) => set.filter((id) => id.startsWith('hardener-')).length <= 1)).toBe(
      true,
    );
    const sizes = sets.map((set) => set.length);
    expect(sizes).toEqual(sizes.toSorted((a, b) => a - b));
    expect(new Set(sets.map((set) => set.join())).size).toBe(sets.length);
  });

  it('take one later slot of each party', () => {
    const open = ['slot:a:2027-05-04', 'slot:a:2027-05-05', 'slot:b:2027-05-04'];
    expect([...leverSets(leverDimensions(open))]).toHaveLength(3 * 2);
  });

  it('take one hardener and one tent of each layup', () => {
    const open = ['hardener:skin:fast', 'hardener:skin:slow', 'hardener:core:fast', 'tent:core:40'];
    const sets = [...leverSets(leverDimensions(open))];
    expect(sets).toHaveLength(3 * 2 * 2);
    expect(sets.at(-1)).toEqual(['hardener:skin:slow', 'hardener:core:fast', 'tent:core:40']);
  });

  it('begin with what helps most, put together in the order of pulling', () => {
    const dimensions = leverDimensions(['hardener-fast', 'saturday', 'weekend', 'tent:core:40']);
    const gains: Record<string, number> = { 'hardener-fast': 60, saturday: 300, weekend: 900 };
    const sets = greedySets(dimensions, (id) => gains[id] ?? 100, 5);
    expect(sets).toEqual([
      ['weekend', 'tent:core:40'],
      ['hardener-fast', 'weekend', 'tent:core:40'],
    ]);
  });

  it('come to thousands for an ordinary build', () => {
    const context = contextFor(LATE);
    const open = ['hardener-fast', 'hardener-slow', 'warm-nights', 'warmer-room', 'heated-tent'];
    open.push(
      'saturday',
      'weekend',
      'longer-day',
      'another-hand',
      'release-a',
      'release-b',
      'release-c',
    );
    const routes = 3 ** (context.part.layups.length - 1);
    expect(combinations(leverDimensions(open)) * routes).toBeGreaterThan(2000);
  });
});

describe('the search on a build that is late', () => {
  const { result, phases, firstFront } = searched(LATE);

  it('goes through all its phases and shows a front before it has planned all', () => {
    expect([...phases]).toEqual(['screen', 'plan', 'odds']);
    expect(firstFront).toBeGreaterThan(0);
    expect(result.screened).toBeGreaterThan(LIMITS.mostScreened - 1);
  });

  it('finds ways to fit, each as its own document plans it', () => {
    expect(planFor(LATE).result.fits).toBe(false);
    const fitting = result.front.filter((choice) => choice.fits);
    expect(fitting.length).toBeGreaterThan(0);
    for (const choice of fitting) {
      const own = planFor(choice.document).result;
      expect([choice.id, own.stages.length > 0 && own.route.id]).toEqual([choice.id, choice.route]);
      expect(own.totals.labourHours).toBeCloseTo(choice.labourHours, 0);
      expect(choice.document.levers!.map((lever) => lever.id)).toEqual(
        choice.levers.map((one) => one.id),
      );
    }
  });

  it('never bounds a choice later than its plan is', () => {
    for (const choice of result.front)
      expect(choice.lateBound).toBeLessThanOrEqual(choice.lateMinutes);
  });

  it('keeps nothing that another dominates in everything', () => {
    const worse = (a: Choice, b: Choice) =>
      a.onTime < b.onTime &&
      a.massKg > b.massKg + 0.05 &&
      a.costMinor > b.costMinor + 1000 &&
      a.labourHours > b.labourHours + 1 &&
      a.codes.length > b.codes.length &&
      a.finish === b.finish;
    for (const a of result.front) for (const b of result.front) expect(worse(a, b)).toBe(false);
  });

  it('offers up to three, all different, each in one sentence', () => {
    expect(result.offers.length).toBeGreaterThan(0);
    expect(result.offers.length).toBeLessThanOrEqual(3);
    expect(new Set(result.offers.map((offer) => offer.choice.id)).size).toBe(result.offers.length);
    for (const { sentence } of result.offers) {
      expect(sentence).toMatch(/^[A-Z][^:]*: .+ kg, €[\d,]+\.$/);
    }
  });

  it('says the same again', () => {
    const again = searched(LATE).result;
    expect(JSON.stringify(again)).toBe(JSON.stringify(result));
  });

  it('stops where it is left', () => {
    const run = leverSearch(LATE, LIBRARY, NOW, LIMITS);
    run.next();
    expect(run.return(undefined as never).done).toBe(true);
    expect(run.next().done).toBe(true);
  });
});

describe('a cure that holds everything up', () => {
  // A cold shop with a tent, whose one slow cure is what the date depends on.
  const COLD: Build = {
    ...ROOMY,
    room: { temperatureC: { day: 18, night: 16 }, tent: { maxC: 60 } },
    resin: { system: 'orrin-40', hardener: 'medium' },
    unveiling: '2027-05-05T18:00',
  };
  it('is searched with its own hardener and its own tent', () => {
    const { result } = searched(COLD, { ...LIMITS, mostPlanned: 48, mostScreened: 400 });
    const ids = new Set(result.front.flatMap((one) => one.levers.map((lever) => lever.id)));
    expect([...ids].some((id) => /^(hardener|tent):/.test(id))).toBe(true);
    for (const choice of result.front.filter((one) => one.fits)) {
      expect(planFor(choice.document).result.fits).toBe(true);
    }
  });
});

describe('planning only what may fit', () => {
  const choice = (id: string, more: Partial<Choice>): Choice => ({
    id,
    levers: [],
    route: 'skin',
    joints: {},
    document: ROOMY,
    lateBound: -600,
    labourHours: 10,
    costMinor: 1000,
    massKg: 1,
    finish: 'painted',
    lateMinutes: -600,
    fits: true,
    onTime: 0.9,
    onTimeCounted: false,
    codes: [],
    ...more,
  });
  const run = (kept: readonly Choice[]) => {
    const planned: string[] = [];
    const tools = {
      screen: () => ({ looked: kept.length, kept: kept as readonly Screened[] }),
      plan: (one: Screened) => (planned.push(one.id), kept.find((other) => other.id === one.id)!),
      odds: (one: Choice) => one.onTime,
    };
    const search = searchLevers([], tools, LIMITS, WISHES);
    let step = search.next();
    while (!step.done) step = search.next();
    return { planned, result: step.value };
  };

  it('leaves out what the bound rules out, unless all is ruled out', () => {
    const good = choice('good', {});
    const late = choice('late', { lateBound: 60, costMinor: 1 });
    expect(run([good, late]).planned).toEqual(['good']);
    expect(run([late]).planned).toEqual(['late']);
    expect(run([choice('never', { lateBound: Infinity })]).planned).toEqual([]);
  });

  it('says when one choice is first in more ways than one', () => {
    const [only] = recommend([choice('a', {})], WISHES);
    expect(only!.why).toEqual(['surest', 'cheapest', 'best-part', 'least-work']);
    expect(only!.sentence).toMatch(/^Surest, cheapest, best part and least work: as it stands; /);
  });

  it('does not call cheapest what hardly holds, nor least work what costs a fortune', () => {
    const sure = choice('sure', { onTime: 0.75, costMinor: 5000 });
    const cheap = choice('cheap', { onTime: 0.3, costMinor: 100 });
    const dear = choice('dear', { onTime: 0.75, costMinor: 90_000, labourHours: 2 });
    const offers = recommend([cheap, sure, dear], WISHES);
    expect(offers[0]).toMatchObject({ choice: { id: 'sure' } });
    expect(offers[0]!.why).toEqual(['surest', 'cheapest', 'best-part', 'least-work']);
    // The others fill the three places, and are called no more than they are.
    expect(offers.slice(1).map(({ choice: { id }, why }) => [id, ...why])).toEqual([
      ['dear', 'next-surest'],
      ['cheap', 'next-surest'],
    ]);
  });

  it('takes the light ones before the cheap ones where there is a target', () => {
    const heavy = choice('heavy', { massKg: 9, costMinor: 1 });
    const light = choice('light', { massKg: 4 });
    const offers = recommend([heavy, light], { targetMassKg: 5, currency: 'EUR' });
    expect(offers.map((offer) => offer.choice.id)).toEqual(['light']);
  });
});
