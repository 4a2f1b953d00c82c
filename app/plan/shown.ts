/** What the picture of a plan shows beside its stages: the room's air, when wet work may start, what a pin holds. */
import { means } from '../document/movedStages.ts';
import type { AirKind } from '../document/schema.ts';
import { pinCauses } from '../schedule/pinCause.ts';
import type { PlanContext } from './context.ts';
import type { ShownDetail } from './outcome.ts';
import type { RoutePlan } from './routePlan.ts';
import { modeAt } from './handsShort.ts';
import { startHoursOf } from './startHours.ts';

export function shownOf(context: PlanContext, taken: RoutePlan): ShownDetail {
  const { network, placed } = taken;
  const { stages } = network.problem;
  const air: Record<string, AirKind> = {};
  for (const { id, modes, air: own } of stages) {
    const spot = placed.get(id);
    if (own && spot && !modeAt(modes, spot)?.keepsAirClean) air[id] = own;
  }
  const fixedBy = Object.fromEntries(
    pinCauses(network.problem, taken.schedule.placed, (stage) =>
      context.build.pins.some((pin) => means(pin.stage, stage)),
    ),
  );
  return { air, starts: startHoursOf(context, taken), fixedBy };
}
