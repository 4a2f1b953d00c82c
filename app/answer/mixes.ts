/** The batches of a cure in the order of mixing, layup after layup, stretch after stretch. */
import type { Batch } from '../cure/types.ts';
import type { MixResult } from '../document/schema.ts';
import type { Layup } from '../part/types.ts';
import { stretchesOf } from '../route/routes.ts';
import { layupStageId } from '../document/ids.ts';
import type { Placed } from '../schedule/problem.ts';
import { stampMixes } from '../shop/mixes.ts';
import type { Minute } from '../time/instant.ts';
import type { CureTimes } from '../plan/cureTimes.ts';
import type { SettledCure } from '../plan/cures.ts';

/** Batches of one stretch, numbered from `first`, each at its share of the stretch. */
function batchesOfStretch(settled: SettledCure, layups: readonly Layup[], first: number): Batch[] {
  const total = layups.reduce((sum, layup) => sum + settled.wetMinutes[layup.id]!, 0);
  let done = 0;
  let number = first;
  return layups.flatMap((layup) => {
    const own = settled.wetMinutes[layup.id]!;
    const shifted = settled.batches[layup.id]!.map((batch) => ({
      ...batch,
      number: number++,
      atShare: total > 0 ? (done + batch.atShare * own) / total : 0,
    }));
    done += own;
    return shifted;
  });
}

interface StretchBatches {
  readonly layups: readonly Layup[];
  readonly batches: readonly Batch[];
}

function byStretch(settled: SettledCure): StretchBatches[] {
  let next = 1;
  return stretchesOf(settled.cure).map((layups) => {
    const batches = batchesOfStretch(settled, layups, next);
    next += batches.length;
    return { layups, batches };
  });
}

export const batchesOfCure = (settled: SettledCure): Batch[] =>
  byStretch(settled).flatMap(({ batches }) => batches);

/** Mixes with their moments; null moments where the stretch could not be placed. */
export function mixesOfCure(
  { cure: settled, bagBy }: Pick<CureTimes, 'cure' | 'bagBy'>,
  placed: ReadonlyMap<string, Placed>,
  iso: (minute: Minute) => string,
): MixResult[] {
  return byStretch(settled).flatMap(({ layups, batches }) => {
    const at = placed.get(layupStageId('layup', layups[0]!.id));
    const cureId = settled.cure.id;
    if (at) {
      return stampMixes({ cureId, batches, layupStart: at.start, layupEnd: at.end, bagBy, iso });
    }
    return stampMixes({ cureId, batches, layupStart: 0, layupEnd: 0, bagBy: null, iso }).map(
      (mix) => ({
        ...mix,
        mixAt: null,
        useBy: null,
      }),
    );
  });
}
