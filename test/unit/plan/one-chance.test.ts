/** A plan has one chance: in the published result, and where its odds are run on their own. */
import { expect, it } from 'vitest';
import { plan } from '../../../app/answer/plan.ts';
import { oddsJob, shownPlan } from '../../../app/answer/oddsJob.ts';
import { runToEnd } from '../../../app/schedule/generators.ts';
import { LIBRARY, NOW, planFor, ROOMY } from '../judge/builds.ts';

it('is the same figure in the result and in the odds of the plan that is shown', () => {
  // Close to the date, so that the chance is neither none nor certain.
  const ends = planFor(ROOMY).result.stages.map(({ end }) => end!.slice(0, 10));
  const document = { ...ROOMY, unveiling: `${ends.toSorted().at(-1)}T18:00` };
  const outcome = plan(document, LIBRARY, NOW, { scope: 'full', schedules: 60 });
  const { route, routes } = outcome.result;
  const told = routes.find(({ id }) => id === route.id)!.onTime!;
  expect(told).toBeGreaterThan(0.02);
  expect(told).toBeLessThan(0.98);
  const shown = shownPlan(outcome);
  const odds = runToEnd(oddsJob(document, LIBRARY, NOW, 0, shown));
  expect(odds!.onTime).toBe(told);
});
