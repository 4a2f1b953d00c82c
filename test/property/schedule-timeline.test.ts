/** The timeline's first and last fits against a look at every minute. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compile, type PlanMode } from '../../app/schedule/compile.ts';
import { FAR, NEVER } from '../../app/schedule/length.ts';
import { rowsOf } from '../../app/schedule/rows.ts';
import { BEGINNING, Timeline, type Demand } from '../../app/schedule/timeline.ts';
import { problem, stage } from '../unit/schedule/make-problem.ts';
import { forAll } from '../support/draws.ts';

const SPAN = 60;
/** Enough resources for two words of lanes. */
const CAPACITIES = [3, 1, 5, 2, 900, 40, 7, 3, 1];

const amounts = fc.tuple(
  ...CAPACITIES.map((capacity) => fc.integer({ min: 0, max: Math.min(capacity, 4) })),
);

const drawn = fc.record({
  bookings: fc.array(
    fc.record({
      start: fc.integer({ min: 0, max: SPAN - 1 }),
      minutes: fc.integer({ min: 1, max: 12 }),
      amounts,
      stays: fc.boolean(),
    }),
    { maxLength: 12 },
  ),
  wanted: amounts,
  /** Whether all that is wanted lies in the first word. */
  oneWord: fc.boolean(),
  minutes: fc.integer({ min: 1, max: 9 }),
  at: fc.integer({ min: 0, max: SPAN }),
});

interface Wanted {
  readonly modes: readonly PlanMode[];
  /** What the first mode takes, where it lies in one word. */
  readonly take: Demand | null;
}

function modesFor(needs: readonly (readonly number[])[], minutes: number): Wanted {
  const stages = needs.map((need, i) =>
    stage(`s${i}`, [
      {
        id: 'only',
        uses: need.map((amount, k) => ({ resource: `r${k}`, amount })),
        calendar: null,
        length: { kind: 'elapsed', minutes },
      },
    ]),
  );
  const resources = CAPACITIES.map((capacity, k) => ({ id: `r${k}`, name: `r${k}`, capacity }));
  const compiled = compile(problem(stages, [], { resources, from: 0, due: 999, horizon: 999 }));
  lanes = compiled.lanes;
  const { plain } = rowsOf(compiled);
  return { modes: compiled.stages.map(({ modes }) => modes[0]!), take: plain.take[0]! };
}

let lanes: ConstructorParameters<typeof Timeline>[0];

describe('a timeline', () => {
  it('finds the first and the last fit that a look at every minute finds', () => {
    let waited = 0;
    let taken = 0;
    forAll(
      fc.property(drawn, ({ bookings, wanted: drawnWanted, oneWord, minutes, at }) => {
        const wanted = drawnWanted.map((amount, k) => (oneWord && k > 2 ? 0 : amount));
        const { modes, take } = modesFor([wanted, ...bookings.map((b) => b.amounts)], minutes);
        const timeline = new Timeline(lanes, bookings.length + 1);
        const used = CAPACITIES.map(() => new Array<number>(4 * SPAN).fill(0));
        const fits = (start: number, need: readonly number[], length: number): boolean =>
          need.every((amount, k) =>
            used[k]!.slice(start + SPAN, start + SPAN + length).every(
              (level) => amount === 0 || level + amount <= CAPACITIES[k]!,
            ),
          );
        bookings.forEach(({ start, minutes: length, amounts: need, stays }, b) => {
          if (!fits(start, need, length)) return;
          timeline.book(start, start + length, modes[b + 1]!.need, 1, BEGINNING);
          if (!stays) timeline.undo();
          else {
            need.forEach((amount, k) => {
              for (let t = start; t < start + length; t++) used[k]![t + SPAN]! += amount;
            });
          }
        });
        let first = at;
        while (!fits(first, wanted, minutes)) first++;
        let last = at - minutes;
        while (!fits(last, wanted, minutes)) last--;
        expect(timeline.earliestFit(modes[0]!, at, 999, BEGINNING)).toBe(first);
        expect(timeline.latestFit(modes[0]!, FAR, at, BEGINNING)).toBe(last);
        expect(timeline.earliestFit(modes[0]!, at, at, BEGINNING)).toBe(NEVER);
        if (first > at) waited++;
        if (!take) return;
        taken++;
        expect(timeline.bookEarliest(take, at, 999, BEGINNING)).toBe(first);
        timeline.undo();
        expect(timeline.bookLatest(take, at - minutes, BEGINNING)).toBe(last);
        timeline.undo();
        expect(timeline.bookEarliest(take, at, at, BEGINNING)).toBe(NEVER);
        expect(timeline.earliestFit(modes[0]!, at, 999, BEGINNING)).toBe(first);
      }),
      { numRuns: 400, seed: 5 },
    );
    expect(waited).toBeGreaterThan(40);
    expect(taken).toBeGreaterThan(100);
  });
});
