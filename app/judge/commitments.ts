/** Findings about pins, the printed schedule, missed windows and overtime that a plan does or does not keep. */
import type { Finding } from '../document/schema.ts';
import { finding } from '../messages/findings.ts';
import type { PlanContext } from '../plan/context.ts';
import type { OvertimeUse } from '../plan/overtime.ts';
import type { StartChange } from '../schedule/replan.ts';
import type { RoutePlan } from '../plan/routePlan.ts';
import { localToMinute } from '../time/zone.ts';

/** The pins, windows and printed starts that a plan does not keep. */
export interface Commitments {
  readonly overtime: readonly OvertimeUse[];
  /** Stages that start at another moment than was printed. */
  readonly moved: readonly StartChange[];
}

export function commitmentFindings(
  context: PlanContext,
  plan: RoutePlan,
  commitments: Commitments,
): Finding[] {
  return [
    ...ordersLeftOut(context, plan),
    ...pinsLeftOut(context, plan),
    ...missedPins(context, plan),
    ...missedWindows(plan),
    ...movedFromPrint(context, plan, commitments.moved),
    ...overtime(context, commitments.overtime),
  ];
}

const namesOf = (plan: RoutePlan): Map<string, string> =>
  new Map(plan.network.problem.stages.map((stage) => [stage.id, stage.name]));

/** Own orders that contradict each other, a pin or the work. */
const ordersLeftOut = ({ build }: PlanContext, { network }: RoutePlan): Finding[] =>
  network.droppedOrders.map(({ relation, order, against }) =>
    finding('order-left-out', { order, against, zone: build.zone }, { stage: relation.to }),
  );

/** Pins that contradict each other. */
const pinsLeftOut = ({ build }: PlanContext, { network }: RoutePlan): Finding[] =>
  network.droppedPins.map(({ stage, pin, against }) =>
    finding('pin-left-out', { pin, against, zone: build.zone }, { stage }),
  );

/** Pins that the rest of the plan cannot keep. */
function missedPins({ build }: PlanContext, plan: RoutePlan): Finding[] {
  const names = namesOf(plan);
  return plan.schedule.missedPins.map(({ stage, byMinutes }) => {
    const at = plan.schedule.placed.find((placed) => placed.stage === stage)!;
    const { start } = at;
    const args = { stage: names.get(stage)!, pinned: start - byMinutes, start, zone: build.zone };
    return finding('pin-missed', args, { stage });
  });
}

/** Windows that recorded work has missed; the work after it is planned as soon as it can be. */
function missedWindows(plan: RoutePlan): Finding[] {
  const names = namesOf(plan);
  return plan.passed.map(({ relation, byMinutes }) => {
    const { why, from, to } = relation;
    const args = { why, from: names.get(from)!, to: names.get(to)!, byMinutes };
    return finding('window-passed', args, { stage: to });
  });
}

/** Stages not yet begun that start at another moment than the printed schedule says. */
function movedFromPrint(
  context: PlanContext,
  plan: RoutePlan,
  all: Commitments['moved'],
): Finding[] {
  const { printed, zone } = context.build;
  if (!printed) return [];
  const begun = new Set(
    plan.network.problem.stages.filter((stage) => stage.begun === true).map(({ id }) => id),
  );
  const moved = all.filter(({ stage }) => !begun.has(stage));
  if (moved.length === 0) return [];
  const names = namesOf(plan);
  const args = {
    printedAt: localToMinute(printed.at, zone)?.minute ?? null,
    moved: moved.map(({ stage, from, to }) => ({ stage: names.get(stage) ?? stage, from, to })),
    zone,
  };
  return [finding('printed-moved', args, { stage: moved[0]!.stage })];
}

/** Hours beyond the week, who works them, and what they cost on top of the wage. */
function overtime(context: PlanContext, uses: readonly OvertimeUse[]): Finding[] {
  if (uses.length === 0) return [];
  const names = new Map(context.build.crew.map((person) => [person.id, person.name]));
  const minutes = uses.reduce((sum, use) => sum + use.minutes, 0);
  const people = [...new Set(uses.flatMap((use) => use.people))].map((id) => names.get(id) ?? id);
  const { practice } = context;
  const rate = practice('labour-minor-per-h') * practice('overtime-share');
  const args = {
    people,
    stages: uses,
    minutes,
    costMinor: (minutes / 60) * rate,
    currency: context.build.currency,
  };
  return [finding('overtime-used', args, { stage: uses[0]!.stage })];
}
