/** What the date does to the choice of route: merges it forces, routes that close. */
import { boundaryId, layupStageId } from '../document/ids.ts';
import { FINISHES, type Finding, type JointState } from '../document/schema.ts';
import { dayAndTime, elapsed, listed, plain } from '../messages/words.ts';
import type { PlanContext } from '../plan/context.ts';
import type { RoutePlan } from '../plan/routePlan.ts';
import { MINUTES_PER_DAY, type Minute } from '../time/instant.ts';
import {
  closingWords,
  forcedWords,
  mergeWords,
  waitedFor,
  type ClosingWords,
} from './closingWords.ts';
import { finding } from './finding.ts';
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
 * apart: which, since when, at what price. What would avoid it is hung on afterwards.
 */
export function mergeForced(
  context: PlanContext,
  taken: RoutePlan,
  preferred: JudgedRoute | undefined,
  closing: Closing | null,
): Finding[] {
  if (!preferred || preferred.plan.route.id === taken.route.id) return [];
  if (preferred.plan.schedule.fits || context.now > context.deadline) return [];
  const merged = joined(taken, preferred.plan);
  if (merged.length === 0) return [];
  const told = (way: 'forced' | 'as') => listed(merged.map((one) => `the ${one[way]}`));
  const cause = taken.schedule.fits
    ? `The date forces ${told('forced')}.`
    : `The date leaves no time for separate cures; closest comes ${told('as')}.`;
  const price = priceWords(taken, preferred.plan);
  const message = [cause, since(context, preferred.plan, closing), ...price].join(' ');
  const numbers = {
    closed: closing?.minute == null ? null : dayAndTime(closing.minute, context.build.zone),
    hoursLate: hours(preferred.plan.lateMinutes),
    extraHours: Number((taken.labourHours - preferred.plan.labourHours).toFixed(1)),
    extraKg: Number((taken.massKg - preferred.plan.massKg).toFixed(2)),
  };
  const stage = layupStageId('layup', merged[0]!.layup);
  return [finding('merge-forced', 'warn', message, { stage, numbers })];
}

const hours = (minutes: number | null): number | null =>
  minutes === null ? null : Number((minutes / 60).toFixed(1));

/** Every boundary that the taken route joins otherwise than the preferred one. */
function joined(taken: RoutePlan, preferred: RoutePlan) {
  return taken.route.cures.flatMap((cure) =>
    cure.joints.flatMap((state: JointState, i) => {
      const [before, after] = [cure.layups[i]!, cure.layups[i + 1]!];
      const id = boundaryId(before.id, after.id);
      if (preferred.route.joints[id] === state) return [];
      const boundary = { id, before, after };
      const words = { forced: forcedWords(boundary, state), as: mergeWords(boundary, state) };
      return [{ ...words, layup: cure.layups[0]!.id }];
    }),
  );
}

const LEAST_HOURS = 0.05;
const LEAST_KG = 0.005;

/** 'It costs about 5 h of work and 0.4 kg of filler. The best finish left is painted.' */
function priceWords(taken: RoutePlan, preferred: RoutePlan): string[] {
  const extraHours = taken.labourHours - preferred.labourHours;
  const extraKg = taken.massKg - preferred.massKg;
  const work = `about ${elapsed(Math.abs(extraHours) * 60)} of work`;
  const mass = `${plain(Math.abs(extraKg), 2)} kg`;
  const costs = [
    ...(extraHours >= LEAST_HOURS ? [work] : []),
    ...(extraKg >= LEAST_KG ? [`${mass} of filler`] : []),
  ];
  const saves = [
    ...(extraHours <= -LEAST_HOURS ? [work] : []),
    ...(extraKg <= -LEAST_KG ? [mass] : []),
  ];
  const sentences: string[] = [];
  if (costs.length > 0) {
    sentences.push(
      `It costs ${listed(costs)}${saves.length > 0 ? ` and saves ${listed(saves)}` : ''}.`,
    );
  } else if (saves.length > 0) sentences.push(`It saves ${listed(saves)}.`);
  if (FINISHES.indexOf(taken.finish) > FINISHES.indexOf(preferred.finish)) {
    sentences.push(`The best finish left is ${taken.finish}.`);
  }
  return sentences;
}

function since(context: PlanContext, preferred: RoutePlan, closing: Closing | null): string {
  if (!closing) return 'Separate cures no longer fit.';
  if (closing.minute === null) return 'There was never time for separate cures before this date.';
  const when = dayAndTime(closing.minute, context.build.zone);
  const held = heldBy(preferred, closing);
  if (closing.minute >= context.now) {
    const begins = dayAndTime(context.from, context.build.zone);
    return `Separate cures would have to begin by ${when}, and work begins ${begins}.`;
  }
  return `Separate cures closed ${when}${held ? `, when ${held.past}` : ''}.`;
}

function heldBy(plan: RoutePlan, closing: Closing) {
  const stage = plan.network.problem.stages.find((one) => one.id === closing.closedBy?.stage);
  return stage ? waitedFor(stage) : null;
}

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
export const neverCouldBegin = ({ build, now, from }: PlanContext, closes: Minute): boolean =>
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
  if (!words || neverCouldBegin(context, closing.minute)) return [];
  const left = closing.minute - context.now;
  const stage = closing.closedBy?.stage ?? null;
  const numbers = { closes: dayAndTime(closing.minute, context.build.zone) };
  const held = heldBy(taken, closing);
  if (left < 0 && context.build.route !== 'best' && !taken.schedule.fits) {
    const why = held ? ` That was when ${held.past}.` : '';
    const message = `${words.closes}${why} ${words.after}`;
    return [finding('route-closed', 'warn', message, { stage, numbers })];
  }
  if (left < 0 || left > context.practice('closing-soon-days') * MINUTES_PER_DAY) return [];
  const why = held ? ` By then ${held.present}.` : '';
  const message = `${words.closes.slice(0, -1)}, in ${elapsed(left)}.${why} ${words.after}`;
  return [finding('route-closing', 'warn', message, { stage, numbers })];
}
