/** Chooses the route and judges it: every route's plan, closing times, findings, levers, odds. */
import type { Build, Finding, Library } from '../build/schema.ts';
import { chemistryFindings } from '../judge/chemistry.ts';
import { conflictFindings } from '../judge/conflicts.ts';
import { dateFindings } from '../judge/dates.ts';
import { bySeverity } from '../judge/finding.ts';
import { hangLevers } from '../judge/hang.ts';
import { heatFindings } from '../judge/heat.ts';
import { materialFindings } from '../judge/materials.ts';
import { closingFindings, mergeForced, type Closings } from '../judge/merge.ts';
import { panelFindings } from '../judge/panels.ts';
import { isPossible, preferredRoute, type JudgedRoute } from '../judge/rank.ts';
import { structuralFindings } from '../judge/structural.ts';
import type { Evaluate, Evaluation } from '../judge/weigh.ts';
import type { Effort } from '../outcome.ts';
import { partFacts } from '../part/facts.ts';
import { explain } from '../schedule/explain.ts';
import { contextOf, type PlanContext } from './context.ts';
import { cureTimesOf, type CureTimes } from './cureTimes.ts';
import { cupReports, stackPeaks } from './heat.ts';
import { oddsNow } from './odds.ts';
import { panelReports } from './panels.ts';
import type { Judgement } from './result.ts';
import type { RoutePlan } from './routePlan.ts';
import { seedOf } from './seed.ts';
import { closingsOf, judgedRoutes, reopened, takenRoute } from './routesJudged.ts';

/** Judges a build to the depth of `effort`. */
export function judge(
  context: PlanContext,
  document: Build,
  shipped: Library,
  effort: Effort,
): Judgement {
  const full = effort.scope === 'full';
  const looked = judgedRoutes(context, effort);
  const closings: Closings = full ? closingsOf(context, looked) : new Map();
  const compared = full ? reopened(context, looked, closings, effort) : looked;
  const taken = takenRoute(context, compared, effort);
  const routes = compared.map((one) => (isSameRoute(one, taken) ? taken : one));
  const times = cureTimesOf(context, taken.plan);
  const preferred = preferredRoute(routes);
  const closing = closings.get(preferred?.plan.route.id ?? '') ?? null;
  const findings = bySeverity([
    ...taken.reasons,
    ...dateFindings(context, taken.plan),
    ...mergeForced(context, taken.plan, preferred, closing),
    ...closingFindings(context, taken.plan, routes, closings),
    ...materialFindings(context, taken.plan, times, partFacts(context.build, context.library)),
    ...structuralFindings(context, taken.plan),
    ...(full ? conflictFindings(conflictsOf(context, taken.plan)) : []),
    ...(full ? checked(context, document, shipped, times) : []),
    ...chemistryFindings(context, taken.plan, times),
  ]);
  const judgement = {
    taken: taken.plan,
    times,
    routes,
    closings,
    findings,
    odds: new Map(),
    peaks: new Map(),
  };
  if (!full) return judgement;
  const hung = hangLevers({
    context,
    document,
    shipped,
    findings,
    taken: taken.plan,
    routes,
    preferred,
    evaluate: evaluator(context, shipped),
  });
  const odds = oddsByRoute(context, routes, taken.plan);
  return { ...judgement, findings: hung, odds, peaks: stackPeaks(context, times) };
}

/** What stands in the way of the taken route, in words; nothing while it fits or cannot be placed. */
function conflictsOf(
  { build, now, deadline }: PlanContext,
  { network, schedule, route }: RoutePlan,
) {
  if (schedule.fits || schedule.placed.length === 0 || deadline < now) return [];
  const { zone } = build;
  const seed = seedOf(build.id, route.id);
  return explain(network.problem, { zone, seed, schedules: EXPLAIN_SCHEDULES }).map(
    ({ facts, proven }) => ({ facts: facts.map((fact) => fact.text), proven }),
  );
}

/** Schedules for each question whether a set of facts fits. */
const EXPLAIN_SCHEDULES = 20;

const isSameRoute = (a: JudgedRoute, b: JudgedRoute): boolean =>
  a.plan.route.id === b.plan.route.id;

/** Chances of all routes that are planned, the taken one's with more replays. */
function oddsByRoute(
  context: PlanContext,
  routes: readonly JudgedRoute[],
  taken: RoutePlan,
): Map<string, number> {
  const plans = routes.filter(isPossible).map((judged) => judged.plan);
  const all = [...plans.filter((plan) => plan.route.id !== taken.route.id), taken];
  return new Map(
    all.flatMap((plan) => {
      const replays = plan === taken ? ODDS_REPLAYS : ODDS_REPLAYS_TO_COMPARE;
      const odds = oddsNow(context, plan, { replays });
      return odds ? [[plan.route.id, odds.onTime]] : [];
    }),
  );
}

/** Enough for a chance to the nearest 5 %; the odds themselves are played out by their own job. */
const ODDS_REPLAYS = 2000;
const ODDS_REPLAYS_TO_COMPARE = 500;

/** Plans a changed build to the depth of a first answer. */
const evaluator =
  (context: PlanContext, shipped: Library): Evaluate =>
  (changed) => {
    const own = contextOf(changed, shipped, context.now);
    return evaluationOf(judge(own, changed, shipped, { scope: 'first', schedules: 1 }));
  };

const evaluationOf = ({ taken, findings }: Judgement): Evaluation => ({
  lateMinutes: taken.lateMinutes,
  fits: taken.schedule.fits,
  materialCostMinor: taken.materialCostMinor,
  codes: new Set(findings.map((finding) => finding.code)),
});

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
