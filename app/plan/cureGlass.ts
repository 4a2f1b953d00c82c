/** The glass transition of one cure of a plan: as it leaves the mould, as it will be, what it needs. */
import type { PostCurePlace, PostCurePlan } from '../cure/tg.ts';
import type { CureTimes } from './cureTimes.ts';
import { heatedBy } from './glass.ts';
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
  /** Less than it needs. */
  readonly short: boolean;
  readonly neededC: number;
  /** Hottest bake that it will see, C. */
  readonly bakeC: number | null;
  /** The heat that brings what is needed; null where none is needed. */
  readonly postCure: PostCurePlan | null;
  /** Where that is done; null where it is not in the plan. */
  readonly postCurePlace: PostCurePlace | null;
  /** Weakest Tg that its rise counts on, C; null: not in the plan, or no curve tells it. */
  readonly beginsTgC: number | null;
}

/** Null while the cure has no place in time. */
export function glassOf({ tg }: RoutePlan, times: CureTimes): CureGlass | null {
  const { cure: settled, sealed, tgAtDemouldC, tgC } = times;
  const member = tg.members.find(({ id }) => id === settled.cure.id);
  if (sealed === null || tgC === null || !member) return null;
  const { withoutC, slowed, short, neededC, bakeC } = member;
  const run = heatedBy(tg.choice, member)[0] ?? null;
  const restC = withoutC ?? tgC;
  return {
    demouldC: tgAtDemouldC,
    restC,
    slowed,
    tgC,
    short,
    neededC,
    bakeC,
    postCure: run ? run.plan : restC < neededC && member.made !== 'late' ? tg.postCure : null,
    postCurePlace: run ? run.place : null,
    beginsTgC: run ? run.beginsTgC : null,
  };
}
