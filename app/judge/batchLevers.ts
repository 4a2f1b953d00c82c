/** More and smaller batches than a shop usually mixes, where its batches outlast their cups. */
import { leverId, type LeverRef } from '../document/ids.ts';
import { practiceOf } from '../document/library.ts';
import type { Build, Library } from '../document/schema.ts';
import { leverWords } from '../messages/levers.ts';
import { MINUTES_PER_HOUR } from '../time/instant.ts';
import type { LeverEdit, LeverTable } from './lever.ts';

type BatchRef = Extract<LeverRef, { lever: 'small-batches' }>;

/** @returns null where batches as small are mixed already */
function batchEdit(document: Build, ref: BatchRef, library: Library): LeverEdit | null {
  const { leastG, more } = ref;
  if (leastG >= (document.resin.leastBatchG ?? Infinity)) return null;
  const practice = practiceOf(library);
  const hours = (more * practice('mix-minutes-per-batch')) / MINUTES_PER_HOUR;
  return {
    id: leverId(ref),
    ...leverWords('small-batches', { leastG, more }),
    document: { ...document, resin: { ...document.resin, leastBatchG: leastG } },
    addedMinor: Math.round(hours * practice('labour-minor-per-h')),
  };
}

/** A batch that outlasts its cup names the smaller ones that are spread in time. */
export const BATCH_LEVERS: LeverTable<'small-batches'> = {
  'small-batches': {
    subject: null,
    answers: {
      'pot-runaway': (document, { numbers: { smallerG, moreBatches } }, library) =>
        typeof smallerG === 'number' && typeof moreBatches === 'number'
          ? batchEdit(
              document,
              { lever: 'small-batches', leastG: smallerG, more: moreBatches },
              library,
            )
          : null,
    },
    edit: batchEdit,
  },
};
