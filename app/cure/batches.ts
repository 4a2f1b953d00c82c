/** How many batches, how heavy, and when in the wet work each is mixed. */
import type { HardenerRow } from '../document/schema.ts';
import type { PotLife } from './pot.ts';
import type { PracticeLookup } from './practice.ts';
import type { Batch } from './types.ts';

export interface BatchNeed {
  /** Mixed resin and hardener of the whole layup, g. */
  readonly mixedG: number;
  /** From first mix to the last of it spread. */
  readonly wetMinutes: number;
  readonly hardener: Pick<HardenerRow, 'partsPer100ByMass'>;
  readonly potLifeMinutesAt: PotLife;
  /** Peak in the cup, C, of a mass (g) left standing at a temperature (C); not said when absent. */
  readonly peakCAt?: (massG: number, temperatureC: number) => number;
  /** Of resin, cup and room. */
  readonly temperatureC: number;
  readonly practice: PracticeLookup;
}

/**
 * Equal batches, the fewest that are no heavier than the practice limit and are spread within the
 * practice share of their own pot life. Where even the smallest sensible batch is too slow, batches
 * of that mass come back: compare their pot life with the time for spreading to say so.
 * Empty when nothing is mixed. Grams are exact; round them on the card only.
 */
export function settleBatches(need: BatchNeed): Batch[] {
  const { mixedG, wetMinutes, hardener, potLifeMinutesAt, temperatureC, practice } = need;
  if (!(mixedG > 0)) return [];
  const heaviestG = practice('batch-max-g');
  const lightestG = practice('batch-min-g');
  const share = practice('spread-share-of-pot-life');
  const fewest = Math.max(1, Math.ceil(mixedG / heaviestG));
  const most = Math.max(fewest, Math.floor(mixedG / lightestG));
  const fits = (count: number): boolean =>
    wetMinutes / count <= share * potLifeMinutesAt(mixedG / count, temperatureC);
  let count = fewest;
  while (count < most && !fits(count)) count++;

  const totalG = mixedG / count;
  const resinG = (totalG * 100) / (100 + hardener.partsPer100ByMass);
  const potLifeMinutes = potLifeMinutesAt(totalG, temperatureC);
  const peakC = need.peakCAt?.(totalG, temperatureC) ?? null;
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
