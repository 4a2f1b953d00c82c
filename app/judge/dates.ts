/** Findings about dates: late, blocked, closing, no spare. */
import { outsideStageId } from '../document/ids.ts';
import type { Finding } from '../document/schema.ts';
import { dayAndTime, elapsed } from '../messages/words.ts';
import type { PlanContext } from '../plan/context.ts';
import type { RoutePlan } from '../plan/routePlan.ts';
import type { Obstacle } from '../schedule/problem.ts';
import { workBetween } from '../time/calendar.ts';
import { MINUTES_PER_DAY } from '../time/instant.ts';
import { finding } from './finding.ts';
import { promiseFindings, type Promised } from './promises.ts';

export function dateFindings(context: PlanContext, plan: RoutePlan, promised: Promised): Finding[] {
  return [
    ...dateMissed(context, plan),
    ...slots(context, plan),
    ...promiseFindings(context, plan, promised),
    ...spareDay(context, plan),
  ];
}

/** What each reason for which a stage cannot be placed is told as. */
const CODE_OF: Readonly<Record<Obstacle['reason'], 'cure-stalls' | 'stage-impossible'>> = {
  'no-mode': 'stage-impossible',
  'never-fits-calendar': 'stage-impossible',
  'never-ends': 'cure-stalls',
  cycle: 'stage-impossible',
  'window-cannot-hold': 'stage-impossible',
  'no-capacity': 'stage-impossible',
  'beyond-horizon': 'stage-impossible',
};

/** Why a plan could not be placed. */
export function obstacleFindings(plan: RoutePlan): Finding[] {
  const names = new Map(plan.network.problem.stages.map((stage) => [stage.id, stage.name]));
  return plan.schedule.obstacles.map((obstacle) => {
    const name = names.get(obstacle.stage) ?? obstacle.stage;
    const code = CODE_OF[obstacle.reason];
    const message =
      code === 'cure-stalls'
        ? `${name}: never gets there at the temperature of the room.`
        : `${name} cannot be placed: ${obstacle.detail.replace(/\.$/, '')}.`;
    return finding(code, 'stop', message, {
      stage: obstacle.stage,
    });
  });
}

function dateMissed(
  { build, deadline, now }: PlanContext,
  { schedule, lateness }: RoutePlan,
): Finding[] {
  const shown = dayAndTime(deadline, build.zone);
  if (deadline < now) {
    const numbers = { daysPast: Math.floor((now - deadline) / MINUTES_PER_DAY) };
    return [finding('date-missed', 'stop', `The unveiling, ${shown}, is past.`, { numbers })];
  }
  const late = lateness?.pastDateMinutes ?? 0;
  if (late <= 0) return [];
  const message =
    `The earliest end is ${dayAndTime(schedule.end!, build.zone)}: ` +
    `${elapsed(late)} after the unveiling on ${shown}.`;
  return [finding('date-missed', 'stop', message, { numbers: { hoursLate: round1(late / 60) } })];
}

/** Jobs of outside parties that end after the slot that is booked for them. */
export const slotsMissed = ({ network, placed, lateness }: RoutePlan) =>
  network.problem.stages.flatMap((stage) => {
    const byMinutes = lateness?.lateStages.get(stage.id);
    const at = placed.get(stage.id);
    return stage.kind === 'outside' && byMinutes !== undefined && at
      ? [{ stage, at, byMinutes }]
      : [];
  });

/** A booked slot that the part comes too late for. */
function slots({ build }: PlanContext, plan: RoutePlan): Finding[] {
  return slotsMissed(plan).map(({ stage, at, byMinutes }) => {
    const party = build.outside.find((p) => outsideStageId(p.id) === stage.id);
    const message =
      `${party?.name ?? stage.name} is booked from ${dayAndTime(stage.release!, build.zone)}; ` +
      `the part is there ${dayAndTime(at.start, build.zone)}.`;
    const numbers = { hoursLate: round1(byMinutes / 60) };
    return finding('slot-missed', 'stop', message, { stage: stage.id, numbers });
  });
}

/** Less than a day of the shop's own work between the plan's end and the unveiling. */
function spareDay(context: PlanContext, { schedule }: RoutePlan): Finding[] {
  const { deadline, practice, shopHours, build } = context;
  if (schedule.end === null || schedule.end > deadline) return [];
  const dayMinutes = 8 * 60;
  const spare = workBetween(shopHours, schedule.end, deadline);
  if (spare >= practice('spare-days') * dayMinutes) return [];
  const message =
    `Only ${elapsed(spare)} of working time lie between the end of the plan, ` +
    `${dayAndTime(schedule.end, build.zone)}, and the unveiling.`;
  return [
    finding('no-spare-day', 'note', message, { numbers: { spareHours: round1(spare / 60) } }),
  ];
}

export const round1 = (value: number): number => Math.round(value * 10) / 10;
