/** What the picture of a plan shows beside its stages: the room's air, and rounds that dry. */
import type { AirKind } from '../document/schema.ts';
import type { Minute } from '../time/instant.ts';
import type { PlanContext } from './context.ts';
import type { ShownDetail } from './outcome.ts';
import type { RoutePlan } from './routePlan.ts';
import { startHoursOf } from './startHours.ts';

export function shownOf(context: PlanContext, taken: RoutePlan): ShownDetail {
  const { network, placed } = taken;
  const { stages, relations } = network.problem;
  const air: Record<string, AirKind> = {};
  for (const stage of stages) if (stage.air && placed.has(stage.id)) air[stage.id] = stage.air;
  const dryUntil: Record<string, Minute> = {};
  for (const { why, from, lag } of relations) {
    const end = placed.get(from)?.end;
    if (why !== 'round-dried' || end === undefined || typeof lag === 'number') continue;
    const dry = lag.apply(end);
    if (dry !== null) dryUntil[from] = dry;
  }
  return { air, dryUntil, starts: startHoursOf(context, taken) };
}
