/** The glass transition a part must have, what the room gives it, and the heat that would mend it. */
import { mouldOf } from '../document/library.ts';
import type { HardenerRow } from '../document/schema.ts';
import type { StatefulClock } from '../cure/clock.ts';
import { postCureByCurve } from '../cure/post-cure.ts';
import {
  neededTgC,
  postCureFor,
  tgFromCureC,
  type PostCureNeed,
  type PostCurePlan,
} from '../cure/tg.ts';
import type { CureModel } from '../cure/types.ts';
import { coreLimitC } from '../part/checks.ts';
import { MINUTES_PER_DAY, MINUTES_PER_HOUR } from '../time/instant.ts';
import type { PlanContext } from './context.ts';
import type { SettledCure } from './cures.ts';

export interface TgNeed {
  readonly neededC: number;
  /** Where the cure ends without a post-cure, C. */
  readonly roomC: number;
  readonly bakeC: number | null;
  readonly postCure: PostCurePlan;
}

const known = new WeakMap<PlanContext, Map<string, TgNeed>>();

/**
 * What the part of a route needs and gets: by the weakest of its cures in the mould, each by its own
 * hardener and heat; the post-cure by the most demanding of them. By the resin's own curve where it
 * has one, by the rule of thumb otherwise.
 */
export function tgNeedOf(context: PlanContext, cures: readonly SettledCure[]): TgNeed {
  const chain = cures.filter(({ cure }) => cure.place === 'chain');
  const keyOf = ({ hardener, heat }: SettledCure) =>
    `${hardener.id} ${JSON.stringify(heat?.steps)}`;
  const different = [...new Map(chain.map((cure) => [keyOf(cure), cure])).values()];
  const needs = known.get(context) ?? new Map<string, TgNeed>();
  known.set(context, needs);
  const key = different.map(keyOf).sort().join(' + ');
  let need = needs.get(key);
  if (!need) {
    const { clock, hardener, model, from } = context;
    const cases = different.map((cure) => ({
      hardener: cure.hardener,
      model: cure.model,
      clock: cure.clockAt(from),
      hottestC: cure.heat?.hottestC ?? null,
    }));
    const none = { hardener, model, clock, hottestC: null };
    need = weakest((cases.length > 0 ? cases : [none]).map((one) => needOf(context, one)));
    needs.set(key, need);
  }
  return need;
}

/** What one cure off the mould needs and gets by itself: no mould limits its heat. */
export function offMouldNeed(context: PlanContext, settled: SettledCure): TgNeed {
  const { hardener, model, heat } = settled;
  const needs = known.get(context) ?? new Map<string, TgNeed>();
  known.set(context, needs);
  const key = `off the mould ${hardener.id} ${JSON.stringify(heat?.steps)}`;
  let need = needs.get(key);
  if (!need) {
    const clock = settled.clockAt(context.from);
    const glass = { hardener, model, clock, hottestC: heat?.hottestC ?? null };
    needs.set(key, (need = needOf(context, glass, Infinity)));
  }
  return need;
}

function weakest(needs: readonly TgNeed[]): TgNeed {
  const roomC = Math.min(...needs.map((need) => need.roomC));
  const [hardest] = needs
    .filter((need) => need.roomC < need.neededC || needs.length === 1)
    .map(({ postCure }) => postCure)
    .toSorted((a, b) => heatRank(b) - heatRank(a));
  return { ...needs[0]!, roomC, postCure: hardest ?? needs[0]!.postCure };
}

/** One that cannot be done counts for more than any that can; then the longer. */
const heatRank = (plan: PostCurePlan): number => (plan.possible ? plan.minutes : Infinity);

interface Glass {
  readonly hardener: HardenerRow;
  readonly model: CureModel;
  /** Of a bag sealed at the context's `from`. */
  readonly clock: StatefulClock;
  /** Hottest of the heat under the bag. */
  readonly hottestC: number | null;
}

function needOf(context: PlanContext, glass: Glass, mouldMaxC = mouldLimitOf(context)): TgNeed {
  const { build, practice } = context;
  const bakes = build.outside.flatMap((party) => (party.bakeC === null ? [] : [party.bakeC]));
  const bakeC = bakes.length > 0 ? Math.max(...bakes) : null;
  const neededC = neededTgC(bakeC, build.part.serviceMaxC, practice);
  const roomC = roomTgC(context, glass);
  const need = { neededTgC: neededC, bakeC, mouldMaxC };
  return { neededC, roomC, bakeC, postCure: postCureOf(context, glass, need, roomC) };
}

const mouldLimitOf = ({ build, library }: PlanContext): number =>
  build.mould.maxC ?? mouldOf(library, build.mould.material).maxC;

function roomTgC(context: PlanContext, { hardener, clock, hottestC }: Glass): number {
  const { build, practice, from, horizon } = context;
  const days = practice('room-cure-days');
  const state = clock.stateAt(from, Math.min(from + days * MINUTES_PER_DAY, horizon));
  const { day, night } = build.room.temperatureC;
  return (
    state.tgC ?? tgFromCureC(Math.max(day, night, hottestC ?? day), hardener.tgFullC, practice)
  );
}

function postCureOf(
  context: PlanContext,
  { hardener, model, clock }: Glass,
  asked: Pick<PostCureNeed, 'neededTgC' | 'bakeC' | 'mouldMaxC'>,
  roomC: number,
): PostCurePlan {
  const { build, library, practice, from, horizon } = context;
  const need = {
    ...asked,
    fromC: build.room.temperatureC.day,
    hardener,
    coreMaxC: coreLimitC(build, library),
  };
  // The curve's search takes time, and nobody asks for heat that nothing needs.
  if (!model.kinetics || roomC >= asked.neededTgC) return postCureFor(need, practice);
  const gel = clock.reached(from, 'gel') ?? from;
  const rest = practice('postcure-after-gel-hours') * MINUTES_PER_HOUR;
  const { doseHours } = clock.stateAt(from, Math.min(gel + rest, horizon));
  return postCureByCurve({ ...need, model, doseHours }, practice);
}
