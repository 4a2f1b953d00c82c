/** When each cure of a placed plan reaches what, from its own mixes and its own sealed bag. */
import { bagDueOf } from '../cure/bag-due.ts';
import { cureMoments } from '../cure/moments.ts';
import type { Placed } from '../schedule/problem.ts';
import { layupStageId } from '../document/ids.ts';
import type { Minute } from '../time/instant.ts';
import type { PlanContext } from './context.ts';
import type { SettledCure } from './cures.ts';
import type { RoutePlan } from './routePlan.ts';

export interface CureTimes {
  readonly cure: SettledCure;
  readonly firstMix: Minute | null;
  /** First mix of the stretch that goes straight into the bag: the oldest wet resin under it. */
  readonly bagMix: Minute | null;
  readonly sealed: Minute | null;
  /** The bag under its vacuum at the latest. */
  readonly bagBy: Minute | null;
  readonly open: Minute | null;
  /** Earliest: of the first ply. Watched from here on. */
  readonly gel: Minute | null;
  /** Latest: of the resin mixed last. The pump runs until then; null where it never counts. */
  readonly gelLatest: Minute | null;
  readonly tackFree: Minute | null;
  readonly debagFrom: Minute | null;
  readonly demouldFrom: Minute | null;
  readonly sandFrom: Minute | null;
  readonly bondUntil: Minute | null;
  readonly fullFrom: Minute | null;
  readonly minC: number | null;
  readonly maxC: number | null;
  /** Tg when it leaves the mould at the earliest; null: it never may, or the resin has no curve. */
  readonly tgAtDemouldC: number | null;
  /** As it will be, with the post-cures of the plan, C; the same as `RoutePlan.tg` says of it. */
  readonly tgC: number | null;
}

/**
 * The moments of every cure of a plan, in minutes of Unix UTC, and its temperatures, C; null for what is
 * never reached or not placed.
 */
export function cureTimesOf(context: PlanContext, plan: RoutePlan): CureTimes[] {
  const { placed } = plan;
  const tgOf = new Map(plan.tg.members.map(({ id, withC }) => [id, withC]));
  return plan.cures.map((cure) => timesOf(context, cure, placed, tgOf.get(cure.cure.id) ?? null));
}

function timesOf(
  context: PlanContext,
  settled: SettledCure,
  placed: ReadonlyMap<string, Placed>,
  /** As it will be, C. */
  tgC: number | null,
): CureTimes {
  const { cure, clock, early, fromSealed } = settled;
  const stretches = cure.layups.flatMap((l) => placed.get(layupStageId('layup', l.id)) ?? []);
  const bagMix = stretches.at(-1)?.start ?? null;
  const sealed = stretches.at(-1)?.end ?? null;
  const moments = cureMoments(clock, bagMix, sealed, early);
  const demouldFrom = moments.demould;
  const range =
    bagMix === null || sealed === null
      ? null
      : settled.clockAt(sealed).range(bagMix, moments.demould ?? sealed);
  return {
    cure: settled,
    firstMix: stretches[0]?.start ?? null,
    bagMix,
    sealed,
    bagBy: bagMix === null ? null : bagByOf(context, settled, bagMix),
    open: moments.open,
    gel: moments.gel,
    gelLatest: sealed === null ? null : fromSealed.reached(sealed, 'gel'),
    tackFree: moments.tackFree,
    debagFrom: moments.debag,
    demouldFrom: moments.demould,
    sandFrom: moments.sand,
    bondUntil: moments.bondUntil,
    fullFrom: moments.full,
    minC: range?.minC ?? null,
    maxC: range?.maxC ?? null,
    tgAtDemouldC:
      sealed === null || demouldFrom === null
        ? null
        : settled.clockAt(sealed).stateAt(sealed, demouldFrom).tgC,
    tgC: sealed === null ? null : tgC,
  };
}

/** The bag under its vacuum at the latest, for what is first mixed at `mixed`; null: the film's open time is not known. */
export const bagByOf = (
  { practice }: PlanContext,
  { early }: Pick<SettledCure, 'early'>,
  mixed: Minute,
): Minute | null => bagDueOf(early, practice).apply(mixed);
