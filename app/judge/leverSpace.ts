/** All the ways of pulling several levers at once, fewest first. */

/** A set of levers pulled together, by their ids in the order of pulling. */
export type LeverSet = readonly string[];

/** Alternatives that shut each other out; doing nothing is always the first. */
export type Dimension = readonly LeverSet[];

/** Levers of one cure: `hardener:inner:fast`, `tent:core:40`. */
export const isOfOneCure = (id: string): boolean => /^(hardener|tent):/.test(id);

/** Dimensions of what is open, from the ids of all single levers. */
export function leverDimensions(open: readonly string[]): Dimension[] {
  const has = (id: string) => open.includes(id);
  const starting = (start: string): LeverSet[] =>
    open.filter((id) => id.startsWith(start)).map((id) => [id]);
  const single = (id: string): LeverSet[] => (has(id) ? [[id]] : []);
  const pair = (a: string, b: string): LeverSet[] => (has(a) && has(b) ? [[a, b]] : []);
  return [
    starting('hardener-'),
    [...single('warm-nights'), ...single('warmer-room')],
    [
      ...single('longer-day'),
      ...single('saturday'),
      ...single('weekend'),
      ...pair('longer-day', 'saturday'),
      ...pair('longer-day', 'weekend'),
    ],
    single('another-hand'),
    starting('release-'),
    single('heated-tent'),
    single('local-between'),
    starting('closeout-'),
    ...byOwner(open.filter((id) => id.startsWith('slot:'))),
    ...byOwner(open.filter(isOfOneCure)),
  ]
    .filter((alternatives) => alternatives.length > 0)
    .map((alternatives) => [[], ...alternatives]);
}

/** `slot:paint:2027-05-11` and `tent:core:40` shut out others of the same party or layup. */
function byOwner(ids: readonly string[]): LeverSet[][] {
  const owner = (id: string) => id.slice(0, id.lastIndexOf(':'));
  const owners = [...new Set(ids.map(owner))];
  return owners.map((one) => ids.filter((id) => owner(id) === one).map((id) => [id]));
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
 * What helps most put together step by step: the best lever of the best dimension, then the next one
 * to it, up to `most`. In the order of pulling of the dimensions.
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
