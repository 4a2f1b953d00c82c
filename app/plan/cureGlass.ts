/** The glass transition of one cure of a plan: as it leaves the mould, as it will be, what it needs. */
import type { PostCurePlan } from '../cure/tg.ts';
import type { PlanContext } from './context.ts';
import { hasPostCure, restOf, type CureTimes } from './cureTimes.ts';
import { offMouldNeed } from './glass.ts';
import type { RoutePlan } from './routePlan.ts';

export interface CureGlass {
  /** When the part may leave the mould, C; null: it never may, or the resin has no curve. */
  readonly demouldC: number | null;
  /** After the days that practice gives a room cure, by its own heat and the room, C. */
  readonly restC: number;
  /** It has slowed for stiffness by then: more days in this room bring little. */
  readonly slowed: boolean;
  /** As it will be, by the post-cure where one is planned, C; the result's `tgC`. */
  readonly tgC: number;
  readonly neededC: number;
  /** Hottest bake that the part will see, C. */
  readonly bakeC: number | null;
  /** The heat that would bring what is needed; null where none is needed. */
  readonly postCure: PostCurePlan | null;
  /** That post-cure is a stage of the plan. */
  readonly postCurePlanned: boolean;
}

/** Null while the cure has no place in time. */
export function glassOf(context: PlanContext, plan: RoutePlan, times: CureTimes): CureGlass | null {
  const { cure: settled, sealed, demouldFrom, tgAtDemouldC, tgC } = times;
  if (sealed === null || tgC === null) return null;
  const inMould = settled.cure.place === 'chain';
  const rest = restOf(context, settled, { sealed, demouldFrom });
  const { neededC, bakeC, postCure } = plan.tg;
  const postCurePlanned = inMould && hasPostCure(plan);
  const wanted = postCurePlanned || rest.tgC < neededC;
  return {
    demouldC: tgAtDemouldC,
    restC: rest.tgC,
    slowed: rest.slowed,
    tgC,
    neededC,
    bakeC,
    postCure: !wanted ? null : inMould ? postCure : offMouldNeed(context, settled).postCure,
    postCurePlanned,
  };
}
