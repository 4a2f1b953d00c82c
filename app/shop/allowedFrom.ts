/** From when a bag may come off, a part be demoulded or sanded, and when the plan has people do it. */
import { layupStageId } from '../document/ids.ts';
import type { StageResult } from '../document/schema.ts';
import type { CureSheetData, SheetData } from './sheetData.ts';
import { clockOn } from './words.ts';

export type AllowedMoment = 'debagFrom' | 'demouldFrom' | 'sandFrom';

const VERBS: Readonly<Record<AllowedMoment, { readonly may: string; readonly done: string }>> = {
  debagFrom: { may: 'off from', done: 'taken off' },
  demouldFrom: { may: 'out from', done: 'demoulded' },
  sandFrom: { may: 'sanded from', done: 'cut and sanded' },
};

/** When the plan has people do it; null where it has nobody do so. */
export function doneAt(
  facts: SheetData,
  cure: CureSheetData,
  moment: AllowedMoment,
): string | null {
  if (moment === 'debagFrom') return cure.bagOffAt;
  const kind = moment === 'demouldFrom' ? 'demould' : 'trim';
  return facts.placed.find(({ stage }) => stage.kind === kind)?.startIso ?? null;
}

/**
 * `off from Sat 1 May 02:55; taken off Mon 3 May 07:30`; the first half alone where it is done at that
 * minute or not planned. Null where the moment is never reached.
 * @param date the day on whose sheet it stands: its own date is not said again
 */
export function allowedFromWords(
  facts: SheetData,
  cure: CureSheetData,
  moment: AllowedMoment,
  date = '',
): string | null {
  const from = cure.row?.[moment] ?? null;
  if (from === null) return null;
  const { may, done } = VERBS[moment];
  const at = doneAt(facts, cure, moment);
  const words = `${may} ${clockOn(date, from)}`;
  return at === null || at === from ? words : `${words}; ${done} ${clockOn(date, at)}`;
}

/** `off from Sat 1 May 02:55` alone, for a line that says by itself when it is done. */
export function mayFromWords(cure: CureSheetData, moment: AllowedMoment, date = ''): string | null {
  const from = cure.row?.[moment] ?? null;
  return from === null ? null : `${VERBS[moment].may} ${clockOn(date, from)}`;
}

/** What a stage waits for, in the same words; null where it waits for none of them. */
export function allowedFromOf(facts: SheetData, stage: StageResult): string | null {
  const bag = facts.cures.find((cure) =>
    cure.layups.some((layup) => layupStageId('bag-off', layup.id) === stage.id),
  );
  const last = facts.cures.find(({ id }) => id === facts.lastInMould);
  if (bag) return mayFromWords(bag, 'debagFrom');
  return stage.kind === 'demould' && last ? mayFromWords(last, 'demouldFrom') : null;
}
