import { expect, it } from 'vitest';
import { FULL_ANSWER } from '../../../app/plan/outcome.ts';
import { runToEnd } from '../../../app/schedule/generators.ts';
import { contextOf } from '../../../app/plan/context.ts';
import { judgedRoutes, openWhileTheyFit } from '../../../app/answer/routesJudged.ts';
import { library } from '../../support/builds.ts';
import { NOW, ROOMY } from '../judge/builds.ts';

it('a route with a plan that fits is open, whether it is taken or not', () => {
  const context = contextOf(ROOMY, library(), NOW);
  const routes = runToEnd(judgedRoutes(context, FULL_ANSWER));
  const fitting = routes.filter(({ plan }) => plan.schedule.fits);
  expect(fitting.length).toBeGreaterThan(1);
  const never = { minute: null, proven: true, closedBy: null };
  const closings = new Map(routes.map(({ plan }) => [plan.route.id, never]));
  const kept = openWhileTheyFit(closings, context, routes);
  for (const { plan } of routes) {
    const minute = plan.schedule.fits ? context.from : null;
    expect(kept.get(plan.route.id)?.minute).toBe(minute);
  }
});
