/** The levers of a build: which are open, and the document with one applied. */
import { readLeverId, type LeverKind } from '../document/ids.ts';
import { mergeLibraries, practiceOf } from '../document/library.ts';
import { buildSchema, type Build, type Library } from '../document/schema.ts';
import type { Lookups } from '../plan/lookups.ts';
import { cureHardeners, cureTents } from './cureLevers.ts';
import {
  bothWeekendDays,
  closeouts,
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
} from './buildLevers.ts';
import { airDryEdit, heatEdit } from './heatLevers.ts';
import { routeEdit, slotEdit, stiffenEdit } from './planLevers.ts';

/** Levers whose id holds all that applying them needs; they are offered with a plan. */
type OfAPlan = 'route' | 'slot' | 'stiffen' | 'post-cure-heat' | 'air-dry';

/** What offers the levers of each kind, in the order in which they are offered. */
const OFFERS: Readonly<Record<Exclude<LeverKind, OfAPlan>, Offer>> = {
  hardener: hardeners,
  'warm-nights': warmNights,
  'warmer-room': warmer,
  'heated-tent': tent,
  saturday: saturday,
  weekend: bothWeekendDays,
  'longer-day': longDay,
  'another-hand': hand,
  release: releases,
  'local-between': localBetween,
  closeout: closeouts,
  'layup-hardener': cureHardeners,
  'layup-tent': cureTents,
};

/**
 * Every lever that this build leaves open, whatever its plan.
 * @param days for which heat and wages run, for the cost
 */
export function leverEdits(
  document: Build,
  shipped: Library,
  lookups: Lookups,
  days = 0,
): LeverEdit[] {
  return editsOf(document, shipped, lookups, days, Object.values(OFFERS));
}

function editsOf(
  document: Build,
  shipped: Library,
  lookups: Lookups,
  days: number,
  offers: readonly Offer[],
): LeverEdit[] {
  const build = buildSchema.parse(document);
  const library = mergeLibraries(build.library, shipped);
  return offers.flatMap((offer) => offer({ document, build, library, days, lookups }));
}

/** One lever of a build by its id; null when it is not open. */
export function leverEdit(
  document: Build,
  id: string,
  shipped: Library,
  lookups: Lookups,
  days = 0,
): LeverEdit | null {
  const ref = readLeverId(id);
  if (!ref) return null;
  switch (ref.lever) {
    case 'route':
      return routeEdit(document, ref);
    case 'slot':
      return slotEdit(document, ref);
    case 'stiffen':
      return stiffenEdit(document, ref);
    case 'post-cure-heat':
      return heatEdit(document, ref);
    case 'air-dry': {
      const library = mergeLibraries(buildSchema.parse(document).library, shipped);
      return airDryEdit(document, ref, practiceOf(library)('air-dry-extra-days'));
    }
    default: {
      const offers = [OFFERS[ref.lever]];
      return (
        editsOf(document, shipped, lookups, days, offers).find((edit) => edit.id === id) ?? null
      );
    }
  }
}

/** The document with the lever applied and noted; null when the lever is not open for this build. */
export function applyLever(
  document: Build,
  leverId: string,
  shipped: Library,
  lookups: Lookups,
): Build | null {
  const edit = leverEdit(document, leverId, shipped, lookups);
  if (!edit) return null;
  const pulled = [...(document.levers ?? []), { id: edit.id, label: edit.label }];
  return { ...edit.document, levers: pulled };
}
