/** Skins laid in sections, one after the other, with staggered overlaps at the joints between them. */
import { practiceOf } from '../document/library.ts';
import type { FullBuild, Library, PartZone } from '../document/schema.ts';
import { processOf } from './process.ts';
import { SECTIONED_IDS, type LayupId, type SectionedId } from './types.ts';

/** How many sections each skin is laid in. */
export type Sections = Readonly<Record<SectionedId, number>>;

const IN_ONE: Sections = { skin: 1, inner: 1 };

/** What is laid dry has no open time to keep, and is filled in one. */
export const sectionsOf = ({ part }: Pick<FullBuild, 'part'>): Sections =>
  processOf({ part }) === 'infused' ? IN_ONE : part.sections;

interface Place {
  readonly of: SectionedId;
  readonly number: number;
}

const PLACES: ReadonlyMap<LayupId, Place> = new Map(
  SECTIONED_IDS.flatMap((of) =>
    ([of, `${of}-2`, `${of}-3`] as const).map((id, i) => [id, { of, number: i + 1 }] as const),
  ),
);

/** The skin and the section of it that a layup is; null for a layup that is never laid in sections. */
export const sectionPlace = (id: LayupId): Place | null => PLACES.get(id) ?? null;

/** The laminate that a layup lays, whole or a section of it: `skin` of `skin-2`. */
export const laminateOf = (id: LayupId): LayupId => PLACES.get(id)?.of ?? id;

/** The layups that lay a skin in so many sections, in order. */
export const sectionIds = (of: SectionedId, count: number): LayupId[] =>
  [...PLACES].filter(([, place]) => place.of === of && place.number <= count).map(([id]) => id);

/** Length along the 0 line and girth of a zone, m; a square of its area where none are given. */
export function sidesOf({ sizeM, areaM2 }: Pick<PartZone, 'sizeM' | 'areaM2'>): [number, number] {
  const side = Math.sqrt(areaM2);
  const [lengthM, girthM] = sizeM ?? [side, side];
  return [lengthM, girthM];
}

/**
 * One joint between two sections of a zone, m. Sections divide its longer side evenly, so that the joint is as
 * long as the shorter one. Where it really lies is the shop's choice.
 */
export const jointOf = (zone: Pick<PartZone, 'sizeM' | 'areaM2'>): number =>
  Math.min(...sidesOf(zone));

/**
 * How far the end of each ply stands from that of the ply before it, mm: as practice has it, less where the band
 * would take more than half of a section.
 * @throws MissingRow
 */
export function stepMm(
  zone: Pick<PartZone, 'sizeM' | 'areaM2'>,
  plies: number,
  count: number,
  library: Library,
): number {
  if (plies < 2) return 0;
  const practice = practiceOf(library);
  const halfMm = (Math.max(...sidesOf(zone)) * 1000) / count / 2;
  const most = Math.max(0, halfMm - practice('ply-overlap-mm')) / (plies - 1);
  return Math.min(practice('ply-stagger-mm'), most);
}

/** The band of staggered overlaps along one joint of a zone, m2. @throws MissingRow */
export function bandOf(
  zone: Pick<PartZone, 'sizeM' | 'areaM2'>,
  plies: number,
  count: number,
  library: Library,
): number {
  const overlapMm = practiceOf(library)('ply-overlap-mm');
  return (jointOf(zone) * (overlapMm + (plies - 1) * stepMm(zone, plies, count, library))) / 1000;
}

/** Cloth that lies double along all joints of one ply over a zone, m2. @throws MissingRow */
export const doubledOf = (
  zone: Pick<PartZone, 'sizeM' | 'areaM2'>,
  count: number,
  library: Library,
): number => ((count - 1) * jointOf(zone) * practiceOf(library)('ply-overlap-mm')) / 1000;
