/** Chooses the route and judges it: every route's plan, closing times, findings, levers. */
import type { Build, Finding, Lever, Library } from '../build/schema.ts';
import { chemistryFindings } from '../judge/chemistry.ts';
import { dateFindings } from '../judge/dates.ts';
import { bySeverity } from '../judge/finding.ts';
import { heatFindings } from '../judge/heat.ts';
import { leverEdits } from '../judge/levers.ts';
import { materialFindings } from '../judge/materials.ts';
import { closingFindings, mergeForced, type Closing, type Closings } from '../judge/merge.ts';
import { panelFindings } from '../judge/panels.ts';
import { mergeLevers, slotLevers, stiffenEdit, stiffenId } from '../judge/planLevers.ts';
import { whyImpossible } from '../judge/possible.ts';
import { bestRoute, isPossible, preferredRoute, type JudgedRoute } from '../judge/rank.ts';
import { weighLevers, type Evaluation } from '../judge/weigh.ts';
import type { FindingCode } from '../messages/codes.ts';
import type { Effort } from '../outcome.ts';
import { enumerateRoutes, routeOf } from '../route/routes.ts';
import type { Route } from '../route/types.ts';
import { closingTime } from '../schedule/closing.ts';
import { MINUTES_PER_DAY } from '../time/instant.ts';
import { contextOf, type PlanContext } from './context.ts';
import { heatReports } from './heat.ts';
import { cureTimesOf, type CureTimes } from './cureTimes.ts';
import { partFacts } from '../part/facts.ts';
import { oddsNow } from './odds.ts';
import { panelReports } from './panels.ts';
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
  const closings: Closings = effort.scope === 'full' ? closingsOf(context, routes) : new Map();
  const closing = closings.get(preferred?.plan.route.id ?? '') ?? null;
  const findings = bySeverity([
    ...taken.reasons,
    ...dateFindings(context, taken.plan),
    ...mergeForced(context, taken.plan, preferred, closing),
    ...closingFindings(context, taken.plan, routes, closings),
    ...materialFindings(context, taken.plan, times, partFacts(context.build, context.library)),
    ...(effort.scope === 'full' ? checked(context, document, shipped, times) : []),
    ...chemistryFindings(context, taken.plan, times),
  ]);
  const odds = new Map<string, number>();
  const judgement = { taken: taken.plan, times, routes, closings, findings, odds };
  if (effort.scope === 'first') return judgement;
  const counted = oddsNow(context, taken.plan, { replays: ODDS_REPLAYS });
  if (counted) odds.set(taken.plan.route.id, counted.onTime);
  const levered = withLevers(context, document, shipped, judgement, preferred);
  return { ...judgement, findings: stiffened(context, document, shipped, taken.plan, levered) };
}

/** What takes too long for a first answer. */
const checked = (
  context: PlanContext,
  document: Build,
  shipped: Library,
  times: readonly CureTimes[],
): Finding[] => [
  ...heatFindings(heatReports(context, times)),
  ...(context.build.part.finish === 'hidden'
    ? []
    : panelFindings(panelReports(context, document, shipped))),
];

/** Enough for a chance to the nearest 5 %; the odds themselves are played out by their own job. */
const ODDS_REPLAYS = 2000;

/** In order of preference; a first answer plans only what it needs to say whether it fits. */
function judgedRoutes(context: PlanContext, effort: Effort): JudgedRoute[] {
  const routes = enumerateRoutes(context.part.layups);
  if (effort.scope === 'full') {
    const schedules = Math.min(effort.schedules, SCHEDULES_TO_COMPARE);
    return routes.map((route) => judgeRoute(context, route, schedules));
  }
  const most = context.build.route === 'best' ? FIRST_ROUTES : 1;
  const judged = firstPossible(context, routes, effort, most);
  if (most === 1 || judged.length === 0) return judged;
  if (judged.length < most || judged.at(-1)!.plan.schedule.fits) return judged;
  return [...judged, ...mostMerged(context, routes, effort, judged.at(-1)!.plan.route)];
}

/** Enough to compare routes by; the one that is taken gets the whole effort. */
const SCHEDULES_TO_COMPARE = 16;

/** Routes planned in order in a first answer while none fits; the rest follow with the full one. */
const FIRST_ROUTES = 3;

/** The first routes that can be done, up to one that fits. */
function firstPossible(
  context: PlanContext,
  routes: readonly Route[],
  effort: Effort,
  most: number,
): JudgedRoute[] {
  const judged: JudgedRoute[] = [];
  for (const route of routes) {
    const one = judgeIfPossible(context, route, effort);
    if (one) judged.push(one);
    if (one?.plan.schedule.fits || judged.length === most) break;
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
  for (const route of beyond.toReversed()) {
    const one = judgeIfPossible(context, route, effort);
    if (one) return [one];
  }
  return [];
}

function judgeIfPossible(context: PlanContext, route: Route, effort: Effort): JudgedRoute | null {
  const draft = draftRoute(context, route);
  const reasons = whyImpossible(context, draft);
  if (reasons.some((reason) => reason.severity === 'stop')) return null;
  return { plan: planRoute(context, draft, effort.schedules), reasons };
}

/** A route that cannot be done is costed and listed; it is scheduled only where it was asked for. */
function judgeRoute(
  context: PlanContext,
  route: Route,
  schedules: number,
  evenIfImpossible = false,
): JudgedRoute {
  const draft = draftRoute(context, route);
  const reasons = whyImpossible(context, draft);
  const scheduled = evenIfImpossible || reasons.every((reason) => reason.severity !== 'stop');
  return { plan: planRoute(context, draft, scheduled ? schedules : 0), reasons };
}

/** The route the build asks for, or the best one. A part without layups has an empty route. */
function takenRoute(
  context: PlanContext,
  routes: readonly JudgedRoute[],
  effort: Effort,
): JudgedRoute {
  const { route: wanted } = context.build;
  const { layups } = context.part;
  const asked = wanted === 'best' ? null : routeOf(layups, wanted.joints);
  const known = asked
    ? routes.find((judged) => judged.plan.route.id === asked.id)
    : bestRoute(routes);
  if (known && isPossible(known) && effort.schedules <= SCHEDULES_TO_COMPARE) return known;
  const route = asked ?? known?.plan.route ?? routeOf(layups, {});
  return judgeRoute(context, route, effort.schedules, true);
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
const MENDABLE: ReadonlySet<string> = new Set<FindingCode>([
  'date-missed',
  'slot-missed',
  'merge-forced',
  'open-time-short',
  'tack-out-of-hours',
  'cure-stalls',
  'stage-impossible',
  'gel-unattended',
  'paint-over-tg',
  'cold-room',
  'works-alone',
  'crew-empty',
]);

/** Weighs every lever once and hangs it on the findings that it would clear or relieve. */
function withLevers(
  context: PlanContext,
  document: Build,
  shipped: Library,
  judgement: Judgement,
  preferred: JudgedRoute | undefined,
): Finding[] {
  const { findings, routes, taken } = judgement;
  const wanted = [...new Set(findings.map((finding) => finding.code))].filter((code) =>
    MENDABLE.has(code),
  );
  if (wanted.length === 0) return [...findings];
  const ask = { context, shipped, routes };
  const levers = leversFor({ ...ask, document, plan: taken, wanted });
  const apart =
    preferred && wanted.includes('merge-forced')
      ? leversFor({
          ...ask,
          document: pinned(document, preferred.plan),
          plan: preferred.plan,
          wanted: ['date-missed', 'slot-missed'],
        })
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

/** Levers of the separate route, told as what they do to the merge; merging is no way to avoid it. */
const keepApart = (levers: readonly Lever[]): Lever[] =>
  levers
    .filter((lever) => !lever.id.startsWith('route:'))
    .map((lever) => ({ ...lever, clears: lever.clears.length > 0 ? ['merge-forced'] : [] }));

const pinned = (document: Build, plan: RoutePlan): Build => ({
  ...document,
  route: { joints: { ...plan.route.joints } },
});

interface LeverQuestion {
  readonly context: PlanContext;
  readonly document: Build;
  readonly shipped: Library;
  readonly plan: RoutePlan;
  readonly routes: readonly JudgedRoute[];
  readonly wanted: readonly string[];
}

function leversFor({ context, document, shipped, plan, routes, wanted }: LeverQuestion): Lever[] {
  const evaluate = evaluator(context, shipped);
  const before = evaluate(document);
  const baseline = { ...before, lateMinutes: before.lateMinutes ?? plan.lateMinutes };
  const until = plan.schedule.end ?? context.deadline;
  const days = Math.max(0, until - context.from) / MINUTES_PER_DAY;
  const edits = [
    ...leverEdits(document, shipped, days),
    ...slotLevers(context, document, plan),
    ...mergeLevers(document, plan, routes),
  ];
  return weighLevers(edits, baseline, wanted, evaluate);
}

const evaluator =
  (context: PlanContext, shipped: Library) =>
  (changed: Build): Evaluation => {
    const own = contextOf(changed, shipped, context.now);
    return evaluationOf(judge(own, changed, shipped, { scope: 'first', schedules: 1 }));
  };

/** Local plies hung on every zone that gives. */
function stiffened(
  context: PlanContext,
  document: Build,
  shipped: Library,
  plan: RoutePlan,
  findings: readonly Finding[],
): Finding[] {
  const evaluate = evaluator(context, shipped);
  const before: Evaluation = {
    lateMinutes: plan.lateMinutes,
    fits: plan.schedule.fits,
    materialCostMinor: plan.materialCostMinor,
    codes: new Set<string>(['panel-soft']),
  };
  return findings.map((finding) => {
    const { zone, plies } = finding.numbers;
    if (finding.code !== 'panel-soft' || typeof plies !== 'number') return finding;
    const edit = stiffenEdit(document, stiffenId(String(zone), plies));
    return edit
      ? { ...finding, levers: weighLevers([edit], before, ['panel-soft'], evaluate) }
      : finding;
  });
}

const evaluationOf = ({ taken, findings }: Judgement): Evaluation => ({
  lateMinutes: taken.lateMinutes,
  fits: taken.schedule.fits,
  materialCostMinor: taken.materialCostMinor,
  codes: new Set(findings.map((finding) => finding.code)),
});
