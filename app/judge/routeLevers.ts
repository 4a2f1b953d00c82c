/** Levers of the route: what a chosen one keeps apart merged, what it merges kept apart. */
import { boundaryId, leverId, readChainId, type LeverRef } from '../document/ids.ts';
import type { Build, JointState } from '../document/schema.ts';
import type { Join } from '../messages/joints.ts';
import { leverWords } from '../messages/levers.ts';
import type { RoutePlan } from '../plan/routePlan.ts';
import type { LeverEdit, LeverTable, PlanOfferInput } from './lever.ts';
import { isPossible } from './rank.ts';

type RouteLever = Extract<LeverRef, { lever: 'route' }>;

/** Most merges offered in place of a chosen route that does not fit. */
const MOST_MERGES = 2;

/**
 * Routes that fit and only merge what the chosen route keeps apart, least merged first. Empty while
 * the program picks the route, since it has then looked at them all.
 */
function mergeLevers({ document, plan: taken, routes }: PlanOfferInput): LeverEdit[] {
  if (document.route === undefined || document.route === 'best') return [];
  return routes
    .filter((judged) => isPossible(judged) && judged.plan.schedule.fits)
    .filter(({ plan }) => onlyMerges(taken.route.joints, plan.route.joints))
    .slice(0, MOST_MERGES)
    .flatMap(({ plan }) => routeEdit(document, routeLever(plan), namesOf(plan)) ?? []);
}

/** The first route that can be done and keeps apart what a chosen one merges. */
function apartLevers({ document, plan: taken, routes }: PlanOfferInput): LeverEdit[] {
  if (document.route === undefined || document.route === 'best') return [];
  const apart = routes.find(
    (judged) =>
      isPossible(judged) &&
      judged.plan.lateMinutes !== null &&
      onlyMerges(judged.plan.route.joints, taken.route.joints),
  );
  if (!apart) return [];
  return [routeEdit(document, routeLever(apart.plan), namesOf(apart.plan)) ?? []].flat();
}

const routeLever = ({ route }: RoutePlan): RouteLever => ({ lever: 'route', route: route.id });

const MERGING: Readonly<Record<JointState, number>> = { apart: 0, tack: 1, 'one-bag': 2 };
type Joints = Readonly<Record<string, JointState>>;

function onlyMerges(from: Joints, to: Joints): boolean {
  const steps = Object.keys(to).map((id) => MERGING[to[id]!] - MERGING[from[id] ?? 'apart']);
  return steps.every((step) => step >= 0) && steps.some((step) => step > 0);
}

type Names = Readonly<Record<string, string>>;
const namesOf = (plan: RoutePlan): Names =>
  Object.fromEntries(
    plan.route.cures.flatMap((cure) => cure.layups.map((layup) => [layup.id, layup.name])),
  );

/**
 * The edit that a route's lever stands for; null when it names no boundary.
 * @param names of the layups by id, for the words; the id itself where there is none
 */
function routeEdit(document: Build, ref: RouteLever, names: Names = {}): LeverEdit | null {
  const chain = readChainId(ref.route);
  const joints: Record<string, JointState> = {};
  const merges: Join[] = [];
  for (const [i, state] of chain.joints.entries()) {
    const [before, after] = [chain.layups[i]!, chain.layups[i + 1]!];
    joints[boundaryId(before, after)] = state;
    if (state === 'apart') continue;
    merges.push({ before: names[before] ?? before, after: names[after] ?? after, state });
  }
  if (Object.keys(joints).length === 0) return null;
  return {
    id: leverId(ref),
    ...leverWords('route', { merges }),
    document: { ...document, route: { joints } },
    addedMinor: 0,
  };
}

export const ROUTE_LEVERS: LeverTable<'route'> = {
  route: {
    subject: null,
    offerWithPlan: (input) => [...mergeLevers(input), ...apartLevers(input)],
    edit: (document, ref) => routeEdit(document, ref),
  },
};
