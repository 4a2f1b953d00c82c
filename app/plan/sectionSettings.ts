/** What is set for a skin holds for each section that it is laid in, unless one has a setting of its own. */
import type { FullBuild } from '../document/schema.ts';
import { sectionIds, sectionsOf } from '../part/sections.ts';
import { SECTIONED_IDS, type LayupId } from '../part/types.ts';

/** Sections after the first, each with the skin whose settings it takes. */
const laterSections = (build: FullBuild): { readonly id: LayupId; readonly of: string }[] => {
  const sections = sectionsOf(build);
  return SECTIONED_IDS.flatMap((of) =>
    sectionIds(of, sections[of]).flatMap((id) => (id === of ? [] : [{ id, of }])),
  );
};

/** The build with heat, helper, hardener, lot and bench of a skin at all of its sections. */
export function withSectionSettings(build: FullBuild): FullBuild {
  const later = laterSections(build);
  if (later.length === 0) return build;
  const { resin, heat, helperFor } = build;
  const each = <T>(of: Readonly<Record<string, T>>): Record<string, T> => ({
    ...Object.fromEntries(
      later.flatMap(({ id, of: skin }) => (skin in of ? [[id, of[skin]!]] : [])),
    ),
    ...of,
  });
  return {
    ...build,
    helperFor: [
      ...helperFor,
      ...later.flatMap(({ id, of }) =>
        helperFor.includes(of) && !helperFor.includes(id) ? [id] : [],
      ),
    ],
    heat: [
      ...heat,
      ...later.flatMap(({ id, of }) =>
        heat.some(({ layup }) => layup === id)
          ? []
          : heat.filter(({ layup }) => layup === of).map((own) => ({ ...own, layup: id })),
      ),
    ],
    resin: {
      ...resin,
      hardenerFor: each(resin.hardenerFor),
      benchFor: each(resin.benchFor),
      ...(resin.lotFor ? { lotFor: each(resin.lotFor) } : {}),
    },
  };
}
