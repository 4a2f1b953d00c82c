/** Batches smaller than the shop is used to mix, where those that it mixes outlast their cups. */
import { spreadInTime } from '../cure/batches.ts';
import { mixedC, potLifeOf } from '../cure/pot.ts';
import { crewMinutes } from '../part/labour.ts';
import type { Layup } from '../part/types.ts';
import type { PlanContext } from './context.ts';
import type { SettledCure } from './cures.ts';

export interface SmallBatches {
  readonly massG: number;
  /** Batches more than planned. */
  readonly more: number;
}

/**
 * The heaviest batches that are mixed and spread in their share of pot life by the hands that are planned; each
 * costs its own mixing.
 * @returns null where not even the smallest that scales weigh well enough are
 */
export function smallBatches(
  { build, practice, library }: PlanContext,
  { batches, wetMinutes, hands, model }: SettledCure,
  { id }: Pick<Layup, 'id'>,
): SmallBatches | null {
  const planned = batches[id]!;
  const mixedG = planned.reduce((sum, { totalG }) => sum + totalG, 0);
  const roomC = build.room.temperatureC.day;
  const potLife = potLifeOf(model, practice);
  const mixMinutes = build.helperFor.includes(id) ? 0 : practice('mix-minutes-per-batch');
  const most = Math.floor(mixedG / practice('batch-least-g'));
  for (let count = planned.length + 1; count <= most; count++) {
    const minutes = wetMinutes[id]! + (count - planned.length) * mixMinutes;
    const each = crewMinutes(minutes, hands[id]!, library) / count;
    const massG = mixedG / count;
    if (spreadInTime(each, potLife(massG, roomC, mixedC(roomC, practice)), practice)) {
      return { massG, more: count - planned.length };
    }
  }
  return null;
}
