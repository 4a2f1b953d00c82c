/** Pins that contradict each other: the fewest are left out, as a look at every set of them finds. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { keptPins } from '../../../app/schedule/keptPins.ts';
import type { Problem } from '../../../app/schedule/problem.ts';
import { tally } from '../../support/draws.ts';
import { after, hour, problem, stage, wait } from './make-problem.ts';

const NAMES = ['a', 'b', 'c', 'd'];
/** Each takes so many hours and comes after the one before it; c and d share a bench. */
const bench = [{ resource: 'bench', amount: 1 }];
const chain = [after('a', 'b'), after('b', 'c')];

const pinnedAt = (hours: Readonly<Record<string, number>>): Problem => ({
  ...problem(
    NAMES.map((id) =>
      stage(id, [wait(3, id === 'c' || id === 'd' ? bench : [])], {
        fixedStart: id in hours ? hour(1, hours[id]!) : null,
      }),
    ),
    chain,
  ),
  resources: [{ id: 'bench', name: 'bench', capacity: 1 }],
});

/** What the rules say of pins, in hours: b after a, c after b with room for it, c and d one after the other. */
function stands(pins: Pins): boolean {
  const apart = (one: string, other: string, least: number): boolean =>
    pins[one] === undefined || pins[other] === undefined || pins[other]! - pins[one]! >= least;
  const bench = apart('c', 'd', 3) || apart('d', 'c', 3);
  return apart('a', 'b', 3) && apart('b', 'c', 3) && apart('a', 'c', 6) && bench;
}

type Pins = Readonly<Record<string, number>>;
const only = (pins: Pins, ids: readonly string[]): Pins =>
  Object.fromEntries(ids.map((id) => [id, pins[id]!]));

/** Sets of pins that stand, by trying every one. */
function standing(pins: Pins, byAge: readonly string[]): string[][] {
  const sets = Array.from({ length: 1 << byAge.length }, (_, set) =>
    byAge.filter((_id, i) => (set & (1 << i)) !== 0),
  );
  return sets.filter((ids) => stands(only(pins, ids)));
}

const drawn = fc.record({
  byAge: fc.shuffledSubarray(NAMES, { minLength: 2 }),
  hours: fc.array(fc.integer({ min: 4, max: 14 }), { minLength: 4, maxLength: 4 }),
});

describe('pins', () => {
  it('are left out as few as can be, each against the smallest set that it clashes with', () => {
    const seen = tally('all stand', 'one out', 'more out');
    fc.assert(
      fc.property(drawn, ({ byAge, hours }) => {
        const pins = Object.fromEntries(byAge.map((id) => [id, hours[NAMES.indexOf(id)]!]));
        const { problem: kept, dropped } = keptPins(pinnedAt(pins), byAge);
        const most = Math.max(...standing(pins, byAge).map((ids) => ids.length));
        expect(byAge.length - dropped.length).toBe(most);
        const still = kept.stages.flatMap(({ id, fixedStart }) =>
          fixedStart === null ? [] : [id],
        );
        expect(stands(only(pins, still))).toBe(true);
        seen.saw(
          dropped.length === 0 ? 'all stand' : dropped.length === 1 ? 'one out' : 'more out',
        );
        const gone = dropped.map(({ stage: id }) => id);
        const left = byAge.filter((id) => !gone.includes(id));
        for (const { stage: id, against } of dropped) {
          const named = against.map((fact) => ('stage' in fact ? fact.stage : ''));
          expect(stands(only(pins, [...named, id]))).toBe(false);
          const fewer = standing(pins, [...left, id]).filter((ids) => ids.includes(id));
          const sets = Array.from({ length: 1 << left.length }, (_, set) =>
            left.filter((_one, i) => (set & (1 << i)) !== 0),
          );
          const clashing = sets.filter(
            (ids) => !fewer.some((ok) => ids.every((one) => ok.includes(one))),
          );
          expect(named).toHaveLength(Math.min(...clashing.map((ids) => ids.length)));
        }
      }),
      { numRuns: 80, seed: 5 },
    );
    seen.expectEach(6);
  });

  it('give way by age: the youngest of two goes', () => {
    const both = pinnedAt({ a: 8, b: 9 });
    expect(keptPins(both, ['a', 'b']).dropped).toEqual([
      {
        stage: 'b',
        pin: { what: 'pinned', stage: 'b', at: hour(1, 9) },
        against: [{ what: 'pinned', stage: 'a', at: hour(1, 8) }],
      },
    ]);
    expect(keptPins(both, ['b', 'a']).dropped.map((one) => one.stage)).toEqual(['a']);
  });

  it('that the work alone forbids stay, and give way as far as they must', () => {
    const early = pinnedAt({ a: -40, d: 9 });
    expect(keptPins(early, ['a', 'd']).dropped).toEqual([]);
  });
});
