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
import { forAll, tally } from '../support/draws.ts';

function postponed(document: Build, days: number): Build {
  const later = new Date(`${document.unveiling}:00Z`);
  later.setUTCDate(later.getUTCDate() + days);
  return { ...document, unveiling: later.toISOString().slice(0, 16) };
}

describe('for any build', () => {
  it('the plan breaks no lag, calendar, capacity or air rule, and answers by the contract', () => {
    const seen = tally('placed', 'fits', 'does not fit', 'infused');
    forAll(
      fc.property(drawnBuilds, fc.constantFrom('bagged', 'infused'), (drawn, process) => {
        const document: Build = { ...drawn, part: { ...drawn.part, process } };
        expect(read(document).ok).toBe(true);
        const context = contextOf(document, library(), NOW);
        const { taken } = judge(context, document, library(), FIRST_ANSWER);
        if (taken.schedule.placed.length > 0) {
          seen.saw('placed');
          expect(violations(taken.network.problem, taken.schedule.placed)).toEqual([]);
        }
        const { result } = plan(document, library(), NOW, FIRST_ANSWER);
        expect(planResultSchema.safeParse(result).error).toBeUndefined();
        seen.saw(result.fits ? 'fits' : 'does not fit');
        if (result.cures.some(({ infused }) => infused)) seen.saw('infused');
        const stops = result.findings.filter((finding) => finding.severity === 'stop');
        // What does not fit says why.
        expect(stops.length > 0).toBe(!result.fits);
      }),
      { numRuns: 150, seed: 20270419, seen, least: 15 },
    );
  });

  it('a later unveiling never turns a plan that fits into one that does not', () => {
    const seen = tally('fits', 'does not fit');
    forAll(
      fc.property(
        drawnBuilds,
        fc.integer({ min: 0, max: 9 }),
        fc.integer({ min: 1, max: 20 }),
        (drawn, weeks, days) => {
          const document = postponed(drawn, 7 * weeks);
          const fits = (build: Build) => plan(build, library(), NOW, FIRST_ANSWER).result.fits;
          const isInTime = fits(document);
          seen.saw(isInTime ? 'fits' : 'does not fit');
          if (isInTime) expect(fits(postponed(document, days))).toBe(true);
        },
      ),
      { numRuns: 60, seed: 20270420, seen, least: 8 },
    );
  });
});
