import { describe, expect, it } from 'vitest';
import { violations } from '../../../app/schedule/check.ts';
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
