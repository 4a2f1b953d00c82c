/** What a phone pack is of: two plans of one sum have the same route, stages and batches. */
import type { PlanResult } from '../../document/schema.ts';
import { checkSum } from './sum.ts';

/** Times are left out: they move with every minute, and a tick carries its own. */
export function planSum({ route, stages, mixes }: PlanResult): string {
  return checkSum(
    [
      route.id,
      ...stages.map(({ id }) => id).toSorted(),
      ...mixes.map(({ cure, batch, totalG }) => `${cure} ${batch} ${Math.round(totalG)}`),
    ].join('\n'),
  );
}
