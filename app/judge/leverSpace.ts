/** All combinations of levers, fewest levers first. */

import { leverLayup, readLeverId, type LeverKind, type LeverRef } from '../document/ids.ts';

/** A set of levers applied together, by their ids in the order of applying. */
export type LeverSet = readonly string[];

/** Alternatives of which one is taken; doing nothing is always the first. */
export type Dimension = readonly LeverSet[];

/** True for the levers of one cure: its own hardener, its own tent. */
export const isOfOneCure = (id: string): boolean => leverLayup(readLeverId(id)) !== null;

/** What levers of a kind are alternatives for; null: not tried in combinations. */
type Subject = (ref: LeverRef) => string | null;
const about =
  (subject: string): Subject =>
  () =>
    subject;
const aboutLayup: Subject = (ref) => `${ref.lever} ${leverLayup(ref)}`;
const never: Subject = () => null;

/** Of the levers of one subject at most one is applied; the order is the one in which they are tried. */
const SUBJECT_OF: Readonly<Record<LeverKind, Subject>> = {
  hardener: about('hardener'),
  'warm-nights': about('room'),
  'warmer-room': about('room'),
  'longer-day': about('hours'),
  saturday: about('hours'),
  weekend: about('hours'),
  'another-hand': about('crew'),
  release: about('release'),
  'heated-tent': about('tent'),
  'local-between': about('local plies'),
  closeout: about('closeout'),
  slot: (ref) => (ref.lever === 'slot' ? `slot ${ref.party}` : null),
  'layup-hardener': aboutLayup,
  'layup-tent': aboutLayup,
  // These depend on a plan: they are offered with it, not searched.
  route: never,
  'post-cure-heat': never,
  'air-dry': never,
  stiffen: never,
};

/** Longer days go with work on the weekend. */
const TOGETHER: readonly (readonly [LeverKind, LeverKind])[] = [
  ['longer-day', 'saturday'],
  ['longer-day', 'weekend'],
];

/** Dimensions of what is open, from the ids of all single levers. */
export function leverDimensions(open: readonly string[]): Dimension[] {
  const known = open.flatMap((id) => {
    const ref = readLeverId(id);
    return ref ? [{ id, ref }] : [];
  });
  const bySubject = new Map<string, LeverSet[]>();
  const add = (subject: string | null, set: LeverSet): void => {
    if (subject !== null) bySubject.set(subject, [...(bySubject.get(subject) ?? []), set]);
  };
  const ofKind = (kind: LeverKind) => known.filter(({ ref }) => ref.lever === kind);
  for (const kind of Object.keys(SUBJECT_OF) as LeverKind[]) {
    for (const { id, ref } of ofKind(kind)) add(SUBJECT_OF[kind](ref), [id]);
  }
  for (const [first, second] of TOGETHER) {
    for (const { id, ref } of ofKind(first)) {
      for (const other of ofKind(second)) add(SUBJECT_OF[first](ref), [id, other.id]);
    }
  }
  return [...bySubject.values()].map((alternatives) => [[], ...alternatives]);
}

/** How many combinations there are. */
export const combinations = (dimensions: readonly Dimension[]): number =>
  dimensions.reduce((product, { length }) => product * length, 1);

/** Every combination of one alternative of each dimension, fewest levers first. */
export function* leverSets(dimensions: readonly Dimension[]): Generator<LeverSet> {
  const most = dimensions.map((one) => Math.max(...one.map((set) => set.length)));
  const left = most.map((_, i) => most.slice(i).reduce((sum, size) => sum + size, 0));
  function* ofSize(at: number, size: number, set: LeverSet): Generator<LeverSet> {
    if (size > (left[at] ?? 0)) return;
    if (at === dimensions.length) return yield set;
    for (const alternative of dimensions[at]!) {
      if (alternative.length > size) continue;
      yield* ofSize(at + 1, size - alternative.length, [...set, ...alternative]);
    }
  }
  for (let size = 0; size <= (left[0] ?? 0); size++) yield* ofSize(0, size, []);
}

/**
 * Sets that grow by the lever that helps most: the best of all, then it and the best of another dimension,
 * up to `most` levers. Each set in the order of applying of the dimensions.
 */
export function greedySets(
  dimensions: readonly Dimension[],
  gainOf: (id: string) => number,
  most: number,
): LeverSet[] {
  const best = dimensions.flatMap((alternatives, order) => {
    const gains = alternatives.map((set) => ({ set, gain: Math.min(...set.map(gainOf)) }));
    const single = gains.filter(({ set, gain }) => set.length === 1 && gain > 0);
    const [top] = single.toSorted((a, b) => b.gain - a.gain);
    return top ? [{ ...top, order }] : [];
  });
  const ranked = best.toSorted((a, b) => b.gain - a.gain || a.order - b.order).slice(0, most);
  return ranked.slice(1).map((_, i) =>
    ranked
      .slice(0, i + 2)
      .toSorted((a, b) => a.order - b.order)
      .flatMap(({ set }) => set),
  );
}
