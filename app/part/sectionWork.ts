/** What a section of a skin takes beside its own layup: its joint made ready, and its mould released again. */
import { practiceOf, releaseOf } from '../document/library.ts';
import type { FullBuild, Library } from '../document/schema.ts';
import { familiarityFactor } from './labour.ts';
import type { Layup, Section } from './types.ts';

/**
 * Person-minutes to strip, scuff and clean the joint to the section before, by its length; 0 for a first section.
 * @throws MissingRow
 */
export const jointMinutes = ({ jointM }: Section, build: FullBuild, library: Library): number =>
  familiarityFactor(build, library) * practiceOf(library)('section-joint-minutes-per-m') * jointM;

/**
 * Bare mould that a later section of the outer skin is laid on, its flange included, m2; 0 for what is laid on no
 * mould. The release of the first coats does not keep through the cures between; a film does.
 * @throws MissingRow
 */
export function coatedAgainM2(
  { section, areaM2, edgeM }: Layup,
  build: FullBuild,
  library: Library,
) {
  if (section?.of !== 'skin' || section.number === 1) return 0;
  if (releaseOf(library, build.mould.release).type === 'film') return 0;
  const { jointM, count } = section;
  const trimM = edgeM - (2 * (count - 1) * jointM) / count;
  return areaM2 + (practiceOf(library)('flange-mm') / 1000) * trimM;
}

/** Person-minutes of the one coat that it gets. @throws MissingRow */
export const coatAgainMinutes = (layup: Layup, build: FullBuild, library: Library): number =>
  familiarityFactor(build, library) *
  releaseOf(library, build.mould.release).minutesPerM2 *
  coatedAgainM2(layup, build, library);
