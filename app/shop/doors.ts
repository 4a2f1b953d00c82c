/** Moments that open a door: from when work may be done, and when the plan has people do it. */
import { layupStageId } from '../document/ids.ts';
import type { StageResult } from '../document/schema.ts';
import type { CureSheetData, SheetData } from './sheetData.ts';
import { dayClock } from './words.ts';

export type Door = 'debagFrom' | 'demouldFrom' | 'sandFrom';

const VERBS: Readonly<Record<Door, { readonly may: string; readonly done: string }>> = {
  debagFrom: { may: 'off from', done: 'taken off' },
  demouldFrom: { may: 'out from', done: 'demoulded' },
  sandFrom: { may: 'sanded from', done: 'cut and sanded' },
};

/** When the plan has people go through the door; null where it has nobody do so. */
export function doneAt(facts: SheetData, cure: CureSheetData, door: Door): string | null {
  if (door === 'debagFrom') return cure.bagOffAt;
  const kind = door === 'demouldFrom' ? 'demould' : 'trim';
  return facts.placed.find(({ stage }) => stage.kind === kind)?.startIso ?? null;
}

/**
 * `off from Sat 1 May 02:55; taken off Mon 3 May 07:30`; the first half alone where it is done at that
 * minute or not planned. Null where the moment is never reached.
 */
export function doorWords(facts: SheetData, cure: CureSheetData, door: Door): string | null {
  const from = cure.row?.[door] ?? null;
  if (from === null) return null;
  const { may, done } = VERBS[door];
  const at = doneAt(facts, cure, door);
  const words = `${may} ${dayClock(from)}`;
  return at === null || at === from ? words : `${words}; ${done} ${dayClock(at)}`;
}

/** What a stage waits for, in the same words; null where it goes through no door. */
export function doorOf(facts: SheetData, stage: StageResult): string | null {
  const bag = facts.cures.find((cure) =>
    cure.layups.some((layup) => layupStageId('bag-off', layup.id) === stage.id),
  );
  const last = facts.cures.find(({ id }) => id === facts.lastInMould);
  const may = (cure: CureSheetData | undefined, door: Door): string | null => {
    const from = cure?.row?.[door] ?? null;
    return from === null ? null : `${VERBS[door].may} ${dayClock(from)}`;
  };
  if (bag) return may(bag, 'debagFrom');
  return stage.kind === 'demould' ? may(last, 'demouldFrom') : null;
}
