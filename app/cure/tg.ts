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

/** Where a part lies during its post-cure. */
export type PostCurePlace = 'mould' | 'supports';

/**
 * Fastest rise at a place, K/h: slower on supports, where a part sags. Common practice, no source.
 */
export const rampKPerHourAt = (place: PostCurePlace, practice: PracticeLookup): number =>
  practice(place === 'mould' ? 'postcure-ramp-c-per-h' : 'postcure-supports-ramp-k-per-h');

/**
 * How far heat stays below the Tg that the part has by then, K. No post-cure is planned with its bag on: on
 * the mould as on supports nothing presses the part into its shape. Common practice, no source.
 */
export const heatBelowTgK = (practice: PracticeLookup): number =>
  practice('postcure-supports-below-tg-k');

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
  /** Limit of the mould under the part, C; Infinity on supports. */
  readonly mouldMaxC: number;
  /** Lowest limit of the cores used, C; null without core. */
  readonly coreMaxC: number | null;
  /** How hot the tent or oven gets, C; Infinity when absent: heat is hired as it is wanted. */
  readonly tentMaxC?: number;
  /** Where it lies; on the mould when absent. */
  readonly place?: PostCurePlace;
}

/**
 * What may stand in the way of a post-cure. `cure`: the part stays too soft to be heated so far; `sheet`: the
 * sheet gives no Tg, so that nobody knows what heat would bring.
 */
export type HeatLimit = 'resin' | 'cure' | 'sheet' | 'mould' | 'core' | 'tent';

/** The lowest limit of what is heated, and whose it is: the core's before the mould's and the tent's. */
export function lowestLimit({
  mouldMaxC,
  coreMaxC,
  tentMaxC = Infinity,
}: Pick<PostCureNeed, 'mouldMaxC' | 'coreMaxC' | 'tentMaxC'>): {
  readonly limitC: number;
  readonly reason: HeatLimit;
} {
  const limits = [
    { limitC: coreMaxC ?? Infinity, reason: 'core' },
    { limitC: mouldMaxC, reason: 'mould' },
    { limitC: tentMaxC, reason: 'tent' },
  ] as const;
  return limits.reduce((lowest, one) => (one.limitC < lowest.limitC ? one : lowest));
}

export interface PostCureStep {
  readonly kind: 'ramp' | 'hold' | 'cool';
  readonly fromC: number;
  readonly toC: number;
  readonly minutes: number;
}

/** Length of the steps in which a ramp that Tg holds back is followed, minutes. */
export const SLOWED_STEP_MINUTES = 15;

/**
 * Steps as they are set on the heater: a ramp at its full rate, then one slower ramp for all
 * that the part's own Tg holds back.
 */
export function joinedSteps(steps: readonly PostCureStep[]): PostCureStep[] {
  const slowed = ({ kind, minutes }: PostCureStep): boolean =>
    kind === 'ramp' && minutes <= SLOWED_STEP_MINUTES;
  const joined: PostCureStep[] = [];
  steps.forEach((step, i) => {
    const last = joined.at(-1);
    const before = steps[i - 1];
    if (last && before && slowed(before) && slowed(step)) {
      joined[joined.length - 1] = { ...last, toC: step.toC, minutes: last.minutes + step.minutes };
    } else joined.push(step);
  });
  return joined;
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
      readonly reason: HeatLimit;
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
  const { hardener, fromC, place = 'mould' } = need;
  const wantedC = Math.max(
    need.neededTgC - practice('tg-over-cure-c'),
    need.bakeC ?? -Infinity,
    fromC,
  );
  if (hardener.tgFullC !== null && hardener.tgFullC < need.neededTgC) {
    return { possible: false, reason: 'resin', wantedC, limitC: hardener.tgFullC };
  }
  const limit = lowestLimit(need);
  if (limit.limitC < wantedC) return { possible: false, wantedC, ...limit };
  const holdHours =
    hardener.postCure
      .filter((step) => step.temperatureC <= wantedC)
      .sort((a, b) => b.temperatureC - a.temperatureC)[0]?.hours ?? practice('postcure-hold-hours');
  const perMinute = rampKPerHourAt(place, practice) / 60;
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
