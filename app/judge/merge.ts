/** What the date does to the choice of route: merges it forces, routes that close. */
import { boundaryId, layupStageId } from '../document/ids.ts';
import { FINISHES, type Finding, type JointState } from '../document/schema.ts';
import { closingWords, type ClosingWords, type Waited } from '../messages/closing.ts';
import { finding } from '../messages/findings.ts';
import type { Join } from '../messages/joints.ts';
import type { PlanContext } from '../plan/context.ts';
import type { RoutePlan } from '../plan/routePlan.ts';
import { MINUTES_PER_DAY, type Minute } from '../time/instant.ts';
import { isPossible, type JudgedRoute } from './rank.ts';

/** When a route closes; null until it has been worked out or when it never was open. */
export interface Closing {
  readonly minute: Minute | null;
  readonly proven: boolean;
  readonly closedBy: { readonly stage: string; readonly resource: string } | null;
}

/** Closing times by route id. */
export type Closings = ReadonlyMap<string, Closing>;

/**
 * The date has pushed the preferred route aside and the taken one merges cures that it would keep
 * apart: which, since when, at what price. The levers that would avoid it are attached later.
 */
export function mergeForced(
  context: PlanContext,
  taken: RoutePlan,
  preferred: JudgedRoute | undefined,
  closing: Closing | null,
  routes: readonly JudgedRoute[],
): Finding[] {
  if (!preferred || preferred.plan.route.id === taken.route.id) return [];
  if (preferred.plan.schedule.fits || context.now > context.deadline) return [];
  const merged = joined(taken, preferred.plan).map((join) => ({
    ...join,
    alsoFits: alsoFits(taken, routes, join.boundary),
  }));
  if (merged.length === 0) return [];
  const lesser = FINISHES.indexOf(taken.finish) > FINISHES.indexOf(preferred.plan.finish);
  const args = {
    joins: merged,
    fits: taken.schedule.fits,
    separate: separateCures(context, preferred.plan, closing),
    lateMinutes: preferred.plan.lateMinutes,
    extraHours: taken.labourHours - preferred.plan.labourHours,
    extraKg: taken.fillerKg - preferred.plan.fillerKg,
    finishLeft: lesser ? taken.finish : null,
    zone: context.build.zone,
  };
  return [finding('merge-forced', args, { stage: layupStageId('layup', merged[0]!.layup) })];
}

/** The other way of joining a boundary, where the route that has it makes the date as well. */
function alsoFits(
  { route }: RoutePlan,
  routes: readonly JudgedRoute[],
  boundary: string,
): JointState | null {
  const other = route.joints[boundary] === 'tack' ? 'one-bag' : 'tack';
  const wanted = { ...route.joints, [boundary]: other };
  const found = routes.find(({ plan }) =>
    Object.entries(wanted).every(([id, state]) => plan.route.joints[id] === state),
  );
  return found && isPossible(found) && found.plan.schedule.fits ? other : null;
}

interface Joined extends Join {
  readonly layup: string;
  readonly boundary: string;
}

/** Every boundary that the taken route joins otherwise than the preferred one, and its bag. */
function joined(taken: RoutePlan, preferred: RoutePlan): Joined[] {
  return taken.route.cures.flatMap((cure) =>
    cure.joints.flatMap((state: JointState, i) => {
      const [before, after] = [cure.layups[i]!, cure.layups[i + 1]!];
      const boundary = boundaryId(before.id, after.id);
      if (preferred.route.joints[boundary] === state) return [];
      const names = { before: before.name, after: after.name };
      return [{ ...names, state, boundary, layup: cure.layups[0]!.id }];
    }),
  );
}

function separateCures(context: PlanContext, preferred: RoutePlan, closing: Closing | null) {
  if (!closing) return { was: 'not-known' } as const;
  const { minute: closes } = closing;
  if (closes === null) return { was: 'never-open' } as const;
  return closes >= context.now
    ? ({ was: 'before-work-begins', closes, begins: context.from } as const)
    : ({ was: 'open-until', closes, waited: heldBy(preferred, closing) } as const);
}

const heldBy = (plan: RoutePlan, closing: Closing): Waited | null =>
  plan.network.problem.stages.find((one) => one.id === closing.closedBy?.stage) ?? null;

/** The closing of one route in words, as far as closing times are known. */
export function wordsOf(
  context: PlanContext,
  routes: readonly JudgedRoute[],
  closings: Closings,
  id: string,
): ClosingWords | null {
  const { layups } = context.part;
  const boundaries = layups.slice(1).flatMap((after, i) => {
    const before = layups[i]!;
    if (before.place !== 'chain' || after.place !== 'chain') return [];
    return [{ id: boundaryId(before.id, after.id), before, after }];
  });
  const known = routes.map((judged) => ({
    id: judged.plan.route.id,
    joints: judged.plan.route.joints,
    possible: isPossible(judged),
    closes: closings.get(judged.plan.route.id)?.minute ?? null,
  }));
  return closingWords(known, id, boundaries, context.build.zone, context.now, context.from);
}

/** A closing before the moment at which the build lets work begin: the route has no time at all. */
export const closedBeforeStart = ({ build, now, from }: PlanContext, closes: Minute): boolean =>
  build.earliestStart !== null && from > now && closes < from;

/** The taken route closes within two days, or the chosen one has closed. */
export function closingFindings(
  context: PlanContext,
  taken: RoutePlan,
  routes: readonly JudgedRoute[],
  closings: Closings,
): Finding[] {
  const closing = closings.get(taken.route.id);
  if (closing?.minute == null || context.now > context.deadline) return [];
  const words = wordsOf(context, routes, closings, taken.route.id);
  if (!words || closedBeforeStart(context, closing.minute)) return [];
  const leftMinutes = closing.minute - context.now;
  const stage = closing.closedBy?.stage ?? null;
  const waited = heldBy(taken, closing);
  const args = { words, closes: closing.minute, waited, zone: context.build.zone };
  if (leftMinutes < 0 && context.build.route !== 'best' && !taken.schedule.fits) {
    return [finding('route-closed', args, { stage })];
  }
  const soonMinutes = context.practice('closing-soon-days') * MINUTES_PER_DAY;
  if (leftMinutes < 0 || leftMinutes > soonMinutes) return [];
  return [finding('route-closing', { ...args, leftMinutes }, { stage })];
}
