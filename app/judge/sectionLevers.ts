/** A skin laid in sections with staggered overlaps, where its wet work outlasts its resin or the crew's hours. */
import { leverId, type LeverRef } from '../document/ids.ts';
import { filledIn } from '../document/assume.ts';
import { practiceOf } from '../document/library.ts';
import type { Build, Library } from '../document/schema.ts';
import { layupWithin } from '../messages/layups.ts';
import { leverWords } from '../messages/levers.ts';
import { MINUTES_PER_HOUR } from '../time/instant.ts';
import type { LeverEdit, LeverTable, PlanOfferInput } from './lever.ts';

type SectionsRef = Extract<LeverRef, { lever: 'sections' }>;

const offered = ({ context, document, plan, lookups }: PlanOfferInput): LeverEdit[] =>
  lookups.skinsInSections(context, plan).flatMap(({ layup, sections, ...costs }) => {
    const ref: SectionsRef = {
      lever: 'sections',
      layup,
      sections,
      minutes: Math.round(costs.minutes),
      jointMm: Math.round(costs.jointM * 1000),
      overlapG: Math.round(costs.overlapG),
    };
    return sectionsEdit(document, ref, context.library) ?? [];
  });

/** @returns null where the skin is laid in as many sections already */
function sectionsEdit(document: Build, ref: SectionsRef, library: Library): LeverEdit | null {
  const now = filledIn(document).part.sections[ref.layup];
  if (ref.sections <= now) return null;
  const { layup, sections, ...costs } = ref;
  return {
    id: leverId(ref),
    ...leverWords('sections', {
      ...costs,
      overlapMm: practiceOf(library)('ply-overlap-mm'),
      skin: layupWithin(layup),
      onMould: layup === 'skin',
      sections,
      more: sections - now,
    }),
    document: {
      ...document,
      part: {
        ...document.part,
        sections: { ...document.part.sections, [layup]: sections },
      },
    },
    addedMinor: Math.round(
      (ref.minutes / MINUTES_PER_HOUR) * practiceOf(library)('labour-minor-per-h'),
    ),
  };
}

export const SECTION_LEVERS: LeverTable<'sections'> = {
  sections: {
    subject: ({ layup }) => `sections ${layup}`,
    offerWithPlan: offered,
    edit: sectionsEdit,
  },
};
