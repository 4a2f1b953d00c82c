/** All combinations of levers, fewest levers first. */
import { leverLayup, readLeverId, type LeverKind } from '../document/ids.ts';
import { LEVER_KINDS, subjectOf } from './levers.ts';

/** A set of levers applied together, by their ids in the order of applying. */
export type LeverSet = readonly string[];

/** Alternatives of which one is taken; doing nothing is always the first. */
export type Dimension = readonly LeverSet[];

/** True for the levers of one cure: its own hardener, its own tent. */
export const isOfOneCure = (id: string): boolean => leverLayup(readLeverId(id)) !== null;

/** The order in which kinds are tried; one that is not named comes behind them. */
const TRIED_FIRST: readonly LeverKind[] = [
  'hardener',
  'warm-nights',
  'warmer-room',
  'longer-day',
  'saturday',
  'weekend',
  'another-hand',
  'release',
  'heated-tent',
  'local-between',
  'closeout',
  'slot',
  'layup-hardener',
  'layup-tent',
];
const IN_ORDER = [...new Set([...TRIED_FIRST, ...LEVER_KINDS])];

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
  for (const kind of IN_ORDER) {
    for (const { id, ref } of ofKind(kind)) add(subjectOf(ref), [id]);
  }
  for (const [first, second] of TOGETHER) {
    for (const { id, ref } of ofKind(first)) {
      for (const other of ofKind(second)) add(subjectOf(ref), [id, other.id]);
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
