/** The odds of real plans: no risk gives the plan, more risk gives less chance, same bytes twice. */
import { describe, expect, it } from 'vitest';
import type { Library } from '../../../app/document/schema.ts';
import { oddsOf } from '../../../app/judge/odds.ts';
import { chanceWords, roundedToFivePercent } from '../../../app/messages/odds.ts';
import { judge } from '../../../app/answer/judgement.ts';
import { oddsNow, replayOdds } from '../../../app/answer/odds.ts';
import type { Build } from '../../../app/document/schema.ts';
import { contextFor, LIBRARY, NOW, planFor, ROOMY, withRow } from './builds.ts';

const BUILD: Build = {
  ...ROOMY,
  outside: [{ id: 'paint', name: 'Spray shop', workingDays: 4 }],
};

function oddsFor(library: Library, document = BUILD, replays = 600) {
  const context = contextFor(document, NOW, library);
  const { taken } = judge(context, document, library, { scope: 'first', schedules: 1 });
  return { odds: oddsNow(context, taken, { replays, costs: true })!, taken, context };
}

/** A library in which nothing strays and nothing goes wrong. */
function calm(library: Library): Library {
  const none = ['finishing-spread', 'room-spread-k', 'leak-chance', 'outside-slip-chance'];
  const repair = ['dull-core-chance', 'repair-chance-times', 'ground-through-chance'];
  const rows = [...none, 'delivery-slip-chance', ...repair];
  const quiet = rows.reduce((all, id) => withRow(all, 'practice', id, { value: 0 }), library);
  return {
    ...quiet,
    labour: quiet.labour.map((row) => ({ ...row, spread: 0, low: null, high: null })),
    releases: quiet.releases.map((row) => ({ ...row, hardDemouldChance: 0 })),
  };
}

describe('odds', () => {
  it('without risk are the plan itself', () => {
    const { odds, taken } = oddsFor(calm(LIBRARY));
    for (const { minute } of odds.holds) expect(minute).toBe(taken.schedule.end);
    expect(odds.onTimeCounted).toBe(1);
    expect(odds.costs).toEqual([]);
  });

  it('fall by one in four where a thin skin may be ground through, and by nothing on a thick one', () => {
    const only = (chance: number): Library =>
      withRow(calm(LIBRARY), 'practice', 'ground-through-chance', { value: chance });
    const end = (document: Build): string => {
      const at = oddsFor(only(0.25), document).taken.schedule.end!;
      return new Date(at * 60_000).toISOString().slice(0, 16);
    };
    // Nothing else strays: the date is the very end of the plan, which holds the repair at its average.
    const tight = (document: Build): Build => ({
      ...document,
      zone: 'UTC',
      unveiling: end({ ...document, zone: 'UTC' }),
    });
    const onTime = (document: Build, chance: number) =>
      oddsFor(only(chance), document, 2000).odds.onTimeCounted;
    const thin = tight(BUILD);
    expect(onTime(thin, 0)).toBe(1);
    expect(onTime(thin, 0.25)).toBeCloseTo(0.75, 1);
    expect(onTime(thin, 0.5)).toBeCloseTo(0.5, 1);
    const ply = { cloth: 'carbon-twill-200' };
    const thick = tight({
      ...BUILD,
      part: {
        ...BUILD.part,
        zones: BUILD.part.zones.map((zone) => ({ ...zone, outer: [ply, ply, ply, ply, ply] })),
      },
    });
    expect(onTime(thick, 0.25)).toBe(1);
  });

  it('give the same answer twice and whatever the chunks', () => {
    const first = oddsFor(LIBRARY);
    expect(JSON.stringify(oddsFor(LIBRARY).odds)).toBe(JSON.stringify(first.odds));
    const run = replayOdds(first.context, first.taken, { replays: 600, costs: true });
    let step = run.next();
    let yields = 0;
    while (!step.done) {
      yields++;
      expect(step.value.done).toBeLessThanOrEqual(step.value.total);
      step = run.next();
    }
    expect(yields).toBeGreaterThan(2);
    expect(JSON.stringify(step.value)).toBe(JSON.stringify(first.odds));
  });

  it('never promise an earlier day for a greater chance', () => {
    const { odds } = oddsFor(LIBRARY);
    const [half, four, most] = odds.holds.map((one) => one.minute!);
    expect(half).toBeLessThanOrEqual(four!);
    expect(four).toBeLessThanOrEqual(most!);
    for (let i = 1; i < odds.days.length; i++) {
      expect(odds.days[i]!.chance).toBeGreaterThanOrEqual(odds.days[i - 1]!.chance);
    }
  });

  it('fall as the date comes closer', () => {
    const end = oddsFor(LIBRARY).taken.schedule.end!;
    const day = new Date(end * 60_000).toISOString().slice(0, 10);
    const close = oddsFor(LIBRARY, { ...BUILD, unveiling: `${day}T23:00` }).odds;
    const far = oddsFor(LIBRARY).odds;
    expect(close.onTimeCounted).toBeLessThan(far.onTimeCounted);
    expect(far.onTimeCounted).toBeGreaterThan(0.9);
  });

  it.each([
    ['outside-slip-chance', 1],
    ['finishing-spread', 0.9],
    ['delivery-slip-chance', 1],
    ['leak-minutes', 900],
  ] as const)('a worse %s makes the safe day no earlier', (row, value) => {
    const usual = oddsFor(LIBRARY).odds.holds[1]!.minute!;
    const worse = oddsFor(withRow(LIBRARY, 'practice', row, { value })).odds.holds[1]!.minute!;
    expect(worse).toBeGreaterThanOrEqual(usual);
    if (row !== 'leak-minutes') expect(worse).toBeGreaterThan(usual);
  });

  it('a release that always sticks costs days', () => {
    const sticks = {
      ...LIBRARY,
      releases: LIBRARY.releases.map((row) => ({ ...row, hardDemouldChance: 1 })),
    };
    const never = {
      ...LIBRARY,
      releases: LIBRARY.releases.map((row) => ({ ...row, hardDemouldChance: 0 })),
    };
    const [bad, good] = [oddsFor(sticks).odds, oddsFor(never).odds];
    expect(bad.holds[0]!.minute!).toBeGreaterThan(good.holds[0]!.minute!);
  });

  it('name the stage that costs most', () => {
    const slips = withRow(LIBRARY, 'practice', 'outside-slip-chance', { value: 1 });
    const { odds } = oddsFor(slips);
    expect(odds.costs[0]!.stage).toBe('outside:paint');
    expect(odds.costs[0]!.days).toBeGreaterThan(1);
    expect(odds.sentences.at(-1)).toMatch(
      /^Spray shop delays the end most: [\d.]+ days on average\.$/,
    );
  });

  it('a room that strays moves the end where cures depend on it', () => {
    const still = withRow(calm(LIBRARY), 'practice', 'room-spread-k', { value: 4 });
    const { odds, taken } = oddsFor(still);
    expect(odds.holds[2]!.minute!).toBeGreaterThan(taken.schedule.end!);
  });

  it('a missed slot waits for another', () => {
    const free = oddsFor(LIBRARY).taken.schedule.placed.find(
      (one) => one.stage === 'outside:paint',
    )!;
    const day = new Date((free.start + 1440) * 60_000).toISOString().slice(0, 10);
    const slot = (library: Library) =>
      oddsFor(library, { ...BUILD, outside: [{ ...BUILD.outside![0]!, slot: day }] });
    const late = withRow(LIBRARY, 'practice', 'finishing-spread', { value: 1 });
    const patient = withRow(late, 'practice', 'slot-rebook-days', { value: 0 });
    const strict = withRow(late, 'practice', 'slot-rebook-days', { value: 10 });
    expect(slot(strict).odds.holds[2]!.minute!).toBeGreaterThan(
      slot(patient).odds.holds[2]!.minute!,
    );
  });

  it('take what is recorded as it was', () => {
    const { taken } = oddsFor(LIBRARY);
    const iso = (minute: number) =>
      new Date(minute * 60_000 + 3_600_000).toISOString().slice(0, 16);
    const records = taken.schedule.placed
      .filter(({ stage }) => stage.startsWith('order:'))
      .map(({ stage, start, end }) => ({ stage, start: iso(start), end: iso(end) }));
    expect(records.length).toBeGreaterThan(3);
    const late = withRow(LIBRARY, 'practice', 'delivery-slip-chance', { value: 1 });
    const arrived = oddsFor(late, { ...BUILD, records }).odds;
    const waited = oddsFor(late).odds;
    expect(arrived.holds[0]!.minute!).toBeLessThan(waited.holds[0]!.minute!);
    expect(arrived.costs.filter(({ stage }) => stage.startsWith('order:'))).toEqual([]);
  });

  it('are called guessed until there are enough builds of the shop’s own', () => {
    const { context, taken } = oddsFor(LIBRARY, BUILD, 50);
    const told = (ownBuilds: number) => oddsNow(context, taken, { replays: 50, ownBuilds })!;
    expect([told(0).guessed, told(4).guessed, told(5).guessed]).toEqual([true, true, false]);
    expect(told(0).sentences[0]).toContain('guessed');
    expect(told(5).sentences[0]).not.toContain('guessed');
  });

  it('stand in the full answer for every route that can be done', () => {
    const { result } = planFor(BUILD, 'full');
    const taken = result.routes.find((route) => route.id === result.route.id)!;
    expect(taken.onTime).toBe(roundedToFivePercent(taken.onTime!));
    expect(taken.onTime).toBeGreaterThan(0.5);
    for (const route of result.routes) {
      expect([route.id, route.onTime !== null]).toEqual([route.id, route.possible]);
    }
  });
});

describe('counting', () => {
  const count = {
    ends: [100, 300, 200, 400],
    never: 1000,
    deadline: 250,
    plannedEnd: 100,
    zone: 'UTC',
    costs: [],
    ownBuilds: 0,
    ownBuildsNeeded: 5,
  };
  it('counts what is done by the date, the date included', () => {
    expect(oddsOf(count).onTimeCounted).toBe(0.5);
    expect(oddsOf({ ...count, deadline: 300 }).onTimeCounted).toBe(0.75);
  });
  it('has no day for what never ends often enough', () => {
    const odds = oddsOf({ ...count, ends: [100, 1000, 1000, 1000] });
    expect(odds.holds.map((one) => one.minute)).toEqual([null, null, null]);
    expect(odds.bufferMinutes).toBeNull();
  });
  it('tells chances in steps of five, never as certain', () => {
    expect([0.62, 0.63, 0.999, 0.01].map(chanceWords)).toEqual([
      'about 60 %',
      'about 65 %',
      'better than 95 %',
      'less than 5 %',
    ]);
  });
});
