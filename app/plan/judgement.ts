/** Chooses the route and judges it: every route's plan, closing times, findings, levers. */
import type { Build, Finding, Lever, Library } from '../build/schema.ts';
import { chemistryFindings } from '../judge/chemistry.ts';
import { dateFindings } from '../judge/dates.ts';
import { bySeverity } from '../judge/finding.ts';
import { leverEdits } from '../judge/levers.ts';
import { materialFindings } from '../judge/materials.ts';
import { closingSoon, mergeForced, type Closing } from '../judge/merge.ts';
import { whyImpossible } from '../judge/possible.ts';
import { bestRoute, isPossible, preferredRoute, type JudgedRoute } from '../judge/rank.ts';
import { weighLevers, type Evaluation } from '../judge/weigh.ts';
import type { Effort } from '../outcome.ts';
import { enumerateRoutes, routeOf } from '../route/routes.ts';
import type { Route } from '../route/types.ts';
import { closingTime } from '../schedule/closing.ts';
import { contextOf, type PlanContext } from './context.ts';
import { cureTimesOf } from './cureTimes.ts';
import type { Judgement } from './result.ts';
import { draftRoute, planRoute, type RoutePlan } from './routePlan.ts';

/** Judges a build to the depth of `effort`. */
export function judge(
  context: PlanContext,
  document: Build,
  shipped: Library,
  effort: Effort,
): Judgement {
  const routes = judgedRoutes(context, effort);
  const taken = takenRoute(context, routes, effort);
  const times = cureTimesOf(context, taken.plan);
  const preferred = preferredRoute(routes);
  const closings =
    effort.scope === 'full' ? closingsOf(context, routes) : new Map<string, Closing>();
  const closing = (plan: RoutePlan | undefined) => closings.get(plan?.route.id ?? '') ?? null;
  const merged = mergeForced(context, taken.plan, preferred, closing(preferred?.plan), []);
  const findings = bySeverity([
    ...taken.reasons,
    ...dateFindings(context, taken.plan),
    ...merged,
    ...closingSoon(context, taken.plan, closing(taken.plan)),
    ...materialFindings(context, taken.plan, times),
    ...chemistryFindings(context, taken.plan, times),
  ]);
  const judgement = { taken: taken.plan, times, routes, closings, findings };
  if (effort.scope === 'first') return judgement;
  return { ...judgement, findings: withLevers(context, document, shipped, judgement, preferred) };
}

/** In order of preference. A first answer stops at the first route that fits. */
function judgedRoutes(context: PlanContext, effort: Effort): JudgedRoute[] {
  const judged: JudgedRoute[] = [];
  for (const route of enumerateRoutes(context.part.layups)) {
    judged.push(judgeRoute(context, route, effort));
    const last = judged.at(-1)!;
    if (effort.scope === 'first' && isPossible(last) && last.plan.schedule.fits) break;
  }
  return judged;
}

/** A route that cannot be done is costed and listed; it is scheduled only where it was asked for. */
function judgeRoute(
  context: PlanContext,
  route: Route,
  effort: Effort,
  evenIfImpossible = false,
): JudgedRoute {
  const draft = draftRoute(context, route);
  const reasons = whyImpossible(context, draft);
  const scheduled = evenIfImpossible || reasons.every((reason) => reason.severity !== 'stop');
  return { plan: planRoute(context, draft, scheduled ? effort.schedules : 0), reasons };
}

/** The route the build asks for, or the best one. A part without layups has an empty route. */
function takenRoute(
  context: PlanContext,
  routes: readonly JudgedRoute[],
  effort: Effort,
): JudgedRoute {
  const wanted = context.build.route;
  if (wanted !== 'best') {
    const route = routeOf(context.part.layups, wanted.joints);
    const known = routes.find((judged) => judged.plan.route.id === route.id);
    return known && isPossible(known) ? known : judgeRoute(context, route, effort, true);
  }
  const best = bestRoute(routes);
  if (best && isPossible(best)) return best;
  return judgeRoute(context, best?.plan.route ?? routeOf([], {}), effort, true);
}

/** A route may have closed before now: the search goes back to where calendars begin. */
function closingsOf(context: PlanContext, routes: readonly JudgedRoute[]): Map<string, Closing> {
  return new Map(
    routes.filter(isPossible).map(({ plan }) => {
      const problem = { ...plan.network.problem, from: context.first };
      return [plan.route.id, closingTime(problem)];
    }),
  );
}

/** Codes that time or money can clear; the rest only knowledge or another material can. */
const MENDABLE = ['date-missed', 'slot-missed', 'merge-forced', 'open-time-short', 'cure-stalls'];
MENDABLE.push('gel-unattended', 'paint-over-tg', 'cold-room', 'works-alone', 'crew-empty');

/** Weighs every lever once and hangs it on the findings that it would clear or relieve. */
function withLevers(
  context: PlanContext,
  document: Build,
  shipped: Library,
  judgement: Judgement,
  preferred: JudgedRoute | undefined,
): Finding[] {
  const { findings } = judgement;
  const wanted = [...new Set(findings.map((finding) => finding.code))].filter((code) =>
    MENDABLE.includes(code),
  );
  if (wanted.length === 0) return [...findings];
  const levers = leversFor(context, document, shipped, judgement.taken, wanted);
  const apart =
    preferred && wanted.includes('merge-forced')
      ? leversFor(context, pinned(document, preferred.plan), shipped, preferred.plan, [
          'date-missed',
          'slot-missed',
        ])
      : [];
  return findings.map((finding) => {
    if (finding.code === 'merge-forced') return { ...finding, levers: keepApart(apart) };
    const helps = levers.filter(
      (lever) => lever.clears.includes(finding.code) || (isLate(finding) && lever.hoursGained > 0),
    );
    return helps.length === 0 ? finding : { ...finding, levers: helps };
  });
}

const isLate = (finding: Finding): boolean =>
  finding.code === 'date-missed' || finding.code === 'slot-missed';

/** Levers of the separate route, told as what they do to the merge. */
const keepApart = (levers: readonly Lever[]): Lever[] =>
  levers.map((lever) => ({
    ...lever,
    clears: lever.clears.length > 0 ? ['merge-forced'] : [],
  }));

const pinned = (document: Build, plan: RoutePlan): Build => ({
  ...document,
  route: { joints: { ...plan.route.joints } },
});

function leversFor(
  context: PlanContext,
  document: Build,
  shipped: Library,
  plan: RoutePlan,
  wanted: readonly string[],
): Lever[] {
  const evaluate = (changed: Build): Evaluation => {
    const changedContext = contextOf(changed, shipped, context.now);
    const found = judge(changedContext, changed, shipped, { scope: 'first', schedules: 1 });
    return evaluationOf(found);
  };
  const before = evaluate(document);
  const baseline = { ...before, end: before.end ?? plan.schedule.end };
  return weighLevers(leverEdits(document, shipped), baseline, wanted, evaluate);
}

const evaluationOf = ({ taken, findings }: Judgement): Evaluation => ({
  end: taken.schedule.end,
  fits: taken.schedule.fits,
  materialCostMinor: taken.materialCostMinor,
  codes: new Set(findings.map((finding) => finding.code)),
});
