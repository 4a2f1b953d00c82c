/** Which route is taken, and which one the date has pushed aside. */
import { begunStages } from '../document/records.ts';
import { FINISHES, type Finding, type FullBuild } from '../document/schema.ts';
import type { TakenReason } from '../messages/ranking.ts';
import type { RoutePlan } from '../plan/routePlan.ts';
import { paretoDominates } from './pareto.ts';

/** A route's plan with the reasons against doing it at all. */
export interface JudgedRoute {
  readonly plan: RoutePlan;
  readonly reasons: readonly Finding[];
}

export const isPossible = (judged: JudgedRoute): boolean =>
  judged.reasons.every((reason) => reason.severity !== 'stop');

/**
 * What routes are compared by, as it is shown; smaller is better. Cures apart are a count of their own:
 * they give the best fibre and the surest core, which neither hours nor finish tell.
 */
const countsOf = ({ plan }: JudgedRoute): readonly number[] => [
  plan.unseenGels.length,
  plan.route.merging,
  plan.schedule.end ?? Infinity,
  Math.round(plan.labourHours * 10),
  plan.materialCostMinor,
  Math.round(plan.massKg * 100),
  FINISHES.indexOf(plan.finish),
];

/** True when another is at least as good in every count and better in one. */
const isDominated = (one: JudgedRoute, other: JudgedRoute): boolean =>
  paretoDominates(countsOf(other), countsOf(one));

const nonDominated = (routes: readonly JudgedRoute[]): JudgedRoute[] =>
  routes.filter((one) => !routes.some((other) => isDominated(one, other)));

/** Those that have the most of the stages named: a merged route would drop a pin in silence. */
function keeping(routes: readonly JudgedRoute[], named: ReadonlySet<string>): JudgedRoute[] {
  const kept = routes.map(
    ({ plan }) => plan.network.problem.stages.filter(({ id }) => named.has(id)).length,
  );
  const most = Math.max(...kept);
  return routes.filter((_, i) => kept[i] === most);
}

/** A gel that nobody sees is a stop of its own kind: no finish or cure apart makes up for it. */
function mostSeen(routes: readonly JudgedRoute[]): JudgedRoute[] {
  const fewest = Math.min(...routes.map(({ plan }) => plan.unseenGels.length));
  return routes.filter(({ plan }) => plan.unseenGels.length === fewest);
}

const lateOf = ({ plan }: JudgedRoute): number => plan.lateMinutes ?? Infinity;

function leastLate(routes: readonly JudgedRoute[]): JudgedRoute | undefined {
  const least = Math.min(...routes.map(lateOf));
  return nonDominated(mostSeen(routes.filter((one) => lateOf(one) === least)))[0];
}

const fits = ({ plan }: JudgedRoute): boolean => plan.schedule.fits;

/**
 * The best of routes given in order of preference (more cures apart first): of those that can be done
 * and fit, of those with the fewest gels that nobody sees the first that no other dominates (`isDominated`);
 * if none fits, the possible one that is least late, booked slots included; if none is possible, the least
 * late of all.
 * @param named stages that the build's pins, links, records and printed plan name: routes that have
 *   more of them go first
 */
export function bestRoute(
  routes: readonly JudgedRoute[],
  named: ReadonlySet<string>,
): JudgedRoute | undefined {
  const possible = routes.filter(isPossible);
  const fitting = keeping(possible.filter(fits), named);
  return nonDominated(mostSeen(fitting))[0] ?? leastLate(possible) ?? leastLate(routes);
}

/** Stages that a build names. */
export const namedStages = ({ pins, links, records, printed }: FullBuild): ReadonlySet<string> =>
  new Set([
    ...[...pins, ...(printed?.stages ?? [])].map(({ stage }) => stage),
    ...begunStages({ records }),
    ...links.flatMap(({ before, after }) => [before, after]),
  ]);

/**
 * Why a route is taken.
 * @param routes all routes of the part, each planned to the same depth but the taken one, which may be deeper
 * @param chosen true where the document names the route
 */
export function takenReason(
  routes: readonly JudgedRoute[],
  taken: JudgedRoute,
  chosen: boolean,
): TakenReason {
  if (chosen) return { why: 'chosen' };
  const possible = routes.filter(isPossible);
  const fitting = possible.filter(fits);
  if (possible.length <= 1) return { why: 'only-possible' };
  if (!fits(taken)) return { why: 'least-late', lateMinutes: Math.max(0, lateOf(taken)) };
  if (fitting.length === 1) return { why: 'only-fit', possible: possible.length };
  const unseen = fitting.filter(
    ({ plan }) => plan.unseenGels.length > taken.plan.unseenGels.length,
  );
  const leastHours = Math.min(...fitting.map(({ plan }) => plan.labourHours));
  const soonest = Math.min(...fitting.map(({ plan }) => plan.schedule.end!));
  return {
    why: 'most-apart',
    fit: fitting.length,
    gelsUnseen: unseen.length,
    ownUnseen: taken.plan.unseenGels.length,
    finish: taken.plan.finish,
    extraHours: Math.round((taken.plan.labourHours - leastHours) * 10) / 10,
    soonerMinutes: taken.plan.schedule.end! - soonest,
  };
}

/** The route that would be taken if the date were far away: the first that can be done. */
export const preferredRoute = (routes: readonly JudgedRoute[]): JudgedRoute | undefined =>
  routes.find(isPossible);
