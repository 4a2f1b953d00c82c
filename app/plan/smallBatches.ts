/** Batches smaller than the shop is used to mix, where those that it mixes outlast their cups. */
import type { FullBuild } from '../document/schema.ts';
import type { Layup } from '../part/types.ts';
import type { PlanContext } from './context.ts';
import type { SettledCure } from './cures.ts';
import { slowCup } from './slowCups.ts';
import { wetWorkOf } from './wetWork.ts';

export interface SmallBatches {
  readonly massG: number;
  /** Batches more than planned. */
  readonly more: number;
}

/**
 * The heaviest batches that are mixed and spread in their share of pot life by the hands that are planned, as the
 * plan would settle them were the shop to mix as little as scales weigh well enough.
 * @returns null where not even those are spread in time
 */
export function smallBatches(
  context: PlanContext,
  { cure, batches, hands }: SettledCure,
  layup: Layup,
): SmallBatches | null {
  const leastBatchG = context.practice('batch-least-g');
  const resin = { ...context.build.resin, leastBatchG };
  const build: FullBuild = { ...context.build, resin };
  const inSmall = { ...context, build };
  const work = wetWorkOf(inSmall, cure)(hands[layup.id]!);
  if (slowCup(inSmall, layup, work)) return null;
  const own = work.batches[layup.id]!;
  return { massG: own[0]!.totalG, more: own.length - batches[layup.id]!.length };
}
