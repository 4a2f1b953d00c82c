/** The glass transition a part must have, what the room gives it, and the heat that would mend it. */
import { mouldOf } from '../build/library.ts';
import type { FullBuild, HardenerRow, Library } from '../build/schema.ts';
import type { StatefulClock } from '../cure/clock.ts';
import { postCureByCurve } from '../cure/post-cure.ts';
import type { PracticeLookup } from '../cure/practice.ts';
import { neededTgC, postCureFor, tgFromCureC, type PostCurePlan } from '../cure/tg.ts';
import type { CureModel } from '../cure/types.ts';
import { coreLimitC } from '../part/facts.ts';
import { MINUTES_PER_DAY, MINUTES_PER_HOUR, type Minute } from '../time/instant.ts';

export interface TgNeed {
  readonly neededC: number;
  /** Where room cure ends, C. */
  readonly roomC: number;
  readonly bakeC: number | null;
  readonly postCure: PostCurePlan;
}

interface Glass {
  readonly build: FullBuild;
  readonly library: Library;
  readonly hardener: HardenerRow;
  readonly practice: PracticeLookup;
  readonly model: CureModel;
  readonly clock: StatefulClock;
  readonly from: Minute;
  readonly horizon: Minute;
}

/** By the resin's own curve where it has one, by the rule of thumb otherwise. */
export function tgNeedOf(glass: Glass): TgNeed {
  const { build, practice } = glass;
  const bakes = build.outside.flatMap((party) => (party.bakeC === null ? [] : [party.bakeC]));
  const bakeC = bakes.length > 0 ? Math.max(...bakes) : null;
  const neededC = neededTgC(bakeC, build.part.serviceMaxC, practice);
  const roomC = roomTgC(glass);
  return { neededC, roomC, bakeC, postCure: postCureOf(glass, neededC, bakeC, roomC) };
}

function roomTgC({ build, hardener, practice, clock, from, horizon }: Glass): number {
  const days = practice('room-cure-days');
  const state = clock.stateAt(from, Math.min(from + days * MINUTES_PER_DAY, horizon));
  const { day, night } = build.room.temperatureC;
  return state.tgC ?? tgFromCureC(Math.max(day, night), hardener.tgFullC, practice);
}

function postCureOf(
  glass: Glass,
  neededC: number,
  bakeC: number | null,
  roomC: number,
): PostCurePlan {
  const { build, library, hardener, practice, model, clock, from } = glass;
  const need = {
    neededTgC: neededC,
    bakeC,
    fromC: build.room.temperatureC.day,
    hardener,
    mouldMaxC: build.mould.maxC ?? mouldOf(library, build.mould.material).maxC,
    coreMaxC: coreLimitC(build, library),
  };
  // The curve's search takes time, and nobody asks for heat that nothing needs.
  if (!model.kinetics || roomC >= neededC) return postCureFor(need, practice);
  const gel = clock.reached(from, 'gel') ?? from;
  const rest = practice('postcure-after-gel-hours') * MINUTES_PER_HOUR;
  const { doseHours } = clock.stateAt(from, Math.min(gel + rest, glass.horizon));
  return postCureByCurve({ ...need, model, doseHours }, practice);
}
