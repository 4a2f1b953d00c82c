/** Glass transition by practice: what room cure reaches, what paint and sun need, what heat mends. */
import type { HardenerRow } from '../document/schema.ts';
import type { PracticeLookup } from './practice.ts';

/**
 * Tg that a cure ends at, C: a reacting resin stiffens until its Tg stands some 15 to 25 C above the
 * temperature it cured at, and goes no further. Common practice, capped by the resin's own highest.
 */
export function tgFromCureC(
  hottestC: number,
  tgFullC: number | null,
  practice: PracticeLookup,
): number {
  return Math.min(hottestC + practice('tg-over-cure-c'), tgFullC ?? Infinity);
}

/** Tg that the part must have, C: the hottest of bake and service, and a margin. */
export function neededTgC(
  bakeC: number | null,
  serviceMaxC: number,
  practice: PracticeLookup,
): number {
  return Math.max(bakeC ?? -Infinity, serviceMaxC) + practice('tg-margin-c');
}

export interface PostCureNeed {
  readonly neededTgC: number;
  /** Hottest bake the part will see, C; the post-cure is at or above it. */
  readonly bakeC: number | null;
  /** Temperature at which the part stands before, C. */
  readonly fromC: number;
  readonly hardener: Pick<HardenerRow, 'tgFullC' | 'postCure'>;
  readonly mouldMaxC: number;
  /** Lowest limit of the cores used, C; null without core. */
  readonly coreMaxC: number | null;
}

export interface PostCureStep {
  readonly kind: 'ramp' | 'hold' | 'cool';
  readonly fromC: number;
  readonly toC: number;
  readonly minutes: number;
}

export type PostCurePlan =
  | {
      readonly possible: true;
      readonly holdC: number;
      readonly reachesTgC: number;
      readonly steps: readonly PostCureStep[];
      readonly minutes: number;
    }
  | {
      readonly possible: false;
      /** What stands in the way: the resin cannot reach it at any heat, or a limit is below the heat. */
      readonly reason: 'resin' | 'mould' | 'core';
      /** Heat that would be wanted, and the limit that forbids it, C. */
      readonly wantedC: number;
      readonly limitC: number;
    };

/**
 * The post-cure that reaches the needed Tg: slow ramp, hold, slow cooling under support.
 * The hold is as hot as it must be and no hotter; its length is the sheet's own where a step at or
 * below that heat is given, practice otherwise.
 */
export function postCureFor(need: PostCureNeed, practice: PracticeLookup): PostCurePlan {
  const { hardener, mouldMaxC, coreMaxC, fromC } = need;
  const wantedC = Math.max(
    need.neededTgC - practice('tg-over-cure-c'),
    need.bakeC ?? -Infinity,
    fromC,
  );
  if (hardener.tgFullC !== null && hardener.tgFullC < need.neededTgC) {
    return { possible: false, reason: 'resin', wantedC, limitC: hardener.tgFullC };
  }
  if (coreMaxC !== null && coreMaxC < wantedC && coreMaxC <= mouldMaxC) {
    return { possible: false, reason: 'core', wantedC, limitC: coreMaxC };
  }
  if (mouldMaxC < wantedC) {
    return { possible: false, reason: 'mould', wantedC, limitC: mouldMaxC };
  }
  const holdHours =
    hardener.postCure
      .filter((step) => step.temperatureC <= wantedC)
      .sort((a, b) => b.temperatureC - a.temperatureC)[0]?.hours ?? practice('postcure-hold-hours');
  const perMinute = practice('postcure-ramp-c-per-h') / 60;
  const cooledC = Math.min(wantedC, practice('cool-to-c'));
  const steps: PostCureStep[] = [
    { kind: 'ramp', fromC, toC: wantedC, minutes: Math.ceil((wantedC - fromC) / perMinute) },
    { kind: 'hold', fromC: wantedC, toC: wantedC, minutes: Math.ceil(holdHours * 60) },
    {
      kind: 'cool',
      fromC: wantedC,
      toC: cooledC,
      minutes: Math.ceil((wantedC - cooledC) / perMinute),
    },
  ];
  return {
    possible: true,
    holdC: wantedC,
    reachesTgC: tgFromCureC(wantedC, hardener.tgFullC, practice),
    steps,
    minutes: steps.reduce((sum, step) => sum + step.minutes, 0),
  };
}
