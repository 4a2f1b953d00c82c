/** Which route is taken, and which one the date has pushed aside. */
import type { Finding } from '../document/schema.ts';
import type { RoutePlan } from '../plan/routePlan.ts';

/** A route's plan with the reasons against doing it at all. */
export interface JudgedRoute {
  readonly plan: RoutePlan;
  readonly reasons: readonly Finding[];
}

export const isPossible = (judged: JudgedRoute): boolean =>
  judged.reasons.every((reason) => reason.severity !== 'stop');

/**
 * The best of routes given in order of preference (more cures apart first): the first that can be
 * done and fits; if none fits, the possible one that is least late, booked slots included; if none is
 * possible, the first.
 */
export function bestRoute(routes: readonly JudgedRoute[]): JudgedRoute | undefined {
  const possible = routes.filter(isPossible);
  const fitting = possible.find((judged) => judged.plan.schedule.fits);
  if (fitting) return fitting;
  return leastLate(possible) ?? leastLate(routes) ?? routes[0];
}

function leastLate(routes: readonly JudgedRoute[]): JudgedRoute | undefined {
  let best: JudgedRoute | undefined;
  for (const judged of routes) {
    const late = judged.plan.lateMinutes ?? Infinity;
    if (late < (best?.plan.lateMinutes ?? Infinity)) best = judged;
  }
  return best;
}

/** The route that would be taken if the date were far away: the first that can be done. */
export const preferredRoute = (routes: readonly JudgedRoute[]): JudgedRoute | undefined =>
  routes.find(isPossible);
