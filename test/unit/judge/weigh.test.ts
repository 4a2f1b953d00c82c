/** Ways out by themselves and two together, over a planner that is a table. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { leversOfId, pairOfLevers } from '../../../app/document/ids.ts';
import type { Build, Finding } from '../../../app/document/schema.ts';
import type { LeverEdit } from '../../../app/judge/lever.ts';
import { isCleared, type Told } from '../../../app/judge/cleared.ts';
import { weighLevers, type Evaluation, type Weighing } from '../../../app/judge/weigh.ts';
import { forAll, tally } from '../../support/draws.ts';
import { answersWords, belowWords, pairLabel } from '../../../app/messages/levers.ts';

const MENDS: Readonly<Record<string, readonly string[]>> = {
  saturday: ['date-missed'],
  release: ['repair-over-spare'],
  dear: ['repair-over-spare'],
  nothing: [],
};
const COST: Readonly<Record<string, number>> = {
  saturday: 900,
  release: 40,
  dear: 5000,
  nothing: 1,
};

const edit = (id: string): LeverEdit => ({
  id,
  label: `Try ${id}`,
  sideEffects: [],
  document: { name: id } as Build,
  addedMinor: leversOfId(id).reduce((sum, one) => sum + COST[one]!, 0),
});

const stop = (code: string): Told => ({ code, severity: 'stop', stage: null, numbers: {} });

function evaluated(id: string): Evaluation {
  const mended = leversOfId(id).flatMap((one) => MENDS[one]!);
  const codes = ['date-missed', 'repair-over-spare'].filter((code) => !mended.includes(code));
  const late = codes.includes('date-missed');
  return {
    lateMinutes: late ? 600 : -60,
    fits: codes.length === 0,
    materialCostMinor: 1000,
    route: ['Skin', 'Core bond'],
    findings: codes.map(stop),
    stops: new Set(codes),
  };
}

const BEFORE: Evaluation = {
  lateMinutes: 600,
  fits: false,
  materialCostMinor: 1000,
  route: ['Skin', 'Core bond'],
  findings: ['date-missed', 'repair-over-spare'].map(stop),
  stops: new Set(['date-missed', 'repair-over-spare']),
};
const verified: string[] = [];
const weighing: Weighing = {
  before: () => BEFORE,
  evaluate: ({ name }, depth) => {
    if (depth === 'verify') verified.push(name);
    return evaluated(name);
  },
  together: (a, b) => ({ ...edit(pairOfLevers(a.id, b.id)), label: pairLabel(a.label, b.label) }),
};
const CODES = ['date-missed', 'repair-over-spare'];
const WANTED = CODES.map(stop);
const weighAll = (edits: readonly LeverEdit[], by: Weighing, wanted: readonly Told[]) => {
  const { levers, below } = weighLevers(edits, by, wanted);
  return { levers: levers.map(({ lever }) => lever), below };
};
const weigh = (ids: readonly string[]) => weighAll(ids.map(edit), weighing, WANTED);

describe('ways out', () => {
  it('are tried two together where none is enough, the cheapest pair that mends different things first', () => {
    const { levers, below } = weigh(['saturday', 'release', 'dear', 'nothing']);
    expect(levers.map(({ id }) => id)).toEqual([
      'saturday',
      'release',
      'dear',
      'saturday & release',
      'saturday & dear',
    ]);
    const pair = levers[3]!;
    expect([pair.label, pair.cost, pair.clears]).toEqual([
      'Try saturday, and try release',
      940,
      CODES,
    ]);
    expect(answersWords(pair.before!, pair.after!, 'EUR')).toBe(
      'Now: 10 h late, 2 stops; Skin, then Core bond; €10. Then: fits, 1 h to spare; the same route; €19.',
    );
    expect(below('date-missed')).toEqual({ nothingBelow: 'pairs' });
  });

  it('are not paired where one is enough, nor where both mend the same', () => {
    expect(weigh(['release', 'dear']).levers.map(({ id }) => id)).toEqual(['release', 'dear']);
    verified.length = 0;
    const fits = { ...evaluated('saturday & release'), fits: true };
    const { levers, below } = weighAll(
      [edit('saturday'), edit('release')],
      { ...weighing, evaluate: ({ name }) => (verified.push(name), fits) },
      WANTED,
    );
    expect(levers).toHaveLength(2);
    expect(verified).toEqual(['saturday', 'release', 'saturday', 'release']);
    expect(below('date-missed')).toEqual({ nothingBelow: 'singles' });
  });

  it('say how many help less, and that nothing else does only where all were planned', () => {
    const many = Array.from({ length: 8 }, () => edit('release')).map((one, i) => ({
      ...one,
      addedMinor: i,
    }));
    const { levers, below } = weighAll(many, weighing, WANTED);
    expect(levers).toHaveLength(5);
    expect(below('repair-over-spare')).toEqual({ moreBelow: 3 });
    const told = (more: Partial<Finding>) => belowWords({ levers, ...more } as Finding);
    expect(told(below('repair-over-spare'))).toBe(
      '3 more help less than these, by a rough count: “Search all ways out together” tries them.',
    );
    expect(told({ nothingBelow: 'pairs' })).toBe(
      'No other way out that the planner knows helps by itself, nor do any two together that mend different things.',
    );
    expect(told({ levers: [], nothingBelow: 'singles' })).toBe(
      'No way out that the planner knows helps by itself.',
    );
    expect(told({})).toBe('');
  });
});

describe('what a way out clears', () => {
  const told = (severity: Told['severity'], stage: string | null, code = 'cure-stalls'): Told => ({
    ...{ code, severity, stage },
    numbers: {},
  });
  const [outer, inner] = [told('stop', 'cure:outer-skin'), told('stop', 'cure:inner-skin')];

  it.each([
    ['a stop that is left as a note', outer, [outer], [told('note', 'cure:outer-skin')], true],
    ['a warning that became a stop', told('warn', null), [told('warn', null)], [outer], false],
    ['one bag of two', outer, [outer, inner], [inner], true],
    ['not the bag that stays', inner, [outer, inner], [inner], false],
    ['not what only moves to another bag', outer, [outer], [inner], false],
    ['not what was not there before', outer, [], [], false],
  ] as const)('counts %s', (_, finding, before, after, expected) => {
    expect(isCleared(finding, before, after)).toBe(expected);
  });

  it('tells apart by what is named among the numbers, and not by moments', () => {
    const zone = (name: string, at: string): Told => ({
      ...told('warn', null, 'panel-soft'),
      numbers: { zone: name, plies: 2, at },
    });
    const before = [zone('lid', '2027-04-01T08:00'), zone('rim', '2027-04-01T08:00')];
    const after = [zone('rim', '2027-04-02T08:00')];
    expect(before.map((one) => isCleared(one, before, after))).toEqual([true, false]);
  });

  const weighed = (before: readonly Told[], after: readonly Told[], gain = 0) =>
    weighLevers(
      [edit('release')],
      {
        ...weighing,
        before: () => ({ ...BEFORE, findings: before }),
        evaluate: () => ({ ...BEFORE, lateMinutes: 600 - gain, findings: after }),
      },
      before,
    ).levers.map(({ lever }) => lever);

  it('is offered where a stop becomes a note, and says what is left', () => {
    const [lever] = weighed([outer], [told('note', 'cure:outer-skin')]);
    expect(lever!.clears).toEqual(['cure-stalls']);
    expect(lever!.sideEffects).toEqual([
      'Less serious, but not gone: a cure never reaches what it must at this temperature.',
    ]);
  });

  it('names a code only where all of it is gone, and one more stop of a code hides it', () => {
    expect(weighed([outer, inner], [inner]).map(({ clears }) => clears)).toEqual([[]]);
    const late = told('stop', null, 'date-missed');
    expect(weighed([late, outer], [outer, inner])).toEqual([]);
    expect(weighed([told('note', null)], [outer], 600)).toEqual([]);
    const [warned, twice] = [told('warn', 'a'), told('warn', 'b')];
    // A warning twice where it stood once is told; one that stood nowhere hides what only buys time.
    expect(weighed([warned], [warned, twice], 600)[0]!.sideEffects).toEqual([
      'Brings: a cure never reaches what it must at this temperature.',
    ]);
    expect(weighed([warned], [warned], 600)[0]!.sideEffects).toEqual([]);
    expect(weighed([late], [late, warned], 600)).toEqual([]);
  });
});

it('lists what helps and nothing that harms, over drawn builds, and nothing below is so', () => {
  const seen = tally('listed', 'adds a stop', 'worse and clears nothing', 'nothing below');
  const severity = fc.constantFrom('stop', 'warn', 'note', null);
  const state = fc.record({
    late: fc.integer({ min: -10, max: 10 }),
    of: fc.tuple(severity, severity, severity),
  });
  const CODES_DRAWN = ['cure-stalls', 'bag-late', 'pot-runaway'] as const;
  const findingsOf = ({ of }: { readonly of: readonly (Told['severity'] | null)[] }): Told[] =>
    of.flatMap((one, i) =>
      one === null ? [] : [{ ...stop(CODES_DRAWN[i]!), severity: one } satisfies Told],
    );
  const RANK = { note: 0, warn: 1, stop: 2 } as const;
  const rank = (one: Told['severity'] | null): number => (one === null ? -1 : RANK[one]);
  const drawn = fc.record({
    before: state,
    after: fc.array(state, { minLength: 1, maxLength: 7 }),
  });
  forAll(
    fc.property(drawn, ({ before, after }) => {
      const evaluation = (one: typeof before): Evaluation => ({
        ...BEFORE,
        lateMinutes: one.late * 60,
        fits: false,
        findings: findingsOf(one),
      });
      const offers = after.map((_, i) => ({ ...edit('release'), id: `release-${i}` }));
      const table: Weighing = {
        before: () => evaluation(before),
        evaluate: (document) =>
          evaluation(after[offers.findIndex((one) => one.document === document)]!),
        together: () => null,
      };
      const wanted = findingsOf(before);
      const { levers, below } = weighLevers(offers, table, wanted);
      after.forEach((one, i) => {
        const listed = levers.some(({ lever }) => lever.id === `release-${i}`);
        const clears = one.of.some((now, k) => rank(now) < rank(before.of[k]!));
        const graver = one.of.filter((now, k) => rank(now) > rank(before.of[k]!));
        const gains = before.late - one.late >= 0.5;
        const isHarmful =
          graver.includes('stop') || (!clears && graver.some((now) => now === 'warn'));
        if (listed) seen.saw('listed');
        if (graver.includes('stop')) seen.saw('adds a stop');
        if (!clears && graver.includes('warn')) seen.saw('worse and clears nothing');
        if (listed) expect([clears || gains, isHarmful]).toEqual([true, false]);
        const nothing = [...CODES_DRAWN, 'hours'].every((code) => below(code).nothingBelow);
        if (!nothing) return;
        seen.saw('nothing below');
        expect([i, listed]).toEqual([i, (clears || gains) && !isHarmful]);
      });
    }),
    { seed: 12, seen, numRuns: 300 },
  );
});
