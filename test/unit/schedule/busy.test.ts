/** Busy blocks in the engine against every order of the stages tried by hand. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { violations } from '../../../app/schedule/check.ts';
import { closingTime } from '../../support/closing.ts';
import type { Busy } from '../../../app/schedule/problem.ts';
import { solve } from '../../../app/schedule/solve.ts';
import { after, hour, problem, stage, wait, within } from './make-problem.ts';
import { forAll } from '../../support/draws.ts';

const FROM = hour(0, 8);
const onPort = (id: string, hours: number) =>
  stage(id, [wait(hours, [{ resource: 'port', amount: 1 }])]);
const block = (id: string, from: number, hours: number): Busy => ({
  id,
  what: `Job ${id}`,
  resource: 'port',
  amount: 1,
  start: FROM + from * 60,
  end: FROM + (from + hours) * 60,
});

const permutations = (list: readonly number[]): number[][] =>
  list.length < 2
    ? [[...list]]
    : list.flatMap((one, i) =>
        permutations([...list.slice(0, i), ...list.slice(i + 1)]).map((rest) => [one, ...rest]),
      );

/** The earliest end of all, one after the other round the blocks, over every order. */
function bestEnd(lengths: readonly number[], blocks: readonly Busy[]): number {
  const ends = permutations(lengths).map((order) =>
    order.reduce((at, hours) => {
      let start = at;
      const meets = ({ start: from, end }: Busy) => from < start + hours * 60 && end > start;
      for (let hit = blocks.find(meets); hit; hit = blocks.find(meets)) start = hit.end;
      return start + hours * 60;
    }, FROM),
  );
  return Math.min(...ends);
}

describe('stages round busy blocks', () => {
  it('end as early as any order allows, and keep off the blocks', () => {
    let pushed = 0;
    forAll(
      fc.property(
        fc.array(fc.integer({ min: 1, max: 6 }), { minLength: 1, maxLength: 4 }),
        fc.array(fc.tuple(fc.integer({ min: 0, max: 12 }), fc.integer({ min: 1, max: 5 })), {
          maxLength: 2,
        }),
        (lengths, jobs) => {
          const busy = jobs.map(([from, hours], i) => block(`${i}`, from, hours));
          const stages = lengths.map((hours, i) => onPort(`s${i}`, hours));
          const given = problem(stages, [], { busy });
          const schedule = solve(given, { schedules: 400, seed: 1 });
          expect(violations(given, schedule.placed)).toEqual([]);
          expect(schedule.placed.map((one) => one.stage).sort()).toEqual(
            stages.map(({ id }) => id).sort(),
          );
          expect(schedule.end).toBe(bestEnd(lengths, busy));
          pushed += Number(schedule.end! > FROM + lengths.reduce((a, b) => a + b) * 60);
        },
      ),
      { numRuns: 80, seed: 7 },
    );
    expect(pushed).toBeGreaterThan(20);
  });

  it('keep windows round them, whatever other jobs come after the end', () => {
    // Four hours, then three within one: no room before the block, so that both follow it.
    const stages = [onPort('a', 4), onPort('b', 3), onPort('c', 1)];
    const relations = [after('a', 'b'), within('a', 'b', 1)];
    const busy = [block('near', 5, 2), block('far', 200, 90)];
    const given = problem(stages, relations, { busy });
    const schedule = solve(given, { schedules: 2000, seed: 1 });
    expect(violations(given, schedule.placed)).toEqual([]);
    expect(schedule).toMatchObject({ end: FROM + 14 * 60, fits: true, provenBest: true });
  });

  it('close before the block that they no longer fit behind', () => {
    // The port is gone from 20 h on until after the due moment: four hours begin by the 16th.
    const due = FROM + 40 * 60;
    const given = problem([onPort('a', 4)], [], { due, busy: [block('b', 20, 60)] });
    expect(closingTime(given)).toMatchObject({
      minute: FROM + 16 * 60,
      closedBy: { stage: 'a', resource: 'port' },
    });
  });

  it('are late, not impossible, where a block takes all that is left', () => {
    const due = FROM + 10 * 60;
    const given = problem([onPort('a', 4)], [], { due, busy: [block('b', 2, 20)] });
    const schedule = solve(given, { schedules: 50, seed: 1 });
    expect(schedule).toMatchObject({ fits: false, end: FROM + 26 * 60, obstacles: [] });
  });
});
