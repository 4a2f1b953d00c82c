/** A helper by the hour for wet work that outlasts its resin, its cups or the crew's hours. */
import { leverId, type LeverRef } from '../document/ids.ts';
import { practiceOf } from '../document/library.ts';
import type { Build, Library } from '../document/schema.ts';
import { layupWithin } from '../messages/layups.ts';
import { leverWords } from '../messages/levers.ts';
import type { LeverEdit, LeverTable, PlanOfferInput } from './lever.ts';

type HelperRef = Extract<LeverRef, { lever: 'wet-helper' }>;

/** At all wet work that lacks one. The hours of a stretch stand with the first of its layups. */
function offered({ context, document, plan, lookups }: PlanOfferInput): LeverEdit[] {
  const helps = lookups
    .lackingHelp(context, plan)
    .flatMap(({ layups, hours }) =>
      layups.map((layup, i) => ({ layup, hours: i === 0 ? hours : 0 })),
    );
  const edit = helperEdit(document, { lever: 'wet-helper', helps }, context.library);
  return edit ? [edit] : [];
}

/** @returns null where a helper is there already for all that is named */
function helperEdit(document: Build, ref: HelperRef, library: Library): LeverEdit | null {
  const now = document.helperFor ?? [];
  const more = ref.helps.filter(({ layup }) => !now.includes(layup));
  if (more.length === 0) return null;
  const hours = more.reduce((sum, one) => sum + one.hours, 0);
  const layups = more.map(({ layup }) => layupWithin(layup));
  return {
    id: leverId(ref),
    ...leverWords('wet-helper', { layups, hours }),
    document: { ...document, helperFor: [...now, ...more.map(({ layup }) => layup)] },
    addedMinor: Math.round(hours * practiceOf(library)('labour-minor-per-h')),
  };
}

export const HELPER_LEVERS: LeverTable<'wet-helper'> = {
  'wet-helper': { subject: 'helper', offerWithPlan: offered, edit: helperEdit },
};
