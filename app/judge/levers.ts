/** The levers of a build: which are open, and pulling one. */
import { mergeLibraries } from '../build/library.ts';
import { buildSchema, type Build, type Library } from '../build/schema.ts';
import {
  bothWeekendDays,
  hand,
  hardeners,
  localBetween,
  longDay,
  releases,
  saturday,
  tent,
  warmer,
  warmNights,
  type LeverEdit,
  type Offer,
} from './leverOffers.ts';
import { routeFromLeverId, slotFromLeverId } from './planLevers.ts';

const OFFERS: readonly Offer[] = [
  hardeners,
  warmNights,
  warmer,
  tent,
  saturday,
  bothWeekendDays,
  longDay,
  hand,
  releases,
  localBetween,
];

/**
 * Every lever that this build leaves open, whatever its plan.
 * @param days for which heat and wages run, for the cost
 */
export function leverEdits(document: Build, shipped: Library, days = 0): LeverEdit[] {
  const build = buildSchema.parse(document);
  const library = mergeLibraries(build.library, shipped);
  return OFFERS.flatMap((offer) => offer({ document, build, library, days }));
}

/** The document with the lever pulled and noted; null when the lever is not open for this build. */
export function applyLever(document: Build, leverId: string, shipped: Library): Build | null {
  const edit =
    routeFromLeverId(document, leverId) ??
    slotFromLeverId(document, leverId) ??
    leverEdits(document, shipped).find((candidate) => candidate.id === leverId);
  if (!edit) return null;
  const pulled = [...(document.levers ?? []), { id: edit.id, label: edit.label }];
  return { ...edit.document, levers: pulled };
}
