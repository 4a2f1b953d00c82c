/** Findings about dates: late, blocked, closing, no spare. */
import { outsideStageId, stageId } from '../document/ids.ts';
import { workDayMinutes } from '../document/library.ts';
import type { Finding } from '../document/schema.ts';
import { finding } from '../messages/findings.ts';
import type { PlanContext } from '../plan/context.ts';
import type { RoutePlan } from '../plan/routePlan.ts';
import type { Obstacle } from '../schedule/problem.ts';
import { workBetween } from '../time/calendar.ts';
import { MINUTES_PER_DAY } from '../time/instant.ts';
import { commitmentFindings, type Commitments } from './commitments.ts';

export function dateFindings(
  context: PlanContext,
  plan: RoutePlan,
  commitments: Commitments,
): Finding[] {
  return [
    ...dateMissed(context, plan),
    ...slots(context, plan),
    ...frameGone(context, plan),
    ...commitmentFindings(context, plan, commitments),
    ...spareDay(context, plan),
  ];
}

/** The finding that each reason for which a stage cannot be placed becomes. */
const CODE_OF: Readonly<Record<Obstacle['reason'], 'cure-stalls' | 'stage-impossible'>> = {
  'no-mode': 'stage-impossible',
  'never-fits-calendar': 'stage-impossible',
  'never-ends': 'cure-stalls',
  cycle: 'stage-impossible',
  'window-cannot-hold': 'stage-impossible',
  'no-capacity': 'stage-impossible',
  'beyond-horizon': 'stage-impossible',
};

/** Why a plan could not be placed. A crew of nobody is one reason, not one for every stage. */
export function obstacleFindings({ build }: PlanContext, plan: RoutePlan): Finding[] {
  const stages = new Map(plan.network.problem.stages.map((stage) => [stage.id, stage]));
  const { obstacles } = plan.schedule;
  const nobody = build.crew.length === 0 && obstacles.some(({ reason }) => reason === 'no-mode');
  const own = nobody ? obstacles.filter(({ reason }) => reason !== 'no-mode') : obstacles;
  const told = own.map(({ stage: id, reason, args }) => {
    const { name: stage = id, kind } = stages.get(id) ?? {};
    if (kind === 'order' && args.what === 'never-ends') {
      const obstacle = { what: 'beyond-calendar', stage } as const;
      return finding('stage-impossible', { stage, obstacle }, { stage: id });
    }
    return CODE_OF[reason] === 'cure-stalls'
      ? finding('cure-stalls', { why: 'never-ends', stage }, { severity: 'stop', stage: id })
      : finding('stage-impossible', { stage, obstacle: args }, { stage: id });
  });
  return nobody ? [finding('crew-empty', {}), ...told] : told;
}

function dateMissed(
  { build, deadline, now }: PlanContext,
  { schedule, lateness }: RoutePlan,
): Finding[] {
  const { zone } = build;
  if (deadline < now) {
    const daysPast = Math.floor((now - deadline) / MINUTES_PER_DAY);
    return [finding('date-missed', { deadline, zone, daysPast })];
  }
  const lateMinutes = lateness?.pastDateMinutes ?? 0;
  if (lateMinutes <= 0) return [];
  return [finding('date-missed', { deadline, zone, end: schedule.end!, lateMinutes })];
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
    const args = {
      party: party?.name ?? stage.name,
      booked: stage.release!,
      arrives: at.start,
      lateMinutes: byMinutes,
      zone: build.zone,
    };
    return finding('slot-missed', args, { stage: stage.id });
  });
}

/** A frame that is gone before the part is there to be held to it. */
function frameGone({ build }: PlanContext, { network, placed, lateness }: RoutePlan): Finding[] {
  const stage = network.problem.stages.find(({ kind }) => kind === 'dry-fit');
  const at = stage && placed.get(stage.id);
  if (!stage || stage.due === null || !at || !lateness?.lateStages.has(stage.id)) return [];
  const demould = placed.get(stageId({ what: 'demould' }))?.start ?? null;
  const args = { until: stage.due, fitted: at.end, demould, zone: build.zone };
  return [finding('frame-gone', args, { stage: stage.id })];
}

/** Less than a day of the shop's own work between the plan's end and the unveiling. */
function spareDay(context: PlanContext, { schedule }: RoutePlan): Finding[] {
  const { deadline, practice, shopHours, build, library } = context;
  const { end } = schedule;
  if (end === null || end > deadline) return [];
  const spareMinutes = workBetween(shopHours, end, deadline);
  if (spareMinutes >= practice('spare-days') * workDayMinutes(library)) return [];
  return [finding('no-spare-day', { spareMinutes, end, zone: build.zone })];
}

export const roundedToTenth = (value: number): number => Math.round(value * 10) / 10;
