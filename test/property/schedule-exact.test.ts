/**
 * The engine against proven optima: small builds proven by another solver (test/exact/prove.py
 * wrote test/exact/proven.json), and tiny ones by enumerating every placement.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { violations } from '../../app/schedule/check.ts';
import { compile } from '../../app/schedule/compile.ts';
import { refuted } from '../../app/schedule/refute.ts';
import { solve } from '../../app/schedule/solve.ts';
import { makeBuild, problemOfBuild, SLOT_MINUTES } from '../exact/builds.ts';
import { enumerateBest, scoreParts } from '../exact/enumerate.ts';
import { pricedProblem } from '../exact/priced.ts';
import { tinyProblem } from '../exact/tiny.ts';
import { tally } from '../support/draws.ts';

interface Proven {
  readonly seed: number;
  readonly best: {
    readonly late: number;
    readonly repairs: number;
    readonly overtime: number;
    readonly end: number;
    readonly sum: number;
  } | null;
}

const proven = JSON.parse(
  readFileSync(new URL('../exact/proven.json', import.meta.url), 'utf8'),
) as Proven[];

describe('small builds proven by another solver', () => {
  it('are at least 200', () => {
    expect(proven.length).toBeGreaterThanOrEqual(200);
  });

  it('have the proven best plan', { timeout: 300_000 }, () => {
    const seen = tally('infeasible', 'in time', 'late', 'repaired', 'overtime');
    for (const { seed, best } of proven) {
      if (best === null) seen.saw('infeasible');
      else seen.saw(best.late > 0 ? 'late' : 'in time');
      if (best && best.repairs > 0) seen.saw('repaired');
      if (best && best.overtime > 0) seen.saw('overtime');
      const problem = problemOfBuild(makeBuild(seed));
      const schedule = solve(problem, { schedules: 20_000, seed: 1 });
      if (best === null) {
        expect([seed, schedule.placed]).toEqual([seed, []]);
        continue;
      }
      expect(violations(problem, schedule.placed)).toEqual([]);
      const [late, repairs, overtime, end, sum] = scoreParts(problem, schedule.placed);
      const slots = (minutes: number) => minutes / SLOT_MINUTES;
      expect({
        seed,
        late: slots(late),
        repairs,
        overtime: slots(overtime),
        end: slots(end - problem.from),
        sum: slots(sum),
      }).toEqual({ seed, ...best });
    }
    seen.expectEach();
  });
});

describe('what is refuted', () => {
  it('is never a plan that another solver found, and often the minute before the best one', () => {
    let refutedBefore = 0;
    const onTime = proven.filter(({ best }) => best !== null && best.late === 0);
    for (const { seed, best } of onTime) {
      const problem = problemOfBuild(makeBuild(seed));
      const due = problem.from + best!.end * SLOT_MINUTES;
      const refutedBy = (minute: number): boolean => {
        const compiled = compile({ ...problem, due: minute });
        return refuted(compiled, problem.from, 60);
      };
      expect([seed, refutedBy(due)]).toEqual([seed, false]);
      if (refutedBy(due - SLOT_MINUTES)) refutedBefore++;
    }
    expect(refutedBefore / onTime.length).toBeGreaterThan(0.3);
  });
});

describe('small builds with every price, every placement tried', () => {
  it('have the best plan there is; 200 of them are compared by the bench', () => {
    const seen = tally('late', 'warned', 'overtime', 'start windows', 'no plan');
    for (let seed = 0; seed < 20; seed++) {
      const problem = pricedProblem(seed);
      const best = enumerateBest(problem);
      if (best === null) seen.saw('no plan');
      if (best && best[0] > 0) seen.saw('late');
      if (best && best[1] > 0) seen.saw('warned');
      if (best && best[2] > 0) seen.saw('overtime');
      if (problem.stages.some(({ modes }) => modes.some(({ starts }) => starts))) {
        seen.saw('start windows');
      }
      const { placed } = solve(problem, { schedules: 20_000, seed: 1 });
      expect([seed, placed.length > 0 ? scoreParts(problem, placed) : null]).toEqual([seed, best]);
      expect([seed, placed.length > 0 ? violations(problem, placed) : []]).toEqual([seed, []]);
    }
    seen.expectEach();
  });
});

describe('tiny builds, every placement tried', () => {
  it('have the best plan there is', { timeout: 300_000 }, () => {
    const seen = tally('in time', 'late');
    for (let seed = 1000; seed < 1012; seed++) {
      const problem = tinyProblem(seed);
      const schedule = solve(problem, { schedules: 2000, seed: 1 });
      const got = schedule.placed.length > 0 ? scoreParts(problem, schedule.placed) : null;
      if (got) seen.saw(got[0] > 0 ? 'late' : 'in time');
      expect([seed, got]).toEqual([seed, enumerateBest(problem)]);
    }
    seen.expectEach();
  });
});
