/** Findings about heat that is set over a cure by tent or oven. */
import { layupStageId } from '../document/ids.ts';
import type { Finding } from '../document/schema.ts';
import { plain } from '../messages/words.ts';
import type { PlanContext } from '../plan/context.ts';
import type { SettledCure } from '../plan/cures.ts';
import type { RoutePlan } from '../plan/routePlan.ts';
import { finding } from './finding.ts';

/** Heat set over cures: what counts, what is too hot for tent, mould or core, what rises too fast. */
export function programmeFindings(context: PlanContext, { cures }: RoutePlan): Finding[] {
  const { build, tents } = context;
  if (build.heat.length > 0 && tents === 0) {
    const message =
      'Heat is set over a cure, but the shop has neither tent nor oven: it is not counted. Give ' +
      'the room a tent, or take the heat off.';
    return [finding('heat-not-counted', 'stop', message)];
  }
  const taken = new Set<string>();
  return build.heat.flatMap(({ layup }) => {
    const at = cures.findIndex(({ cure }) => cure.layups.some(({ id }) => id === layup));
    const settled = cures[at];
    if (!settled || taken.has(settled.cure.id)) {
      const why = settled
        ? `${settled.cure.name} has another heat set over it already`
        : 'no cure holds that layup';
      const message = `The heat set over '${layup}' is not counted: ${why}.`;
      return [finding('heat-not-counted', 'note', message)];
    }
    taken.add(settled.cure.id);
    return [...tooHot(settled), ...tooFast(context, settled)];
  });
}

function tooHot({ cure, heat, heatLimits }: SettledCure): Finding[] {
  if (!heat) return [];
  const { tentMaxC, mould, coreMaxC } = heatLimits;
  const limits: [string, number | null][] = [
    ['the tent reaches', tentMaxC],
    [`the mould, ${mould?.name ?? ''}, takes`, mould?.maxC ?? null],
    ['the core takes', coreMaxC],
  ];
  return limits.flatMap(([what, limitC]) => {
    if (limitC === null || heat.hottestC <= limitC) return [];
    const message =
      `${cure.name} is to cure at ${plain(heat.hottestC)} °C under its bag; ${what} ` +
      `${plain(limitC)} °C.`;
    const stage = layupStageId('cure', cure.layups[0]!.id);
    const numbers = { heatC: heat.hottestC, limitC };
    return [finding('heat-over-limit', 'stop', message, { stage, numbers })];
  });
}

function tooFast({ practice }: PlanContext, { cure, heat }: SettledCure): Finding[] {
  const most = practice('postcure-ramp-c-per-h');
  if (!heat || heat.steepestKPerHour <= most) return [];
  const message =
    `${cure.name}: heat rises ${plain(heat.steepestKPerHour)} °C an hour; over ${plain(most)} the ` +
    'outside runs ahead of the inside and the laminate strains. Take the ramp slower.';
  const stage = layupStageId('cure', cure.layups[0]!.id);
  const numbers = { rampKPerHour: heat.steepestKPerHour, mostKPerHour: most };
  return [finding('heat-ramp-fast', 'warn', message, { stage, numbers })];
}
