/** The levers of a build: which are open, and pulling one. */
import { mergeLibraries } from '../document/library.ts';
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
import { routeFromLeverId, slotFromLeverId, stiffenEdit } from './planLevers.ts';

/** Recommendations by the way their levers' ids begin. */
const OFFERS: readonly (readonly [string, Offer])[] = [
  ['hardener-', hardeners],
  ['warm-nights', warmNights],
  ['warmer-room', warmer],
  ['heated-tent', tent],
  ['saturday', saturday],
  ['weekend', bothWeekendDays],
  ['longer-day', longDay],
  ['another-hand', hand],
  ['release-', releases],
  ['local-between', localBetween],
  ['closeout-', closeouts],
  ['hardener:', cureHardeners],
  ['tent:', cureTents],
];

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
  return editsOf(document, shipped, lookups, days, OFFERS);
}

function editsOf(
  document: Build,
  shipped: Library,
  lookups: Lookups,
  days: number,
  offers: typeof OFFERS,
): LeverEdit[] {
  const build = buildSchema.parse(document);
  const library = mergeLibraries(build.library, shipped);
  return offers.flatMap(([, offer]) => offer({ document, build, library, days, lookups }));
}

/** One lever of a build by its id; null when it is not open. */
export function leverEdit(
  document: Build,
  id: string,
  shipped: Library,
  lookups: Lookups,
  days = 0,
): LeverEdit | null {
  const byPlan =
    routeFromLeverId(document, id) ?? slotFromLeverId(document, id) ?? stiffenEdit(document, id);
  if (byPlan) return byPlan;
  const offers = OFFERS.filter(([start]) => id.startsWith(start));
  return editsOf(document, shipped, lookups, days, offers).find((edit) => edit.id === id) ?? null;
}

/** The document with the lever pulled and noted; null when the lever is not open for this build. */
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
