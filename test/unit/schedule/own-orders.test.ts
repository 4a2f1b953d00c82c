/** Orders that contradict each other: the fewest are left out, as a look at every set of them finds. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compile } from '../../../app/schedule/compile.ts';
import { firstPlan } from '../../../app/schedule/first.ts';
import { keptOrders } from '../../../app/schedule/ownOrders.ts';
import type { Problem, Relation } from '../../../app/schedule/problem.ts';
import { tally } from '../../support/draws.ts';
import { after, hour, problem, stage, wait, within } from './make-problem.ts';

const NAMES = ['a', 'b', 'c', 'd'];
const stages = NAMES.map((id) => stage(id, [wait(1)]));

const stands = (one: Problem): boolean => {
  const compiled = compile(one);
  return compiled.obstacles.length === 0 && firstPlan(compiled, one.from).plan !== null;
};

/** Fewest orders to leave out, by trying every set. */
function fewest(orders: readonly Relation[]): number {
  let best = orders.length;
  for (let set = 0; set < 1 << orders.length; set++) {
    const kept = orders.filter((_, i) => (set & (1 << i)) === 0);
    const gone = orders.length - kept.length;
    if (gone < best && stands(problem(stages, kept))) best = gone;
  }
  return best;
}

const drawn = fc
  .array(
    fc.record({
      from: fc.integer({ min: 0, max: 2 }),
      ahead: fc.integer({ min: 1, max: 2 }),
      hours: fc.integer({ min: 0, max: 12 }),
      most: fc.boolean(),
    }),
    { minLength: 3, maxLength: 7 },
  )
  .map((list) =>
    list.map(({ from, ahead, hours, most }) => {
      const [one, other] = [NAMES[from]!, NAMES[Math.min(3, from + ahead)]!];
      return most ? within(one, other, hours) : after(one, other, hours);
    }),
  );

describe('own orders', () => {
  it('are left out as few as can be, each against what it truly clashes with', () => {
    const seen = tally('stands', 'one out', 'more out');
    fc.assert(
      fc.property(drawn, (orders) => {
        const { problem: kept, dropped } = keptOrders(problem(stages, orders));
        expect(dropped).toHaveLength(fewest(orders));
        expect(stands(kept)).toBe(true);
        seen.saw(dropped.length === 0 ? 'stands' : dropped.length === 1 ? 'one out' : 'more out');
        for (const { relation, against } of dropped) {
          const others = orders.filter((one) => one !== relation && kept.relations.includes(one));
          const clashing = others.filter((one) =>
            against.some(
              (fact) =>
                fact.what === 'order' &&
                fact.from === one.from &&
                fact.to === one.to &&
                fact.most === (one.type === 'at-most') &&
                fact.minutes === one.lag,
            ),
          );
          expect(stands(problem(stages, [...clashing, relation]))).toBe(false);
        }
      }),
      { numRuns: 120, seed: 12 },
    );
    seen.expectEach(4);
  });

  it('leave out the youngest of two, and name the older', () => {
    const [older, younger] = [after('a', 'b', 9), within('a', 'b', 3)];
    const { dropped } = keptOrders(problem(stages, [older, younger]));
    expect(dropped).toEqual([
      {
        relation: younger,
        order: { what: 'order', from: 'a', to: 'b', most: true, minutes: 180 },
        against: [{ what: 'order', from: 'a', to: 'b', most: false, minutes: 540 }],
      },
    ]);
  });

  it('name the pins that an order cannot stand beside', () => {
    const pinned = stages.map((one) =>
      one.id === 'a' || one.id === 'b'
        ? { ...one, fixedStart: hour(one.id === 'a' ? 1 : 4, 9) }
        : one,
    );
    const both = keptOrders(problem(pinned, [within('a', 'b', 2)]));
    // A pin that gives way is told as a missed pin: the order stands.
    expect(both.dropped).toEqual([]);
  });
});
