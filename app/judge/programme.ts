/** Findings about heat that is set over a cure by tent or oven. */
import { layupStageId, stageId } from '../document/ids.ts';
import type { Finding } from '../document/schema.ts';
import { finding } from '../messages/findings.ts';
import { STAGE_NAMES } from '../messages/stages.ts';
import { MINUTES_PER_HOUR } from '../time/instant.ts';
import type { PlanContext } from '../plan/context.ts';
import type { SettledCure } from '../plan/cures.ts';
import type { RoutePlan } from '../plan/routePlan.ts';

/** Heat set over cures: what counts, what is too hot for tent, mould or core, what rises too fast. */
export function programmeFindings(context: PlanContext, plan: RoutePlan): Finding[] {
  return [...warmedAlone(context, plan), ...overCures(context, plan)];
}

/** No start keeps the shop's rule for the mould either. */
function warmedAlone({ build }: PlanContext, { network }: RoutePlan): Finding[] {
  if (!network.warmedAgainstRule) return [];
  const heatMinutes = Math.round((build.mould.warmUpHours ?? 0) * MINUTES_PER_HOUR);
  const args = { cure: STAGE_NAMES.mouldHeat(), heatMinutes };
  return [finding('heat-alone', args, { stage: stageId({ what: 'mould-heat' }) })];
}

function overCures(context: PlanContext, plan: RoutePlan): Finding[] {
  const { cures } = plan;
  const { build, tents } = context;
  if (build.heat.length > 0 && tents === 0) {
    return [finding('heat-not-counted', { why: 'no-tent' }, { severity: 'stop' })];
  }
  const taken = new Set<string>();
  return build.heat.flatMap(({ layup }) => {
    const at = cures.findIndex(({ cure }) => cure.layups.some(({ id }) => id === layup));
    const settled = cures[at];
    if (!settled || taken.has(settled.cure.id)) {
      const args = settled
        ? ({ why: 'second', layup, cure: settled.cure.name } as const)
        : ({ why: 'no-cure', layup } as const);
      return [finding('heat-not-counted', args, { severity: 'note' })];
    }
    taken.add(settled.cure.id);
    return [...tooHot(settled), ...tooFast(context, settled), ...alone(plan, settled)];
  });
}

function tooHot({ cure, heat, heatLimits }: SettledCure): Finding[] {
  if (!heat) return [];
  const { tentMaxC, mould, coreMaxC } = heatLimits;
  const limits = [
    { of: 'tent' as const, limitC: tentMaxC },
    { of: { mould: mould?.name ?? '' }, limitC: mould?.maxC ?? null },
    { of: 'core' as const, limitC: coreMaxC },
  ];
  const stage = layupStageId('cure', cure.layups[0]!.id);
  return limits.flatMap(({ of, limitC }) => {
    if (limitC === null || heat.hottestC <= limitC) return [];
    const args = { heat: 'of-cure', cure: cure.name, heatC: heat.hottestC, limitC, of } as const;
    return [finding('heat-over-limit', args, { severity: 'stop', stage })];
  });
}

/** True where no start of a programme keeps the shop's rule for heat that runs alone. */
export function heatsAlone({ network }: RoutePlan, { cure, heatMinutes }: SettledCure): boolean {
  const stage = layupStageId('cure', cure.layups[0]!.id);
  const modes = network.problem.stages.find(({ id }) => id === stage)?.modes ?? [];
  return Boolean(heatMinutes) && modes.every(({ calendar }) => calendar === null);
}

/** No start keeps the shop's rule: the plan is dated all the same, and the cure is withheld. */
function alone(plan: RoutePlan, settled: SettledCure): Finding[] {
  const { cure, heatMinutes } = settled;
  if (!heatMinutes || !heatsAlone(plan, settled)) return [];
  const stage = layupStageId('cure', cure.layups[0]!.id);
  return [finding('heat-alone', { cure: cure.name, heatMinutes }, { stage })];
}

function tooFast({ practice }: PlanContext, { cure, heat }: SettledCure): Finding[] {
  const mostKPerHour = practice('postcure-ramp-c-per-h');
  if (!heat || heat.steepestKPerHour <= mostKPerHour) return [];
  const args = { cure: cure.name, rampKPerHour: heat.steepestKPerHour, mostKPerHour };
  return [finding('heat-ramp-fast', args, { stage: layupStageId('cure', cure.layups[0]!.id) })];
}
