/** Cups that outlast their share of pot life before they are spread, in the wet work that a plan mixes by. */
import { spreadInTime } from '../cure/batches.ts';
import type { Batch } from '../cure/types.ts';
import type { Layup } from '../part/types.ts';
import type { PlanContext } from './context.ts';
import { wetMinutesOf, type WetWork } from './wetWork.ts';

export interface SlowCup {
  readonly batch: Batch;
  readonly potLifeMinutes: number;
  /** Minutes in which it is mixed and spread, its share of the layup's wet work. */
  readonly spreadMinutes: number;
}

/** @returns null where each cup of the layup is spread in its share of pot life, or its pot life is not known */
export function slowCup(context: PlanContext, layup: Layup, work: WetWork): SlowCup | null {
  const own = work.batches[layup.id]!;
  const [batch] = own;
  const potLifeMinutes = batch?.potLifeMinutes ?? null;
  if (!batch || potLifeMinutes === null) return null;
  const spreadMinutes = wetMinutesOf(context, [layup], work) / own.length;
  if (spreadInTime(spreadMinutes, potLifeMinutes, context.practice)) return null;
  return { batch, potLifeMinutes, spreadMinutes };
}
