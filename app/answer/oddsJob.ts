/** The odds of the plan on the screen, as one job of its own. */
import type { Build, JointState, Library } from '../document/schema.ts';
import type { Odds } from '../judge/odds.ts';
import { contextOf, type PlanContext } from '../plan/context.ts';
import type { PlanOutcome } from '../plan/outcome.ts';
import { draftRoute, plannedAs, type RoutePlan } from '../plan/routePlan.ts';
import { routeOf } from '../route/routes.ts';
import type { Placed } from '../schedule/problem.ts';
import type { Minute } from '../time/instant.ts';
import { isoToMinute } from '../time/zone.ts';
import { judge } from './judgement.ts';
import { ODDS_REPLAYS } from '../judge/odds.ts';
import { replayOdds, type OddsProgress } from './odds.ts';

/** A plan as it is shown, plain enough to be sent to a worker. */
export interface ShownPlan {
  readonly joints: Readonly<Record<string, JointState>>;
  readonly placed: readonly Placed[];
}

/** Null where nothing is placed. */
export function shownPlan({ result, detail }: PlanOutcome): ShownPlan | null {
  const placed = result.stages.flatMap(({ id, start, end }): Placed[] => {
    const mode = detail.modes?.[id];
    const [from, to] = [start, end].map((iso) => (iso === null ? null : isoToMinute(iso)));
    if (mode === undefined || from == null || to == null) return [];
    return [{ stage: id, mode, start: from, end: to }];
  });
  const route = result.routes.find(({ id }) => id === result.route.id);
  return route && placed.length > 0 ? { joints: route.joints, placed } : null;
}

/**
 * Replays the plan that is shown, with what each stage costs, so that its chance is the one that the
 * plan is told with; without one, the plan that the document gets at a first look. Yields after every
 * few hundred replays; leaving it is a way to stop. Null when nothing could be placed.
 * @param ownBuilds finished builds of the shop's own behind its records
 */
export function* oddsJob(
  document: Build,
  shipped: Library,
  now: Minute,
  ownBuilds = 0,
  shown: ShownPlan | null = null,
): Generator<OddsProgress, Odds | null, void> {
  const context = contextOf(document, shipped, now);
  const plan =
    (shown && planShown(context, shown)) ??
    judge(context, document, shipped, { scope: 'first', schedules: 1 }).taken;
  return yield* replayOdds(context, plan, { replays: ODDS_REPLAYS, ownBuilds, costs: true });
}

/** Null where the plan no longer holds for the document. */
function planShown(context: PlanContext, { joints, placed }: ShownPlan): RoutePlan | null {
  const draft = draftRoute(context, routeOf(context.part.layups, joints));
  return plannedAs(context, draft, placed);
}
