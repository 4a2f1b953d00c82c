/** The printed schedule: what it said, what has moved since, and how a plan is noted as printed. */
import type { Build } from '../document/schema.ts';
import type { PlanOutcome } from './outcome.ts';
import type { Placed, Problem } from '../schedule/problem.ts';
import { startChanges, type StartChange } from '../schedule/replan.ts';
import { isoToMinute, localToMinute, minuteToLocal } from '../time/zone.ts';
import type { Minute } from '../time/instant.ts';

type Printed = NonNullable<Build['printed']>;

/** Stages of a problem as they were printed; none when nothing was. */
export function printedSpots(
  { build }: { readonly build: Pick<Build, 'printed' | 'zone'> },
  problem: Pick<Problem, 'stages'>,
): Placed[] {
  const known = new Set(problem.stages.map((stage) => stage.id));
  return (build.printed?.stages ?? []).flatMap(({ stage, start, mode }) => {
    const minute = known.has(stage) ? localToMinute(start, build.zone)?.minute : undefined;
    return minute === undefined ? [] : [{ stage, mode: mode ?? '', start: minute, end: minute }];
  });
}

/** What starts at another moment than was printed, in the order of the plan. */
export const movedSincePrinted = (
  context: { readonly build: Pick<Build, 'printed' | 'zone'> },
  plan: {
    readonly network: { readonly problem: Pick<Problem, 'stages'> };
    readonly schedule: { readonly placed: readonly Placed[] };
  },
): StartChange[] => startChanges(plan.schedule.placed, printedSpots(context, plan.network.problem));

/**
 * A plan as it is noted in the build when it is printed: start and mode of every placed stage, and the
 * routes that are open.
 * @param now moment of printing, minutes of Unix UTC
 * @returns null when the plan places nothing
 */
export function printedRecord({ result, detail }: PlanOutcome, now: Minute): Printed | null {
  const { zone } = detail.build;
  const local = (minute: Minute): string => {
    const { date, time } = minuteToLocal(minute, zone);
    return `${date}T${time}`;
  };
  const stages = result.stages.flatMap(({ id, start }) => {
    const minute = start === null ? null : isoToMinute(start);
    if (minute === null) return [];
    const mode = detail.modes?.[id];
    return [{ stage: id, start: local(minute), ...(mode ? { mode } : {}) }];
  });
  const routes = result.routes.flatMap(({ id, open, cures, closes }) =>
    open ? [{ route: id, cures: [...cures], closes }] : [],
  );
  return stages.length === 0 ? null : { at: local(now), stages, routes };
}

/** True when both say the same of every stage and on every sheet, whatever the moment of printing. */
export const isSamePrintedPlan = (a: Printed | null | undefined, b: Printed): boolean =>
  JSON.stringify([a?.stages, a?.sheets]) === JSON.stringify([b.stages, b.sheets]);

/** The plan that is worked by from now on; what stands on paper stays noted until it is printed again. */
export function acceptedRecord(outcome: PlanOutcome, now: Minute): Printed | null {
  const fresh = printedRecord(outcome, now);
  const { printed } = outcome.detail.build;
  if (!fresh || !printed) return null;
  const { at, sheets } = printed;
  return { ...fresh, at, acceptedAt: fresh.at, ...(sheets ? { sheets } : {}) };
}
