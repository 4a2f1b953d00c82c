/** The levers of a build and of its plan: which are open, and the document with one applied. */
import {
  leversOfId,
  pairOfLevers,
  readLeverId,
  type LeverKind,
  type LeverRef,
} from '../document/ids.ts';
import { mergeLibraries } from '../document/library.ts';
import { filledIn } from '../document/assume.ts';
import type { Build, Finding, Library } from '../document/schema.ts';
import type { FindingCode } from '../messages/findings.ts';
import { pairLabel } from '../messages/levers.ts';
import type { Lookups } from '../plan/lookups.ts';
import { BATCH_LEVERS } from './batchLevers.ts';
import { CREW_LEVERS } from './crewLevers.ts';
import { CURE_LEVERS } from './cureLevers.ts';
import { HELPER_LEVERS } from './helperLevers.ts';
import { HEAT_LEVERS } from './heatLevers.ts';
import type { LeverEdit, LeverRules, LeverTable, OfferInput, PlanOfferInput } from './lever.ts';
import { PART_LEVERS, STIFFEN_LEVERS } from './partLevers.ts';
import { ROOM_LEVERS } from './roomLevers.ts';
import { ROUTE_LEVERS } from './routeLevers.ts';
import { SECTION_LEVERS } from './sectionLevers.ts';
import { SLOT_LEVERS } from './slotLevers.ts';
import { WATCH_LEVERS } from './watchLevers.ts';

/** Every kind, in the order in which levers are offered. */
const LEVERS: LeverTable<LeverKind> = {
  ...ROOM_LEVERS,
  ...CREW_LEVERS,
  ...PART_LEVERS,
  ...CURE_LEVERS,
  ...SLOT_LEVERS,
  ...HELPER_LEVERS,
  ...BATCH_LEVERS,
  ...SECTION_LEVERS,
  ...WATCH_LEVERS,
  ...HEAT_LEVERS,
  ...ROUTE_LEVERS,
  ...STIFFEN_LEVERS,
};

export const LEVER_KINDS = Object.keys(LEVERS) as readonly LeverKind[];

/** What the kind of an id says of itself: the table holds it under the same name. */
const rulesOf = ({ lever }: Pick<LeverRef, 'lever'>): LeverRules<never> =>
  LEVERS[lever] as unknown as LeverRules<never>;

const ALL = LEVER_KINDS.map((lever) => rulesOf({ lever }));

/** What a lever is an alternative to in the search over all levers; null: it is not searched. */
export function subjectOf(ref: LeverRef): string | null {
  const { subject } = rulesOf(ref);
  return typeof subject === 'function' ? subject(ref as never) : subject;
}

function offerInput(document: Build, shipped: Library, lookups: Lookups, days: number): OfferInput {
  const build = filledIn(document);
  return { document, build, library: mergeLibraries(build.library, shipped), days, lookups };
}

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
  const input = offerInput(document, shipped, lookups, days);
  return ALL.flatMap((rules) => ('offer' in rules ? rules.offer(input) : []));
}

/** Every lever that a plan invites. */
export const planLeverEdits = (input: PlanOfferInput): LeverEdit[] =>
  ALL.flatMap((rules) => ('edit' in rules ? (rules.offerWithPlan?.(input) ?? []) : []));

/** The ways out that a finding has of its own. */
export const ownLeverEdits = (document: Build, finding: Finding, library: Library): LeverEdit[] =>
  ALL.flatMap((rules) =>
    'edit' in rules
      ? (rules.answers?.[finding.code as FindingCode]?.(document, finding, library) ?? [])
      : [],
  );

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
  const rules = rulesOf(ref);
  const input = offerInput(document, shipped, lookups, days);
  return 'edit' in rules
    ? rules.edit(document, ref as never, input.library)
    : (rules.offer(input).find((edit) => edit.id === id) ?? null);
}

/**
 * The document with the lever applied and noted, or the two that the id names; null when one of them is not
 * open for this build.
 */
export const applyLever = (
  document: Build,
  id: string,
  shipped: Library,
  lookups: Lookups,
): Build | null =>
  leversOfId(id).reduce<Build | null>((changed, one) => {
    const edit = changed && leverEdit(changed, one, shipped, lookups);
    if (!edit) return null;
    const pulled = [...(changed.levers ?? []), { id: edit.id, label: edit.label }];
    return { ...edit.document, levers: pulled };
  }, document);

/** Two levers as one; null where the second is not open any more, or both change the same thing. */
export function togetherWith(
  first: LeverEdit,
  second: LeverEdit,
  shipped: Library,
  lookups: Lookups,
): LeverEdit | null {
  const [one, other] = [readLeverId(first.id), readLeverId(second.id)];
  if (!one || !other || one.lever === other.lever) return null;
  const subject = subjectOf(one);
  if (subject !== null && subject === subjectOf(other)) return null;
  const both = leverEdit(first.document, second.id, shipped, lookups);
  if (!both) return null;
  return {
    id: pairOfLevers(first.id, second.id),
    label: pairLabel(first.label, second.label),
    sideEffects: [...first.sideEffects, ...second.sideEffects],
    document: both.document,
    addedMinor: first.addedMinor + second.addedMinor,
  };
}
