import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { factWords } from '../../../app/messages/facts.ts';
import { violations } from '../../../app/schedule/check.ts';
import { explain, verdictOf } from '../../../app/schedule/infeasible.ts';
import { constraintsOf, without, type Constraint } from '../../../app/schedule/constraints.ts';
import { solve } from '../../../app/schedule/solve.ts';
import { randomBuild } from '../../property/random-builds.ts';
import { after, hour, problem, stage, wait, within, work } from './make-problem.ts';
import { forAll } from '../../support/draws.ts';

const options = { seed: 1 };
const wordsOf = ({ fact }: Constraint): string => factWords(fact, 'UTC');

describe('why nothing fits', () => {
  it('names the slot, the port and the two long cures', () => {
    const port = [{ resource: 'port', amount: 1 }];
    const p = problem(
      [
        stage('lay-a', [work(2)]),
        stage('cure-a', [wait(14, port)]),
        stage('lay-b', [work(2, 'bo')]),
        stage('cure-b', [wait(14, port)]),
        stage('sweep', [work(1)]),
        stage('paint', [wait(24)], { fixedStart: hour(1, 8) }),
      ],
      [
        after('lay-a', 'cure-a'),
        after('lay-b', 'cure-b'),
        after('cure-a', 'paint'),
        after('cure-b', 'paint'),
      ],
    );
    const [conflict, ...others] = explain(p, options);
    expect(others).toEqual([]);
    expect(conflict!.proven).toBe(true);
    expect(conflict!.facts.map(wordsOf).sort()).toEqual([
      'Pump port: 1',
      'cure-a takes 14 h',
      'cure-b takes 14 h',
      'nothing starts before Monday 19 April, 08:00',
      'paint is fixed for Tuesday 20 April, 08:00',
    ]);
  });

  it('lists conflicts apart that share nothing', () => {
    const p = problem(
      [
        stage('a', [wait(1)]),
        stage('long', [wait(30)]),
        stage('b', [wait(1)]),
        stage('late', [wait(50)], { due: hour(1, 8) }),
      ],
      [after('a', 'long'), after('long', 'b'), within('a', 'b', 20)],
    );
    const texts = explain(p, options).map((conflict) => conflict.facts.map(wordsOf).sort());
    expect(texts).toContainEqual(['long takes 30 h', 'the shop’s own order']);
    expect(texts).toContainEqual([
      'late has to be done by Tuesday 20 April, 08:00',
      'late takes 50 h',
      'nothing starts before Monday 19 April, 08:00',
    ]);
  });

  it('says which hours are too short for one stretch', () => {
    const [conflict] = explain(problem([stage('wet', [work(9, 'ann', true)])]), options);
    expect(conflict!.facts.map(wordsOf).sort()).toEqual(['the hours of Ann', 'wet takes 9 h']);
  });

  it('names a due moment that lies before the release', () => {
    const p = problem([stage('a', [work(1)], { release: hour(3, 8), due: hour(2, 8) })]);
    const [conflict] = explain(p, options);
    expect(conflict!.facts.map(wordsOf).sort()).toEqual([
      'a has to be done by Wednesday 21 April, 08:00',
      'a not before Thursday 22 April, 08:00',
    ]);
  });

  it('has nothing to say when it fits, and repeats a fault of the data', () => {
    expect(explain(problem([stage('a', [work(1)])]), options)).toEqual([]);
    expect(wordsOf(explain(problem([stage('a', [])]), options)[0]!.facts[0]!)).toBe(
      'Nobody can do a.',
    );
  });

  it(
    'is irreducible: every fact of a set is needed, and the set alone does not fit',
    { timeout: 60_000 },
    () => {
      let conflicts = 0;
      forAll(
        fc.property(randomBuild({ minStages: 3, maxStages: 7 }), (build) => {
          const tight = { ...build, due: build.from + 1440 };
          for (const conflict of explain(tight, options)) {
            conflicts++;
            const named = new Set(conflict.facts.map(wordsOf));
            const core = constraintsOf(tight)
              .filter((fact) => !named.has(wordsOf(fact)))
              .reduce(without, tight);
            if (conflict.proven) expect(verdictOf(core, 4000, 2)).toBe('does-not-fit');
            for (const fact of conflict.facts) {
              const relaxed = without(core, fact);
              const plan = solve(relaxed, { schedules: 200, seed: 3 });
              expect(plan.fits).toBe(true);
              expect(violations(relaxed, plan.placed)).toEqual([]);
            }
          }
        }),
        { numRuns: 30, seed: 5 },
      );
      expect(conflicts).toBeGreaterThan(15);
    },
  );
});
