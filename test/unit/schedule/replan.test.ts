import { describe, expect, it } from 'vitest';
import { violations } from '../../../app/schedule/check.ts';
import type { Mode, Problem } from '../../../app/schedule/problem.ts';
import { replan } from '../../../app/schedule/replan.ts';
import { solve } from '../../../app/schedule/solve.ts';
import { after, hour, problem, stage, wait, work } from './make-problem.ts';

const effort = { schedules: 50, seed: 1 };
const stages = (curing: number) => [
  stage('lay', [work(4)]),
  stage('cure', [wait(curing)]),
  stage('trim', [work(3)]),
  stage('kit', [work(5, 'bo')]),
  stage('box', [work(5, 'bo')]),
];
const relations = [after('lay', 'cure'), after('cure', 'trim'), after('kit', 'box')];

describe('planning again', () => {
  const old = solve(problem(stages(14), relations), effort).placed;

  it('moves only what a longer cure pushes, and lists it', () => {
    const p = problem(stages(30), relations);
    const { schedule, moved } = replan(p, old, effort);
    expect(violations(p, schedule.placed)).toEqual([]);
    expect(moved).toEqual([
      { stage: 'trim', from: old.find((s) => s.stage === 'trim')!.start, to: hour(2, 8) },
    ]);
  });

  it('leaves everything where it was when a cure gets shorter', () => {
    expect(replan(problem(stages(12), relations), old, effort).moved).toEqual([]);
  });

  it('gives up the later part of the old plan where only that meets the date', () => {
    const slow = [
      stage('a', [work(2)]),
      stage('b', [work(6), work(6, 'bo')]),
      stage('c', [work(6)]),
    ];
    const due = { due: hour(2, 12) };
    const before = solve(problem(slow, [after('a', 'b'), after('b', 'c')], due), effort).placed;
    const longer = [slow[0]!, stage('b', [work(9), work(6, 'bo')]), slow[2]!];
    const p = problem(longer, [after('a', 'b'), after('b', 'c')], due);
    const { schedule } = replan(p, before, effort);
    expect(violations(p, schedule.placed)).toEqual([]);
    expect(schedule.fits).toBe(true);
  });

  it('plans as if nothing had been printed once all of the old plan has passed', () => {
    const p = { ...problem(stages(14), relations, { due: hour(20, 17) }), from: hour(9, 8) };
    const { schedule, moved } = replan(p, old, effort);
    const fresh = solve(p, effort);
    expect(schedule.placed).toEqual(fresh.placed);
    expect(schedule.generated).toBe(fresh.generated);
    expect(moved.map(({ stage }) => stage).sort()).toEqual(['box', 'cure', 'kit', 'lay', 'trim']);
  });
});

describe('the price of moving what was printed', () => {
  const two = [stage('short', [work(2)]), stage('long', [work(5)])];
  const starts = new Map([
    ['long', hour(0, 8)],
    ['short', hour(0, 13)],
  ]);
  const startsOf = (p: Problem) =>
    Object.fromEntries(solve(p, effort).placed.map((spot) => [spot.stage, spot.start]));

  it('is paid by the search itself: it keeps an order that it would not choose for its ends', () => {
    expect(startsOf(problem(two))).toEqual({ short: hour(0, 8), long: hour(0, 10) });
    const p = problem(two, [], { printed: { starts, warningsEach: 1 } });
    expect(startsOf(p)).toEqual(Object.fromEntries(starts));
  });

  it('counts after lateness: what is due is not kept waiting for the wall', () => {
    const due = [stage('short', [work(2)], { due: hour(0, 10) }), two[1]!];
    const p = problem(due, [], { printed: { starts, warningsEach: 1 } });
    expect(startsOf(p)).toEqual({ short: hour(0, 8), long: hour(0, 10) });
  });

  it('is weighed against warnings', () => {
    // Bo is away until ten: at eight the work is done by Ann in a way that warns.
    const late: Mode = { ...work(2, 'bo'), calendar: [{ start: hour(0, 10), end: hour(0, 16) }] };
    const dear: Mode = { ...work(2), id: 'dear', repair: true };
    const eight = new Map([['one', hour(0, 8)]]);
    const startAt = (warningsEach: number) =>
      startsOf(
        problem([stage('one', [late, dear])], [], { printed: { starts: eight, warningsEach } }),
      )['one'];
    expect(startAt(3)).toBe(hour(0, 8));
    expect(startAt(0.5)).toBe(hour(0, 10));
  });
});
