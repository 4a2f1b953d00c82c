/** Which routes are planned and how hard, which one is taken, when each closes. */
import type { Finding, JointState } from '../document/schema.ts';
import { obstacleFindings } from '../judge/dates.ts';
import { heatFindings } from '../judge/exotherm.ts';
import type { Closings } from '../judge/merge.ts';
import { whyImpossible } from '../judge/possible.ts';
import { bestRoute, isPossible, namedStages, type JudgedRoute } from '../judge/rank.ts';
import type { Effort } from '../plan/outcome.ts';
import { enumerateRoutes, routeOf } from '../route/routes.ts';
import type { Route } from '../route/types.ts';
import { mapYields, runToEnd, type Interruptible, type Lazy } from '../schedule/generators.ts';
import { closingSteps, type Closing as ClosingTime } from '../schedule/closing.ts';
import type { PlanContext } from '../plan/context.ts';
import { wetFaultsOf } from '../plan/wetWindows.ts';
import { stackReports } from '../plan/exotherm.ts';
import {
  draftRoute,
  plannedAs,
  planRoute,
  planRouteSteps,
  type RoutePlan,
} from '../plan/routePlan.ts';

/** In order of preference; a first answer plans only what it needs to say whether it fits. */
export function* judgedRoutes(
  context: PlanContext,
  effort: Effort,
): Interruptible<null, JudgedRoute[]> {
  const routes = enumerateRoutes(context.part.layups);
  if (effort.scope === 'full') {
    const schedules = Math.min(effort.schedules, SCHEDULES_TO_COMPARE);
    const judged: JudgedRoute[] = [];
    for (const route of routes) {
      judged.push(judgeRoute(context, route, { schedules, heat: true }));
      yield null;
    }
    return judged;
  }
  const most = context.build.route === 'best' ? FIRST_ROUTES : 1;
  const judged = firstPossible(context, routes, effort, most);
  if (most === 1 || judged.length === 0) return judged;
  if (judged.length < most || judged.some(({ plan }) => plan.schedule.fits)) return judged;
  return [...judged, ...mostMerged(context, routes, effort, judged.at(-1)!.plan.route)];
}

/** Enough to compare routes by; the one that is taken gets the whole effort. */
const SCHEDULES_TO_COMPARE = 16;

/** Routes planned in order in a first answer while none fits; the rest follow with the full one. */
const FIRST_ROUTES = 3;

/** Where a gel would fall unseen, so many times as many routes are planned to find one that is seen. */
const MOST_UNSEEN = 2;

/** The first routes that can be done, up to one that fits with somebody there for every gel. */
function firstPossible(
  context: PlanContext,
  routes: readonly Route[],
  effort: Effort,
  most: number,
): JudgedRoute[] {
  const judged: JudgedRoute[] = [];
  const patience = patienceOf(effort);
  for (const route of routes) {
    const one = judgeIfPossible(context, route, effort);
    if (typeof one !== 'string') judged.push(one);
    else if (!patience(one)) break;
    if (judged.some(({ plan }) => plan.schedule.fits && plan.unseenGels.length === 0)) break;
    const isSeen = judged.every(({ plan }) => plan.unseenGels.length === 0);
    if (judged.length >= (isSeen ? most : MOST_UNSEEN * most)) break;
  }
  return judged;
}

/** The most merged route that can be done, beyond those already judged: usually the least late. */
function mostMerged(
  context: PlanContext,
  routes: readonly Route[],
  effort: Effort,
  last: Route,
): JudgedRoute[] {
  const beyond = routes.slice(routes.findIndex((route) => route.id === last.id) + 1);
  const patience = patienceOf(effort);
  for (const route of beyond.toReversed()) {
    const one = judgeIfPossible(context, route, effort);
    if (typeof one !== 'string') return [one];
    if (!patience(one)) break;
  }
  return [];
}

/** Why a route cannot be done: its records or finish, its wet work, or something that cannot be placed. */
type Impossible = 'plainly' | 'wet' | 'planned';

/** Counts what was looked at in vain; false once it is enough. */
function patienceOf({ inVain }: Effort): (why: Impossible) => boolean {
  const seen = { plainly: 0, wet: 0, planned: 0 };
  return (why) => {
    seen[why]++;
    return !inVain || (seen.wet < inVain.wet && seen.planned < inVain.planned);
  };
}

function judgeIfPossible(
  context: PlanContext,
  route: Route,
  effort: Effort,
): JudgedRoute | Impossible {
  const draft = draftRoute(context, route);
  if (stops(whyImpossible(context, draft, []))) return 'plainly';
  const reasons = whyImpossible(context, draft, wetFaultsOf(context, draft));
  if (stops(reasons)) return 'wet';
  const judged = withObstacles(context, planRoute(context, draft, effort.schedules), reasons);
  return isPossible(judged) ? judged : 'planned';
}

const stops = (reasons: readonly Finding[]): boolean =>
  reasons.some((reason) => reason.severity === 'stop');

/** Obstacles to placing a route are reasons against it. */
const withObstacles = (
  context: PlanContext,
  plan: RoutePlan,
  reasons: readonly Finding[],
): JudgedRoute => ({
  plan,
  reasons: [...reasons, ...obstacleFindings(context, plan)],
});

interface Depth {
  readonly schedules: number;
  readonly heat: boolean;
  readonly evenIfImpossible?: boolean;
}

/** A route that cannot be done is costed and listed; it is scheduled only where it was asked for. */
const judgeRoute = (context: PlanContext, route: Route, how: Depth): JudgedRoute =>
  runToEnd(judgeRouteSteps(context, route, how));

function* judgeRouteSteps(
  context: PlanContext,
  route: Route,
  how: Depth,
): Interruptible<Lazy<JudgedRoute>, JudgedRoute> {
  const draft = draftRoute(context, route);
  const heat = how.heat ? heatFindings(stackReports(context, draft.cures)) : [];
  const reasons = [...whyImpossible(context, draft, wetFaultsOf(context, draft)), ...heat];
  const scheduled = how.evenIfImpossible || !stops(reasons);
  const steps = planRouteSteps(context, draft, scheduled ? how.schedules : 0);
  return withObstacles(
    context,
    yield* mapYields(steps, (better) => () => withObstacles(context, better(), reasons)),
    reasons,
  );
}

/** One route by its joints, planned even where there are reasons against it. */
export const pinnedRoute = (
  context: PlanContext,
  joints: Readonly<Record<string, JointState>>,
): JudgedRoute =>
  judgeRoute(context, routeOf(context.part.layups, joints), {
    schedules: 1,
    heat: false,
    evenIfImpossible: true,
  });

/** The routes and one more, in order of preference, where the build leaves the choice open. */
export function withRoute(
  context: PlanContext,
  judged: readonly JudgedRoute[],
  joints: Readonly<Record<string, JointState>>,
): readonly JudgedRoute[] {
  const { build, part } = context;
  const { id } = routeOf(part.layups, joints);
  if (build.route !== 'best' || judged.some(({ plan }) => plan.route.id === id)) return judged;
  const order = enumerateRoutes(part.layups).map((route) => route.id);
  return [...judged, pinnedRoute(context, joints)].toSorted(
    (a, b) => order.indexOf(a.plan.route.id) - order.indexOf(b.plan.route.id),
  );
}

/**
 * The route the build asks for, or the best one, yielded each time a better plan of it is found. A part
 * without layups has an empty route.
 */
export function* takenRoute(
  context: PlanContext,
  routes: readonly JudgedRoute[],
  effort: Effort,
): Interruptible<Lazy<JudgedRoute>, JudgedRoute> {
  const { route: wanted } = context.build;
  const { layups } = context.part;
  const asked = wanted === 'best' ? null : routeOf(layups, wanted.joints);
  const known = asked
    ? routes.find((judged) => judged.plan.route.id === asked.id)
    : bestRoute(routes, namedStages(context.build));
  if (known && isPossible(known) && effort.schedules <= SCHEDULES_TO_COMPARE) return known;
  const route = asked ?? known?.plan.route ?? routeOf(layups, {});
  const thorough = yield* judgeRouteSteps(context, route, {
    schedules: effort.schedules,
    heat: effort.scope === 'full',
    evenIfImpossible: true,
  });
  const worse = known?.plan.schedule.fits && !thorough.plan.schedule.fits;
  return worse ? known : thorough;
}

/** A route may have closed before now: the search goes back to where calendars begin. */
export function* closingsOf(
  context: PlanContext,
  routes: readonly JudgedRoute[],
): Interruptible<null, Map<string, ClosingTime>> {
  const closings = new Map<string, ClosingTime>();
  for (const { plan } of routes.filter(isPossible)) {
    const problem = { ...plan.network.problem, from: context.first };
    const fitsFrom = plan.schedule.fits ? context.from : null;
    closings.set(plan.route.id, yield* closingSteps(problem, fitsFrom));
    yield null;
  }
  return closings;
}

/** A plan that fits from now on shows that its route closes no earlier than now. */
export function openWhileTheyFit(
  closings: Closings,
  { from }: PlanContext,
  routes: readonly JudgedRoute[],
): Closings {
  const kept = new Map(closings);
  for (const { plan } of routes) {
    const closing = closings.get(plan.route.id);
    if (!closing || !plan.schedule.fits || (closing.minute ?? -Infinity) >= from) continue;
    kept.set(plan.route.id, { ...closing, minute: from, proven: false });
  }
  return kept;
}

/**
 * Routes that were found not to fit at first take the plan that the search for their closing time found:
 * all of it begins at that time or later, so that it is a plan from now on as well.
 */
export function withPlansOfClosings(
  context: PlanContext,
  routes: readonly JudgedRoute[],
  closings: ReadonlyMap<string, ClosingTime>,
  effort: Effort,
): JudgedRoute[] {
  return routes.map((judged) => {
    const closing = closings.get(judged.plan.route.id);
    const closes = closing?.minute ?? null;
    if (!closing || closes === null || closes < context.from) return judged;
    if (judged.plan.schedule.fits) return judged;
    const later = { ...context, from: closes };
    const draft = draftRoute(context, judged.plan.route);
    const known = closing.fitting && plannedAs(later, draft, closing.fitting);
    const plan = known?.schedule.fits ? known : planRoute(later, draft, effort.schedules);
    return plan.schedule.fits ? { ...judged, plan } : judged;
  });
}
