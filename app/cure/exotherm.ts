/** Reaction heat that a plan has to take into account, as typed facts without words. */
import { largestBatchFor, batchCurve, type BatchCase } from './pot.ts';
import type { PracticeLookup } from './practice.ts';
import type { StackResult } from './stack.ts';
import type { CureModel } from './types.ts';

export interface HotCup {
  readonly massG: number;
  readonly peakC: number;
  readonly runsAway: boolean;
  readonly potLifeMinutes: number | null;
  /** Largest batch that lives long enough to spread that slowly; 0 when none does. */
  readonly largestG: number;
}

export interface HotLayer {
  readonly layer: string;
  readonly peakC: number;
  readonly limitC: number;
}

/**
 * A batch that does not stay workable as long as its spreading takes (time to spread over practice's share of
 * pot life): what is left in the cup goes on to the peak. With the largest batch that would do.
 */
export function hotCup(
  model: CureModel,
  batch: BatchCase,
  wantedMinutes: number,
  practice: PracticeLookup,
): HotCup | null {
  const { peakC, runsAway, potLifeMinutes } = batchCurve(model, batch, practice);
  if (potLifeMinutes === null || potLifeMinutes >= wantedMinutes) return null;
  const spreadMinutes = wantedMinutes * practice('spread-share-of-pot-life');
  const largestG = largestBatchFor(model, wantedMinutes, batch, practice, spreadMinutes);
  return { massG: batch.massG, peakC, runsAway, potLifeMinutes, largestG };
}

/** Layers of a stack that reaction heat takes past their limit. */
export function hotLayers(stack: StackResult): HotLayer[] {
  return stack.layers.flatMap(({ name, peakC, limitC }) =>
    limitC !== null && peakC > limitC ? [{ layer: name, peakC, limitC }] : [],
  );
}
