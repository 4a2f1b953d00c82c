/** Ways out by themselves and two together, over a planner that is a table. */
import { describe, expect, it } from 'vitest';
import { leversOfId, pairOfLevers } from '../../../app/document/ids.ts';
import type { Build, Finding } from '../../../app/document/schema.ts';
import type { LeverEdit } from '../../../app/judge/lever.ts';
import { weighLevers, type Evaluation, type Weighing } from '../../../app/judge/weigh.ts';
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

function evaluated(id: string): Evaluation {
  const mended = leversOfId(id).flatMap((one) => MENDS[one]!);
  const codes = ['date-missed', 'repair-over-spare'].filter((code) => !mended.includes(code));
  const late = codes.includes('date-missed');
  return {
    lateMinutes: late ? 600 : -60,
    fits: codes.length === 0,
    materialCostMinor: 1000,
    route: ['Skin', 'Core bond'],
    codes: new Set(codes),
    grave: new Set(codes),
    stops: new Set(codes),
  };
}

const BEFORE: Evaluation = {
  lateMinutes: 600,
  fits: false,
  materialCostMinor: 1000,
  route: ['Skin', 'Core bond'],
  codes: new Set(['date-missed', 'repair-over-spare']),
  grave: new Set(['date-missed', 'repair-over-spare']),
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
const WANTED = ['date-missed', 'repair-over-spare'];
const weigh = (ids: readonly string[]) => weighLevers(ids.map(edit), weighing, WANTED);

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
      WANTED,
    ]);
    expect(answersWords(pair.before!, pair.after!, 'EUR')).toBe(
      'Now: 10 h late, 2 stops; Skin, then Core bond; 10 EUR. Then: fits, 1 h to spare; the same route; 19 EUR.',
    );
    expect(below('date-missed')).toEqual({ nothingBelow: 'pairs' });
  });

  it('are not paired where one is enough, nor where both mend the same', () => {
    expect(weigh(['release', 'dear']).levers.map(({ id }) => id)).toEqual(['release', 'dear']);
    verified.length = 0;
    const fits = { ...evaluated('saturday & release'), fits: true };
    const { levers, below } = weighLevers(
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
    const { levers, below } = weighLevers(many, weighing, WANTED);
    expect(levers).toHaveLength(5);
    expect(below('repair-over-spare')).toEqual({ moreBelow: 3 });
    const told = (more: Partial<Finding>) => belowWords({ levers, ...more } as Finding);
    expect(told(below('repair-over-spare'))).toBe(
      '3 more help less than these at a first look; the search of all ways out has them.',
    );
    expect(told({ nothingBelow: 'pairs' })).toBe(
      'Nothing below these: no other way out helps by itself, nor do any two together that mend different things.',
    );
    expect(told({ levers: [], nothingBelow: 'singles' })).toBe(
      'No way out that the planner knows helps by itself.',
    );
    expect(told({})).toBe('');
  });
});
