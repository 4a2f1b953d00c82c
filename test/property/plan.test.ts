/** Random builds through the whole pipeline: no plan ever breaks a rule, whatever is asked of it. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { planResultSchema, type Build } from '../../app/document/schema.ts';
import { FIRST_ANSWER } from '../../app/plan/outcome.ts';
import { plan } from '../../app/answer/plan.ts';
import { contextOf } from '../../app/plan/context.ts';
import { judge } from '../../app/answer/judgement.ts';
import { violations } from '../../app/schedule/check.ts';
import { library, NOW, read } from '../support/builds.ts';
import { drawnBuilds } from '../support/drawn-builds.ts';

describe('for any build', () => {
  it('the plan breaks no lag, calendar, capacity or air rule, and answers by the contract', () => {
    fc.assert(
      fc.property(drawnBuilds, (document) => {
        expect(read(document).ok).toBe(true);
        const context = contextOf(document, library(), NOW);
        const { taken } = judge(context, document, library(), FIRST_ANSWER);
        if (taken.schedule.placed.length > 0) {
          expect(violations(taken.network.problem, taken.schedule.placed)).toEqual([]);
        }
        const { result } = plan(document, library(), NOW, FIRST_ANSWER);
        expect(planResultSchema.safeParse(result).error).toBeUndefined();
        expect(result.fits).toBe(
          result.fits && result.findings.every((f) => f.severity !== 'stop'),
        );
      }),
      { numRuns: 150, seed: 20270419 },
    );
  });

  it('a later unveiling never turns a plan that fits into one that does not', () => {
    fc.assert(
      fc.property(drawnBuilds, fc.integer({ min: 1, max: 20 }), (document, days) => {
        const later = new Date(`${document.unveiling}:00Z`);
        later.setUTCDate(later.getUTCDate() + days);
        const postponed = { ...document, unveiling: later.toISOString().slice(0, 16) };
        const fits = (build: Build) => plan(build, library(), NOW, FIRST_ANSWER).result.fits;
        if (fits(document)) expect(fits(postponed)).toBe(true);
      }),
      { numRuns: 60, seed: 20270420 },
    );
  });
});
