/** Findings about heat: a batch in its cup, a bag against core and mould, tent and oven over a bag. */
import type { Finding } from '../build/schema.ts';
import { elapsed, plain } from '../messages/words.ts';
import { heatLimitsOf, tentsOf } from '../plan/chemistry.ts';
import type { PlanContext } from '../plan/context.ts';
import type { SettledCure } from '../plan/cures.ts';
import type { RoutePlan } from '../plan/routePlan.ts';
import { finding, stageId } from './finding.ts';

/** One thing that gets too hot in a cure. */
export type HeatReport = { readonly cureName: string; readonly layupId: string } & (
  | {
      readonly kind: 'cup';
      readonly massG: number;
      readonly peakC: number;
      readonly runsAway: boolean;
      readonly potLifeMinutes: number | null;
      readonly largestG: number;
      readonly spreadMinutes: number;
    }
  | {
      readonly kind: 'stack';
      readonly zoneName: string;
      readonly layer: string;
      readonly peakC: number;
      readonly limitC: number;
    }
);

export const heatFindings = (reports: readonly HeatReport[]): Finding[] =>
  reports.map((report) => {
    const stage = stageId('layup', report.layupId);
    if (report.kind === 'cup') {
      const message =
        `${report.cureName}: a batch of ${plain(report.massG, 0)} g stays workable ` +
        `${elapsed(report.potLifeMinutes ?? 0)} and takes ${elapsed(report.spreadMinutes)} to spread; ` +
        `left in its cup it reaches ${plain(report.peakC, 0)} °C. Mix less at a time, or take a ` +
        'slower hardener. A hot cup goes outside, on concrete, no lid.';
      const numbers = {
        massG: Math.round(report.massG),
        peakC: Math.round(report.peakC),
        largestG: Math.round(report.largestG),
      };
      return finding('pot-runaway', 'warn', message, { stage, numbers });
    }
    const message =
      `${report.cureName}: reaction heat takes ${report.layer} in ${report.zoneName} to ` +
      `${plain(report.peakC, 0)} °C; it takes ${plain(report.limitC, 0)} °C. Cure in two steps, or ` +
      'use a slower hardener.';
    const numbers = { peakC: Math.round(report.peakC), limitC: report.limitC };
    return finding('stack-too-hot', 'stop', message, { stage, numbers });
  });

/** Heat set over cures: what counts, what is too hot for tent, mould or core, what rises too fast. */
export function programmeFindings(context: PlanContext, { cures }: RoutePlan): Finding[] {
  const { build } = context;
  if (build.heat.length > 0 && tentsOf(build) === 0) {
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
    return [...tooHot(context, cures, at), ...tooFast(context, settled)];
  });
}

function tooHot(context: PlanContext, cures: readonly SettledCure[], at: number): Finding[] {
  const { cure, heat } = cures[at]!;
  if (!heat) return [];
  const { tentMaxC, mould, coreMaxC } = heatLimitsOf(context, cures, at);
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
    const stage = stageId('cure', cure.layups[0]!.id);
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
  const stage = stageId('cure', cure.layups[0]!.id);
  const numbers = { rampKPerHour: heat.steepestKPerHour, mostKPerHour: most };
  return [finding('heat-ramp-fast', 'warn', message, { stage, numbers })];
}
