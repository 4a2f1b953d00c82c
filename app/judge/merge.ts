/** What the date does to the choice of route: merges it forces, routes that close. */
import type { Finding, Lever } from '../build/schema.ts';
import { dayAndTime, elapsed, listed, plain } from '../messages/words.ts';
import type { PlanContext } from '../plan/context.ts';
import type { RoutePlan } from '../plan/routePlan.ts';
import type { Minute } from '../time/instant.ts';
import { finding } from './finding.ts';
import type { JudgedRoute } from './rank.ts';

/** When a route closes; null until it has been worked out or when it never was open. */
export interface Closing {
  readonly minute: Minute | null;
  readonly proven: boolean;
  readonly closedBy: { readonly stage: string; readonly resource: string } | null;
}

/**
 * The date has pushed the preferred route aside and the taken one merges cures that it would keep
 * apart: which, since when, at what price, and what would avoid it.
 */
export function mergeForced(
  context: PlanContext,
  taken: RoutePlan,
  preferred: JudgedRoute | undefined,
  closing: Closing | null,
  levers: Lever[],
): Finding[] {
  if (!preferred || preferred.plan.route.id === taken.route.id) return [];
  if (preferred.plan.schedule.fits) return [];
  const merged = mergedJoints(taken, preferred.plan);
  if (merged.length === 0) return [];
  const extraHours = taken.labourHours - preferred.plan.labourHours;
  const extraKg = taken.massKg - preferred.plan.massKg;
  const price = [
    `${extraHours >= 0 ? 'about ' : 'about -'}${elapsed(Math.abs(extraHours) * 60)} of work`,
    `${plain(extraKg)} kg of filler`,
    `a finish no better than ${taken.finish}`,
  ];
  const message =
    `The date forces ${listed(merged)}. ${since(context, closing)} ` + `It costs ${listed(price)}.`;
  const numbers = {
    closed: closing?.minute == null ? null : dayAndTime(closing.minute, context.build.zone),
    hoursLate: late(context, preferred.plan),
    extraHours: Number(extraHours.toFixed(1)),
    extraKg: Number(extraKg.toFixed(2)),
  };
  const stage = `layup:${firstMergedLayup(taken, preferred.plan)}`;
  return [finding('merge-forced', 'warn', message, { stage, numbers, levers })];
}

/** 'core bond into the bag of the outer skin' for every boundary that was apart. */
function mergedJoints(taken: RoutePlan, preferred: RoutePlan): string[] {
  return joined(taken, preferred).map(({ before, after, state }) =>
    state === 'tack'
      ? `${after} onto the tacky ${before}`
      : `${after} into one bag with the ${before}`,
  );
}

function joined(taken: RoutePlan, preferred: RoutePlan) {
  return taken.cures.flatMap(({ cure }) =>
    cure.joints.flatMap((state, i) => {
      const [before, after] = [cure.layups[i]!, cure.layups[i + 1]!];
      const boundary = `${before.id}-${after.id}`;
      if (preferred.route.joints[boundary] === state) return [];
      const named = { before: before.name.toLowerCase(), after: after.name.toLowerCase() };
      return [{ ...named, state, layup: cure.layups[0]!.id }];
    }),
  );
}

const firstMergedLayup = (taken: RoutePlan, preferred: RoutePlan): string =>
  joined(taken, preferred)[0]!.layup;

function since(context: PlanContext, closing: Closing | null): string {
  if (!closing) return 'Separate cures no longer fit.';
  if (closing.minute === null) return 'There was never time for separate cures before this date.';
  const when = dayAndTime(closing.minute, context.build.zone);
  const stage = closing.closedBy?.stage;
  return `Separate cures closed ${when}${stage ? `: ${stage} could start no later` : ''}.`;
}

const late = ({ deadline }: PlanContext, plan: RoutePlan): number | null =>
  plan.schedule.end === null ? null : Number(((plan.schedule.end - deadline) / 60).toFixed(1));

/** A chosen route that closes within two days, or has closed. */
export function closingSoon(
  context: PlanContext,
  taken: RoutePlan,
  closing: Closing | null,
): Finding[] {
  if (closing?.minute == null || context.now > context.deadline) return [];
  const left = closing.minute - context.now;
  if (left < 0 || left > SOON_MINUTES) return [];
  const message =
    `${taken.route.cures.length > 1 ? 'These separate cures close' : 'This route closes'} ` +
    `${dayAndTime(closing.minute, context.build.zone)}, in ${elapsed(left)}: after that ` +
    'something has to be merged, bought or moved.';
  return [finding('route-closing', 'warn', message, { stage: closing.closedBy?.stage ?? null })];
}

const SOON_MINUTES = 2 * 1440;
