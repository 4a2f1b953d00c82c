/** What was fixed, printed or permitted beforehand, and what the plan makes of it. */
import type { Finding } from '../document/schema.ts';
import { capital, dayAndTime, elapsed, listed, moneyWords } from '../messages/words.ts';
import type { PlanContext } from '../plan/context.ts';
import type { OvertimeUse } from '../plan/overtime.ts';
import type { Moved } from '../schedule/replan.ts';
import type { RoutePlan } from '../plan/routePlan.ts';
import { localToMinute } from '../time/zone.ts';
import { finding } from './finding.ts';

/** What a plan does with what was promised before it was made. */
export interface Promised {
  readonly overtime: readonly OvertimeUse[];
  /** Stages that start at another moment than was printed. */
  readonly moved: readonly Moved[];
}

export function promiseFindings(
  context: PlanContext,
  plan: RoutePlan,
  promised: Promised,
): Finding[] {
  return [
    ...missedPins(context, plan),
    ...passedWindows(plan),
    ...movedFromPrint(context, plan, promised.moved),
    ...overtime(context, promised.overtime),
  ];
}

const round1 = (value: number): number => Math.round(value * 10) / 10;

const namesOf = (plan: RoutePlan): Map<string, string> =>
  new Map(plan.network.problem.stages.map((stage) => [stage.id, stage.name]));

/** Pins that the rest of the plan cannot keep. */
function missedPins({ build }: PlanContext, plan: RoutePlan): Finding[] {
  const names = namesOf(plan);
  return plan.schedule.missedPins.map(({ stage, byMinutes }) => {
    const at = plan.schedule.placed.find((placed) => placed.stage === stage)!;
    const message =
      `${names.get(stage)} is pinned to ${dayAndTime(at.start - byMinutes, build.zone)} and cannot ` +
      `begin before ${dayAndTime(at.start, build.zone)}: ${elapsed(byMinutes)} later.`;
    const numbers = { hoursLate: round1(byMinutes / 60) };
    return finding('pin-missed', 'stop', message, { stage, numbers });
  });
}

/** What was recorded cannot be undone; the work after it is planned all the same. */
function passedWindows(plan: RoutePlan): Finding[] {
  const names = namesOf(plan);
  return plan.passed.map(({ relation, byMinutes }) => {
    const message =
      `${capital(relation.why)}. “${names.get(relation.from)}” is done, and ` +
      `“${names.get(relation.to)}” can only follow ${elapsed(byMinutes)} too late. ` +
      'It is planned as soon as it can be; look at the surface before going on.';
    const numbers = { hoursLate: round1(byMinutes / 60) };
    return finding('window-passed', 'warn', message, { stage: relation.to, numbers });
  });
}

/** Stages that one sentence can hold; the numbers of the finding hold them all. */
const MOST_TOLD = 4;

/** Stages not yet begun that start at another moment than the wall says. */
function movedFromPrint(context: PlanContext, plan: RoutePlan, all: Promised['moved']): Finding[] {
  const { printed, zone, records } = context.build;
  if (!printed) return [];
  const begun = new Set(records.map((record) => record.stage));
  const moved = all.filter(({ stage }) => !begun.has(stage));
  if (moved.length === 0) return [];
  const names = namesOf(plan);
  const lines = moved.map(({ stage, from, to }) => ({
    name: names.get(stage) ?? stage,
    change: `${dayAndTime(from, zone)}, now ${dayAndTime(to, zone)}`,
  }));
  const told = lines.slice(0, MOST_TOLD).map(({ name, change }) => `${name}: was ${change}`);
  const left = lines.length - told.length;
  if (left > 0) told.push(`${left} more (listed under the numbers)`);
  const at = localToMinute(printed.at, zone)?.minute;
  const when = at === undefined ? '' : ` (${dayAndTime(at, zone)})`;
  const message = `Moved since the schedule was printed${when}. ${told.join('; ')}.`;
  const numbers = {
    stagesMoved: moved.length,
    ...Object.fromEntries(lines.map(({ name, change }) => [name, change])),
  };
  return [finding('printed-moved', 'note', message, { stage: moved[0]!.stage, numbers })];
}

/** Hours beyond the week, who works them, and what they cost on top of the wage. */
function overtime(context: PlanContext, uses: readonly OvertimeUse[]): Finding[] {
  if (uses.length === 0) return [];
  const names = new Map(context.build.crew.map((person) => [person.id, person.name]));
  const minutes = uses.reduce((sum, use) => sum + use.minutes, 0);
  const people = [...new Set(uses.flatMap((use) => use.people))].map((id) => names.get(id) ?? id);
  const { practice } = context;
  const rate = practice('labour-minor-per-h') * practice('overtime-share');
  const stages = uses.map((use) => `${use.name} (${elapsed(use.minutes)})`);
  const message =
    `${listed(people)} ${people.length === 1 ? 'stays' : 'stay'} ${elapsed(minutes)} longer in all, ` +
    `because a date needs it: ${stages.join('; ')}. On top of the wage that is ` +
    `${moneyWords((minutes / 60) * rate, context.build.currency)}. Tired hands mix badly.`;
  const numbers = { overtimeHours: round1(minutes / 60) };
  return [finding('overtime-used', 'note', message, { stage: uses[0]!.stage, numbers })];
}
