/** How many batches, how heavy, and when in the wet work each is mixed. */
import type { HardenerRow } from '../document/schema.ts';
import type { PracticeLookup } from './practice.ts';
import type { Batch } from './types.ts';

export interface BatchNeed {
  /** Mixed resin and hardener of the whole layup, g. */
  readonly mixedG: number;
  /** Most that is mixed at once, g. */
  readonly mostG: number;
  /** Least that is mixed at once where it could be split further, g. */
  readonly leastG: number;
  /** Minutes of the wet work, mixing included, when it goes on in so many batches. */
  readonly wetMinutesIn: (batches: number) => number;
  readonly hardener: Pick<HardenerRow, 'partsPer100ByMass'>;
  /** Minutes that a mass, g, stays workable in its cup, as it is mixed and in its room. */
  readonly potLifeMinutesOf: (massG: number) => number;
  /** Peak of a mass, g, left standing in its cup, C; not said when absent. */
  readonly peakCOf?: (massG: number) => number;
  readonly practice: PracticeLookup;
}

/**
 * Equal batches, the fewest that are no heavier than `mostG` and are mixed and spread within
 * the practice share of their own pot life. Where even the smallest sensible batch is too slow, batches
 * of that mass come back: `spreadInTime` says so. Empty when nothing is mixed. Grams are exact; round
 * them on the card only.
 */
export function settleBatches(need: BatchNeed): Batch[] {
  const { mixedG, mostG, leastG, hardener, potLifeMinutesOf, practice } = need;
  if (!(mixedG > 0)) return [];
  const fewest = Math.max(1, Math.ceil(mixedG / mostG));
  const most = Math.max(fewest, Math.floor(mixedG / leastG));
  const fits = (count: number): boolean =>
    spreadInTime(need.wetMinutesIn(count) / count, potLifeMinutesOf(mixedG / count), practice);
  let count = fewest;
  while (count < most && !fits(count)) count++;

  const totalG = mixedG / count;
  const resinG = (totalG * 100) / (100 + hardener.partsPer100ByMass);
  const potLifeMinutes = potLifeMinutesOf(totalG);
  const peakC = need.peakCOf?.(totalG) ?? null;
  return Array.from({ length: count }, (_, i) => ({
    number: i + 1,
    resinG,
    hardenerG: totalG - resinG,
    totalG,
    potLifeMinutes,
    peakC,
    atShare: i / count,
  }));
}

/** True when a batch is mixed and spread within the share of its pot life that practice allows. */
export const spreadInTime = (
  spreadMinutes: number,
  potLifeMinutes: number,
  practice: PracticeLookup,
): boolean => spreadMinutes <= practice('spread-share-of-pot-life') * potLifeMinutes;
