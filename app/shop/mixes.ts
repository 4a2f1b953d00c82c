/** From the batches of a cure to what stands on its mix cards. */
import type { MixResult } from '../document/schema.ts';
import type { Batch } from '../cure/types.ts';
import { isInfused, type Layup } from '../part/types.ts';
import type { Minute } from '../time/instant.ts';
import { listed } from '../messages/words.ts';

/**
 * Last moment at which a cup may be spread: its pot life, rounded down, and no later than its bag must be down.
 * @param potLifeMinutes null: not known
 * @param bagBy null: not known
 * @returns null where the pot life is not known, or the bag is due before the cup is mixed
 */
export function cupUsedBy(
  mixedAt: Minute,
  potLifeMinutes: number | null,
  bagBy: Minute | null,
): Minute | null {
  if (potLifeMinutes === null || (bagBy !== null && bagBy <= mixedAt)) return null;
  return Math.min(Math.floor(mixedAt + potLifeMinutes), bagBy ?? Infinity);
}

/**
 * Puts the batches of one cure on the clock of its placed wet work.
 * mixAt = layupStart + atShare x length, to the nearest minute; useBy as `cupUsedBy`. Masses stay as computed: grams are rounded only on the cards.
 * @param options.iso writes a minute as ISO 8601 with the build's offset.
 */
export function stampMixes(options: {
  readonly cureId: string;
  readonly batches: readonly Batch[];
  readonly layupStart: Minute;
  readonly layupEnd: Minute;
  /** When the bag of this resin must be down; null: not known. */
  readonly bagBy: Minute | null;
  readonly iso: (minute: Minute) => string;
}): MixResult[] {
  const { cureId, batches, layupStart, layupEnd, bagBy, iso } = options;
  return batches.map((batch) => {
    const mixAt = Math.round(layupStart + batch.atShare * (layupEnd - layupStart));
    const potLife = batch.potLifeMinutes;
    const useBy = cupUsedBy(mixAt, potLife, bagBy);
    return {
      cure: cureId,
      batch: batch.number,
      resinG: batch.resinG,
      hardenerG: batch.hardenerG,
      totalG: batch.totalG,
      mixAt: iso(mixAt),
      useBy: useBy === null ? null : iso(useBy),
      potLifeMin: potLife,
      peakC: batch.peakC,
    };
  });
}

/** What the scale shows, all in grams; `decimals` is what the scale must resolve. */
export interface ScaleReadings {
  readonly decimals: 0 | 1 | 2;
  readonly resinG: number;
  readonly hardenerG: number;
  /** Resin and hardener together: the reading at which to stop pouring hardener. */
  readonly cumulativeG: number;
  /** How far the hardener may be off either way, rounded down. */
  readonly toleranceG: number;
  readonly lowestG: number;
  readonly highestG: number;
}

/** Rounding by half a digit may use up at most a quarter of the tolerance. */
const decimalsFor = (toleranceG: number): 0 | 1 | 2 =>
  toleranceG >= 2 ? 0 : toleranceG >= 0.2 ? 1 : 2;

/**
 * Rounds a batch for the scale. Hardener follows from the rounded resin, so that rounding never
 * shifts the ratio by more than half of the last digit.
 * @param tolerance how far the ratio may be off, as a fraction (0.02).
 */
export function scaleReadings(
  mix: Pick<MixResult, 'resinG' | 'hardenerG'>,
  tolerance: number,
): ScaleReadings {
  const exactToleranceG = mix.hardenerG * tolerance;
  const decimals = decimalsFor(exactToleranceG);
  const step = 10 ** decimals;
  const round = (value: number) => Math.round(value * step) / step;
  const resinG = round(mix.resinG);
  const hardenerG = round(mix.resinG > 0 ? (resinG * mix.hardenerG) / mix.resinG : mix.hardenerG);
  const toleranceG = Math.floor(exactToleranceG * step + 1e-9) / step;
  return {
    decimals,
    resinG,
    hardenerG,
    cumulativeG: round(resinG + hardenerG),
    toleranceG,
    lowestG: round(resinG + hardenerG - toleranceG),
    highestG: round(resinG + hardenerG + toleranceG),
  };
}

/** What the cards of a cure weigh out together, g: the sum of the readings as they are printed. */
export interface CardTotals {
  readonly decimals: 0 | 1 | 2;
  readonly resinG: number;
  readonly hardenerG: number;
  readonly cumulativeG: number;
}

/** @param tolerance how far the ratio may be off, as a fraction (0.02). */
export function cardTotals(
  mixes: readonly Pick<MixResult, 'resinG' | 'hardenerG'>[],
  tolerance: number,
): CardTotals {
  const reads = mixes.map((mix) => scaleReadings(mix, tolerance));
  const sum = (key: 'resinG' | 'hardenerG' | 'cumulativeG') =>
    Math.round(reads.reduce((total, read) => total + read[key], 0) * 100) / 100;
  return {
    decimals: reads.reduce<0 | 1 | 2>(
      (most, { decimals }) => (decimals > most ? decimals : most),
      0,
    ),
    resinG: sum('resinG'),
    hardenerG: sum('hardenerG'),
    cumulativeG: sum('cumulativeG'),
  };
}

/**
 * Which layups a batch is spread on, in words, when the batches of a cure are used up in the order
 * of its layups; into all of them at once where they are infused.
 * @param mixes all batches of the cure, in order.
 */
export function mixDestination(
  layups: readonly Pick<Layup, 'name' | 'mixedG' | 'infused'>[],
  mixes: readonly Pick<MixResult, 'totalG'>[],
  index: number,
): string {
  const all = mixes.reduce((sum, mix) => sum + mix.totalG, 0);
  const needed = layups.reduce((sum, layup) => sum + layup.mixedG, 0);
  if (all <= 0 || needed <= 0 || isInfused(layups))
    return listed(layups.map((layup) => layup.name));
  const before = mixes.slice(0, index).reduce((sum, mix) => sum + mix.totalG, 0) / all;
  const after = before + (mixes[index]?.totalG ?? 0) / all;
  const names: string[] = [];
  let from = 0;
  for (const layup of layups) {
    const to = from + layup.mixedG / needed;
    // A very small share of a batch gets no line on the card.
    if (Math.min(to, after) - Math.max(from, before) > 0.02 * (after - before)) {
      names.push(layup.name);
    }
    from = to;
  }
  return listed(names);
}
