/** Zones that give under a hand or a sanding block, the plies that would hold them, and what those cost. */
import { leverId } from '../document/ids.ts';
import type { Build, Library } from '../document/schema.ts';
import { stiffenEdit } from '../judge/partLevers.ts';
import type { PanelReport } from '../judge/panels.ts';
import type { StiffenMoment } from '../messages/part.ts';
import { zonesFinished } from '../document/finish.ts';
import { panelCheck, pliesToStiffen } from '../part/panel.ts';
import { apartRoute } from '../route/routes.ts';
import { contextOf, type PlanContext } from '../plan/context.ts';
import { massInState } from '../part/weight.ts';
import { draftRoute, planRoute } from '../plan/routePlan.ts';

/** Moments at which local plies can be added, cheapest by trade first; ties keep this order. */
const MOMENTS = ['between', 'after'] as const;

/** Every zone that is seen and whose stiffness is known, in the order of the build. */
export function panelReports(
  context: PlanContext,
  document: Build,
  shipped: Library,
): PanelReport[] {
  const { build, library } = context;
  return zonesFinished(build, ['clear', 'painted']).flatMap((zone): PanelReport[] => {
    const check = panelCheck(zone, build, library);
    if (!check) return [];
    const base = { zoneId: zone.id, zoneName: zone.name, check };
    if (check.holds) return [{ ...base, plies: 0, cloth: null, leverId: null, moments: [] }];
    const added = pliesToStiffen(zone, build, library);
    const cloth = library.cloths.find((row) => row.id === added?.[0]?.cloth);
    if (!added || !cloth)
      return [{ ...base, plies: null, cloth: null, leverId: null, moments: [] }];
    const lever = { lever: 'stiffen', zone: zone.id, plies: added.length } as const;
    const moments = MOMENTS.map((place): StiffenMoment => {
      const changed = stiffenEdit(document, lever, place)!.document;
      return { place, ...priceOf(context, document, changed, shipped) };
    });
    moments.sort((a, b) => a.hours - b.hours || a.costMinor - b.costMinor);
    return [{ ...base, plies: added.length, cloth: cloth.name, leverId: leverId(lever), moments }];
  });
}

/** What a change of the part adds to a build with every layup cured on its own, local plies with their skin. */
function priceOf(context: PlanContext, document: Build, changed: Build, shipped: Library) {
  const [before, after] = [document, changed].map((one) => {
    const own = contextOf(one, shipped, context.now);
    return planRoute(own, draftRoute(own, apartRoute(own.part.layups)), 0);
  });
  return {
    hours: after!.labourHours - before!.labourHours,
    costMinor: after!.materialCostMinor - before!.materialCostMinor,
    // On the finished part: what is laid on late has to be faired in.
    massKg: massInState(after!.weight, 'painted') - massInState(before!.weight, 'painted'),
  };
}
