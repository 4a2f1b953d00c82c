/** What a change that is not taken yet would move. */
import type { PlanResult } from '../../document/schema.ts';

export interface Foreseen {
  readonly stage: string;
  readonly name: string;
  readonly from: string;
  readonly to: string;
}

/** Stages still to come that start at another moment in the second plan, in its order. */
export function movedBetween(before: PlanResult, after: PlanResult): Foreseen[] {
  const starts = new Map(before.stages.map(({ id, start }) => [id, start]));
  return after.stages.flatMap(({ id, name, start, state }): Foreseen[] => {
    const from = starts.get(id) ?? null;
    const stays = state !== undefined || from === null || start === null || from === start;
    return stays ? [] : [{ stage: id, name, from, to: start }];
  });
}
