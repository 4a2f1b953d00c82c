/** What the picture of a plan shows beside its stages: the room's air, and when wet work may start. */
import type { AirKind } from '../document/schema.ts';
import type { PlanContext } from './context.ts';
import type { ShownDetail } from './outcome.ts';
import type { RoutePlan } from './routePlan.ts';
import { startHoursOf } from './startHours.ts';

export function shownOf(context: PlanContext, taken: RoutePlan): ShownDetail {
  const { network, placed } = taken;
  const { stages } = network.problem;
  const air: Record<string, AirKind> = {};
  for (const stage of stages) if (stage.air && placed.has(stage.id)) air[stage.id] = stage.air;
  return { air, starts: startHoursOf(context, taken) };
}
