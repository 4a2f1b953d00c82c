/** More people never take a plan away: what one can do stays open to two. The order of visits is their number. */
import { describe, expect, it } from 'vitest';
import type { Build } from '../../../app/document/schema.ts';
import { draftRoute, planRoute } from '../../../app/plan/routePlan.ts';
import { leftOverBreakOf } from '../../../app/plan/handsShort.ts';
import { apartRoute, enumerateRoutes } from '../../../app/route/routes.ts';
import { violations } from '../../../app/schedule/check.ts';
import { handsOf } from '../../../app/schedule/network/crew.ts';
import { drawnBuilds } from '../../laws/builds.ts';
import { contextFor, planFor, ROOMY, withZone } from '../judge/builds.ts';

const withOneMore = (document: Build): Build => ({
  ...document,
  crew: [...document.crew, { ...document.crew[0]!, id: 'one-more', name: 'Joel Field' }],
});

/** The plan of every layup in a bag of its own. */
function planOf(document: Build, schedules = 20) {
  const context = contextFor(document);
  return planRoute(context, draftRoute(context, apartRoute(context.part.layups)), schedules);
}

describe('one more person', () => {
  // Drawn by the bench of the laws: the drive asked for two people as soon as there were two.
  const drawn = drawnBuilds(54, 7);
  it.each([36, 53])('leaves the plan of drawn build %d possible', (index) => {
    const { schedule } = planOf(drawn[index]!);
    expect(schedule.placed.some(({ stage }) => stage.startsWith('drive'))).toBe(true);
    const { network } = planOf(withOneMore(drawn[index]!), 0);
    expect(violations(network.problem, schedule.placed)).toEqual([]);
  });

  it('leaves filler over a break where one pair of hands has to, as a last resort', () => {
    // Drawn by the bench of the laws: two do the first fairing in one go, and so the ways of one were dropped.
    const document = drawnBuilds(113, 7)[112]!;
    const routeOf = (id: string) => (build: Build, schedules: number) => {
      const context = contextFor(build);
      const route = enumerateRoutes(context.part.layups).find((one) => one.id === id)!;
      return planRoute(context, draftRoute(context, route), schedules);
    };
    const plan = routeOf('skin+core/inner/closeout');
    const { schedule, leftOverBreak } = plan(document, 20);
    const fair = schedule.placed.find(({ stage }) => stage === 'fair:1')!;
    expect(leftOverBreak).toEqual([]);
    const richer = plan(withOneMore(document), 20);
    expect(violations(richer.network.problem, schedule.placed)).toEqual([]);
    const ways = richer.network.problem.stages.find(({ id }) => id === 'fair:1')!.modes;
    const lasting = (mode: (typeof ways)[number]) =>
      mode.length.kind === 'work' && !mode.length.unbroken;
    expect(ways.some(lasting)).toBe(true);
    expect(ways.filter(lasting).every(({ repair }) => repair)).toBe(true);
    expect(richer.leftOverBreak).toEqual([]);
    expect(leftOverBreakOf(richer.network, schedule)).toEqual([
      expect.objectContaining({ stage: 'fair:1', start: fair.start, end: fair.end }),
    ]);
  });

  it('leaves the smaller batches that one pair of hands mixes', () => {
    const alone: Build = {
      ...withZone(ROOMY, { areaM2: 2 }),
      crew: ROOMY.crew.slice(0, 1),
      resin: { system: 'orrin-40', hardener: 'slow' },
    };
    const [one, two] = [planOf(alone), planOf(withOneMore(alone))];
    const batchesOf = ({ cures }: typeof one) => cures[0]!.batches.skin!.length;
    const { skin } = two.cures[0]!.inHands(1).batches;
    expect(skin).toHaveLength(batchesOf(one));
    expect(batchesOf(one)).toBeGreaterThan(two.cures[0]!.inHands(2).batches.skin!.length);
    expect(violations(two.network.problem, one.schedule.placed)).toEqual([]);
  });

  it('is on the work that takes two, wherever both are there', () => {
    const { network, placed, handsShort } = planOf(withZone(ROOMY, { areaM2: 2 }));
    const demould = network.problem.stages.find(({ kind }) => kind === 'demould')!;
    const mode = demould.modes.find(({ id }) => id === placed.get(demould.id)!.mode)!;
    expect(handsOf(mode)).toBeGreaterThanOrEqual(2);
    expect(handsShort).toEqual([]);
  });
});

describe('the number of a visit', () => {
  const parties: NonNullable<Build['outside']> = [
    { id: 'paint', visit: 1, name: 'Spray shop', workingDays: 3 },
    { id: 'fitter', visit: 2, name: 'Fitter', kind: 'other', workingDays: 1 },
  ];
  const stagesOf = (outside: NonNullable<Build['outside']>) =>
    planFor({ ...ROOMY, outside }).result.stages;

  it('says which comes first, whatever the order of the list', () => {
    expect(stagesOf(parties.toReversed())).toEqual(stagesOf(parties));
  });

  it('puts the fitter before the painter where it is the lower one', () => {
    const swapped = parties.map((party) => ({ ...party, visit: 3 - party.visit! }));
    const starts = Object.fromEntries(
      stagesOf(swapped).map(({ id, start }) => [id, start] as const),
    );
    expect(starts['outside:fitter']! < starts['outside:paint']!).toBe(true);
  });
});
