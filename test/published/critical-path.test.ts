/**
 * Critical-path worked examples with printed answers, one unit of time as one minute.
 * Sources: B. W. Taylor, Introduction to Management Science, chapter 8, problems 5 to 7, answers as
 * printed in the instructor's solutions and the book's answer appendix.
 */
import { describe, expect, it } from 'vitest';
import type { Problem, StageSpec } from '../../app/schedule/problem.ts';
import { solve } from '../../app/schedule/solve.ts';

type Row = readonly [
  id: string,
  minutes: number,
  before: readonly string[],
  es: number,
  ef: number,
  ls: number,
  lf: number,
];

/** Problem 5: events as nodes, predecessors read off the arcs. */
const PROBLEM_5: readonly Row[] = [
  ['1', 7, [], 0, 7, 2, 9],
  ['2', 10, [], 0, 10, 0, 10],
  ['3', 6, ['1'], 7, 13, 9, 15],
  ['4', 5, ['2'], 10, 15, 10, 15],
  ['5', 4, ['2'], 10, 14, 14, 18],
  ['6', 3, ['3', '4'], 15, 18, 15, 18],
  ['7', 2, ['5', '6'], 18, 20, 18, 20],
];

/** Problem 6: a network with a dummy activity, named by its events. */
const PROBLEM_6: readonly Row[] = [
  ['1-2', 8, [], 0, 8, 1, 9],
  ['1-3', 10, [], 0, 10, 0, 10],
  ['1-4', 9, [], 0, 9, 6, 15],
  ['2-5', 6, ['1-2'], 8, 14, 9, 15],
  ['2-6', 4, ['1-2'], 8, 12, 16, 20],
  ['3-5', 5, ['1-3'], 10, 15, 10, 15],
  ['4-5', 0, ['1-4'], 9, 9, 15, 15],
  ['4-7', 7, ['1-4'], 9, 16, 20, 27],
  ['5-7', 12, ['2-5', '3-5', '4-5'], 15, 27, 15, 27],
  ['5-8', 15, ['2-5', '3-5', '4-5'], 15, 30, 16, 31],
  ['6-9', 18, ['2-6'], 12, 30, 20, 38],
  ['7-8', 4, ['4-7', '5-7'], 27, 31, 27, 31],
  ['8-9', 7, ['5-8', '7-8'], 31, 38, 31, 38],
];

/** Problem 7: predecessors deduced from the printed times. */
const PROBLEM_7: readonly Row[] = [
  ['1', 10, [], 0, 10, 0, 10],
  ['2', 7, [], 0, 7, 5, 12],
  ['3', 15, ['1'], 10, 25, 10, 25],
  ['4', 4, ['1'], 10, 14, 14, 18],
  ['5', 6, ['2'], 7, 13, 12, 18],
  ['6', 12, ['2'], 7, 19, 13, 25],
  ['7', 7, ['4', '5'], 14, 21, 18, 25],
  ['8', 9, ['3', '6', '7'], 25, 34, 25, 34],
];

const EPOCH = 30_000_000;

function network(rows: readonly Row[], total: number): Problem {
  const stage = ([id, minutes]: Row): StageSpec => ({
    id,
    name: `Activity ${id}`,
    kind: 'own',
    cure: null,
    modes: [{ id: 'only', uses: [], calendar: null, length: { kind: 'elapsed', minutes } }],
    release: null,
    due: null,
    fixedStart: null,
    fixedEnd: null,
    air: null,
    perishable: false,
  });
  return {
    from: EPOCH,
    due: EPOCH + total,
    horizon: EPOCH + 1000,
    resources: [],
    stages: rows.map(stage),
    relations: rows.flatMap(([to, , before]) =>
      before.map((from) => ({
        type: 'at-least' as const,
        from,
        anchor: 'end' as const,
        to,
        lag: 0,
        why: 'own-order',
      })),
    ),
    airSettleMinutes: 0,
  };
}

describe.each([
  ['problem 5', PROBLEM_5, 20, ['2', '4', '6', '7']],
  ['problem 6', PROBLEM_6, 38, ['1-3', '3-5', '5-7', '7-8', '8-9']],
  ['problem 7', PROBLEM_7, 34, ['1', '3', '8']],
] as const)('Taylor chapter 8, %s', (_name, rows, total, critical) => {
  const schedule = solve(network(rows, total), { schedules: 1, seed: 1 });

  it('has the printed duration and critical path', () => {
    expect(schedule.end).toBe(EPOCH + total);
    expect(schedule.placed.filter((spot) => spot.critical).map((spot) => spot.stage)).toEqual(
      critical,
    );
  });

  it.each(rows)('has the printed times of activity %s', (id, _minutes, _before, es, ef, ls, lf) => {
    const spot = schedule.placed.find((placed) => placed.stage === id)!;
    expect(spot.earliestStart! - EPOCH).toBe(es);
    expect(spot.end - EPOCH).toBe(ef);
    expect(spot.latestStart! - EPOCH).toBe(ls);
    expect(spot.latestEnd! - EPOCH).toBe(lf);
    expect(spot.floatMinutes).toBe(ls - es);
  });
});
