/** Chooses the route and judges it: every route's plan, closing times, findings, levers, odds. */
import type { Build, Finding, JointState, Library } from '../document/schema.ts';
import { chemistryFindings } from '../judge/chemistry.ts';
import { conflictFindings } from '../judge/conflicts.ts';
import { dateFindings } from '../judge/dates.ts';
import { bySeverity } from '../judge/finding.ts';
import { attachLevers } from '../judge/attachLevers.ts';
import { heatFindings } from '../judge/exotherm.ts';
import { materialFindings } from '../judge/materials.ts';
import { closingFindings, mergeForced, type Closings } from '../judge/merge.ts';
import { panelFindings } from '../judge/panels.ts';
import type { Commitments } from '../judge/commitments.ts';
import { isPossible, preferredRoute, type JudgedRoute } from '../judge/rank.ts';
import { structuralFindings } from '../judge/structural.ts';
import type { Evaluate, Evaluation } from '../judge/weigh.ts';
import type { Effort } from '../plan/outcome.ts';
import { partChecks } from '../part/checks.ts';
import { mapYields, runToEnd, type Interruptible, type Lazy } from '../schedule/generators.ts';
import { explain } from '../schedule/infeasible.ts';
import { contextOf, type PlanContext } from '../plan/context.ts';
import { cureTimesOf, type CureTimes } from '../plan/cureTimes.ts';
import { cupReports, stackPeaks } from '../plan/exotherm.ts';
import { infusionsOf } from '../plan/infusionFill.ts';
import { unattendedGel } from '../plan/gelWatch.ts';
import { brokenStarts } from '../plan/wetWindows.ts';
import { wetStartFindings } from '../judge/wetStart.ts';
import { layupStageId } from '../document/ids.ts';
import { mostWaysOut, searchedInPart } from './bySize.ts';
import { ODDS_REPLAYS } from '../judge/odds.ts';
import { oddsNow } from './odds.ts';
import { panelReports } from './panels.ts';
import type { Judgement } from './result.ts';
import { LOOKUPS } from '../plan/lookups.ts';
import { overtimeUses } from '../plan/overtime.ts';
import { movedSincePrinted } from '../plan/replanPrinted.ts';
import type { RoutePlan } from '../plan/routePlan.ts';
import { seedOf } from '../plan/seed.ts';
import {
  closingsOf,
  judgedRoutes,
  openWhileTheyFit,
  pinnedRoute,
  withPlansOfClosings,
  withRoute,
  takenRoute,
} from './routesJudged.ts';

/** Judges a build to the depth of `effort`. */
export const judge = (
  context: PlanContext,
  document: Build,
  shipped: Library,
  effort: Effort,
): Judgement => runToEnd(judgeSteps(context, document, shipped, effort));

/**
 * The same as a generator. It yields the first good plan and every better one, each as a first answer,
 * and returns the whole: closing times, conflicts, levers and odds as well. Null marks a point at which
 * the caller may stop.
 */
export function* judgeSteps(
  context: PlanContext,
  document: Build,
  shipped: Library,
  effort: Effort,
): Interruptible<Lazy<Judgement>, Judgement> {
  const looked = yield* judgedRoutes(context, effort);
  if (effort.scope === 'first') {
    return provisional(context, looked, runToEnd(takenRoute(context, looked, effort)));
  }
  const settled = yield* settledSteps(context, looked, effort);
  return yield* inFull({ context, document, shipped, schedules: effort.schedules, ...settled });
}

/** Every route with its plan and its closing time, and the one that is taken: what a verdict depends on. */
export interface Settled {
  readonly compared: readonly JudgedRoute[];
  readonly closings: Closings;
  readonly taken: JudgedRoute;
}

/** @param looked the routes as first planned */
export function* settledSteps(
  context: PlanContext,
  looked: readonly JudgedRoute[],
  effort: Effort,
): Interruptible<Lazy<Judgement>, Settled> {
  const onRoute = yield* better(context, looked, effort);
  yield () => provisional(context, looked, onRoute);
  const closings = yield* closingsOf(context, looked);
  const compared = withPlansOfClosings(context, looked, closings, effort);
  const changed = compared.some((one, i) => one !== looked[i]);
  const taken = changed ? yield* better(context, compared, effort) : onRoute;
  return { compared, closings, taken };
}

/** The taken route, yielded each time a better plan of it is found. */
function* better(
  context: PlanContext,
  routes: readonly JudgedRoute[],
  effort: Effort,
): Interruptible<Lazy<Judgement>, JudgedRoute> {
  const steps = takenRoute(context, routes, effort);
  return yield* mapYields(steps, (one) => () => provisional(context, routes, one()));
}

const withTaken = (routes: readonly JudgedRoute[], taken: JudgedRoute): JudgedRoute[] =>
  routes.map((one) => (isSameRoute(one, taken) ? taken : one));

/** What follows from a plan without further search. */
function provisional(
  context: PlanContext,
  compared: readonly JudgedRoute[],
  taken: JudgedRoute,
): Judgement {
  const routes = withTaken(compared, taken);
  const times = cureTimesOf(context, taken.plan);
  return {
    taken: taken.plan,
    times,
    routes,
    closings: new Map(),
    findings: findingsOf(context, { taken, routes, times, closings: new Map() }),
    odds: new Map(),
    peaks: new Map(),
  };
}

const commitmentsOf = (context: PlanContext, plan: RoutePlan): Commitments => ({
  overtime: overtimeUses(context, plan),
  moved: movedSincePrinted(context, plan),
});

const unattendedGelsOf = (context: PlanContext, times: readonly CureTimes[]) =>
  times.map((one) => unattendedGel(context, one));

/** Wet work begun against a rule, without what a reason against the route says of it already. */
const startFindings = (
  context: PlanContext,
  plan: RoutePlan,
  reasons: readonly Finding[],
): Finding[] =>
  wetStartFindings(
    context.build.zone,
    brokenStarts(context, plan).filter(({ rule, layups }) => {
      const stage = layupStageId('layup', layups[0]!.id);
      const told = reasons.some((one) => one.code === 'open-time-short' && one.stage === stage);
      return rule !== 'bag-down' || !told;
    }),
  );

interface Judged {
  readonly taken: JudgedRoute;
  readonly routes: readonly JudgedRoute[];
  readonly times: readonly CureTimes[];
  readonly closings: Closings;
}

/** A crew of nobody is a reason against every route; of the plan the crew's own check says it. */
const saidOnce = ({ code }: Finding): boolean => code !== 'crew-empty';

/** All findings of a plan; `slow` holds those that only a full answer works out. */
function findingsOf(
  context: PlanContext,
  { taken, routes, times, closings }: Judged,
  slow: readonly Finding[] = [],
): Finding[] {
  const preferred = preferredRoute(routes);
  const closing = closings.get(preferred?.plan.route.id ?? '') ?? null;
  return bySeverity([
    ...taken.reasons.filter(saidOnce),
    ...dateFindings(context, taken.plan, commitmentsOf(context, taken.plan)),
    ...mergeForced(context, taken.plan, preferred, closing, routes),
    ...closingFindings(context, taken.plan, routes, closings),
    ...materialFindings(
      context,
      taken.plan,
      times,
      partChecks(context.build, context.library),
      infusionsOf(context, taken.plan.cures),
    ),
    ...structuralFindings(context, taken.plan),
    ...slow,
    ...chemistryFindings(context, taken.plan, times, unattendedGelsOf(context, times)),
    ...startFindings(context, taken.plan, taken.reasons),
  ]);
}

/** What takes longer: why nothing fits, what would help, how sure it is. */
function* inFull(soFar: {
  readonly context: PlanContext;
  readonly document: Build;
  readonly shipped: Library;
  readonly compared: readonly JudgedRoute[];
  readonly closings: Closings;
  readonly taken: JudgedRoute;
  readonly schedules: number;
}): Interruptible<null, Judgement> {
  const { context, document, shipped, taken, schedules } = soFar;
  const routes = withTaken(soFar.compared, taken);
  const closings = openWhileTheyFit(soFar.closings, context, routes);
  const times = cureTimesOf(context, taken.plan);
  const conflicts = conflictFindings(conflictsOf(context, taken.plan), context.build.zone);
  yield null;
  const slow = [...conflicts, ...checked(context, document, shipped, times)];
  yield null;
  let waysOut = 0;
  const judged = attachLevers({
    context,
    document,
    shipped,
    findings: findingsOf(context, { taken, routes, times, closings }, slow),
    taken: taken.plan,
    routes,
    preferred: preferredRoute(routes),
    lookups: LOOKUPS,
    evaluate: evaluator(context, shipped, taken.plan),
    mostWaysOut: mostWaysOut(taken.plan),
    leftAside: (ways) => {
      waysOut += ways;
    },
  });
  const findings = bySeverity([...judged, ...searchedInPart(taken.plan, schedules, waysOut)]);
  yield null;
  const odds = yield* oddsByRoute(context, routes, taken.plan);
  const peaks = stackPeaks(context, times);
  return { taken: taken.plan, times, routes, closings, findings, odds, peaks };
}

/**
 * One route as a search judges it: planned once, with what a first look says of it. Nothing is compared
 * with other routes, so merges that the date forces are not among the findings.
 */
export function judgePinned(
  context: PlanContext,
  joints: Readonly<Record<string, JointState>>,
): { readonly plan: RoutePlan; readonly findings: readonly Finding[] } {
  const { plan, reasons } = pinnedRoute(context, joints);
  const times = cureTimesOf(context, plan);
  const facts = partChecks(context.build, context.library);
  const findings = [
    ...reasons.filter(saidOnce),
    ...dateFindings(context, plan, commitmentsOf(context, plan)),
    ...materialFindings(context, plan, times, facts, infusionsOf(context, plan.cures)),
    ...structuralFindings(context, plan),
    ...chemistryFindings(context, plan, times, unattendedGelsOf(context, times)),
    ...startFindings(context, plan, reasons),
  ];
  return { plan, findings };
}

/** What stands in the way of the taken route; nothing while it fits or cannot be placed. */
function conflictsOf(
  { build, now, deadline }: PlanContext,
  { network, schedule, route }: RoutePlan,
) {
  if (schedule.fits || schedule.placed.length === 0 || deadline < now) return [];
  const seed = seedOf(build.id, route.id);
  return explain(network.problem, { seed, schedules: EXPLAIN_SCHEDULES }).map(
    ({ facts, proven }) => ({ facts: facts.map(({ fact }) => fact), proven }),
  );
}

/** Schedules generated to decide whether one set of facts fits. */
const EXPLAIN_SCHEDULES = 20;

const isSameRoute = (a: JudgedRoute, b: JudgedRoute): boolean =>
  a.plan.route.id === b.plan.route.id;

/** Chances of all routes that are planned, the taken one's last. */
function* oddsByRoute(
  context: PlanContext,
  routes: readonly JudgedRoute[],
  taken: RoutePlan,
): Interruptible<null, Map<string, number>> {
  const plans = routes.filter(isPossible).map((judged) => judged.plan);
  const all = [...plans.filter((plan) => plan.route.id !== taken.route.id), taken];
  const chances = new Map<string, number>();
  for (const plan of all) {
    const odds = oddsNow(context, plan, { replays: ODDS_REPLAYS });
    if (odds) chances.set(plan.route.id, odds.onTime);
    yield null;
  }
  return chances;
}

/**
 * Plans changed builds, whatever was printed: at a first look, or to the depth at which one is offered. There
 * the route that is shown is looked at as well, so that a change is not weighed by a worse one.
 */
const evaluator =
  (context: PlanContext, shipped: Library, { route, lateMinutes }: RoutePlan): Evaluate =>
  (changed, depth) => {
    const edited = { ...changed, printed: null };
    const own = contextOf(edited, shipped, context.now);
    const inVain = lateMinutes === null ? LOOKED_AT_WHERE_NONE_CAN : LOOKED_AT_IN_VAIN;
    const effort = { scope: 'first', schedules: 1, inVain } as const;
    if (depth === 'look') return evaluationOf(judge(own, edited, shipped, effort));
    const looked = withRoute(own, runToEnd(judgedRoutes(own, effort)), route.joints);
    const taken = runToEnd(takenRoute(own, looked, { scope: 'full', schedules: VERIFY_SCHEDULES }));
    const times = cureTimesOf(own, taken.plan);
    const judged = { taken, routes: withTaken(looked, taken), times, closings: new Map() };
    const slow = checked(own, edited, shipped, times);
    return evaluationOf({ taken: taken.plan, findings: findingsOf(own, judged, slow) });
  };

/** There are hundreds of changed builds to look at: where one thing stops every route, few of them say so. */
const LOOKED_AT_IN_VAIN = { wet: 12, planned: 3 };
/** Nothing can be placed as it is: what mends that shows in the least and in the most merged route. */
const LOOKED_AT_WHERE_NONE_CAN = { wet: 12, planned: 1 };

/** Schedules for a changed build before it is offered as a way out. */
const VERIFY_SCHEDULES = 40;

const evaluationOf = ({ taken, findings }: Pick<Judgement, 'taken' | 'findings'>): Evaluation => ({
  lateMinutes: taken.lateMinutes,
  fits: taken.schedule.fits,
  materialCostMinor: taken.materialCostMinor,
  route: taken.route.cures.map(({ name }) => name),
  findings,
  stops: codesOf(findings.filter(({ severity }) => severity === 'stop')),
});

const codesOf = (findings: readonly Finding[]): ReadonlySet<string> =>
  new Set(findings.map(({ code }) => code));

/** What takes too long for a first answer. */
const checked = (
  context: PlanContext,
  document: Build,
  shipped: Library,
  times: readonly CureTimes[],
): Finding[] => [
  ...heatFindings(
    cupReports(
      context,
      times.map((one) => one.cure),
    ),
  ),
  ...panelFindings(panelReports(context, document, shipped)),
];
