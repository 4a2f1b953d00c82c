/** All the ways of pulling several levers at once, fewest first. */

/** A set of levers pulled together, by their ids in the order of pulling. */
export type LeverSet = readonly string[];

/** Alternatives that shut each other out; doing nothing is always one. */
type Dimension = readonly LeverSet[];

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
    ...slotsByParty(open),
  ].map((alternatives) => [[], ...alternatives]);
}

/** Later slots shut each other out party by party: `slot:paint:2027-05-11`. */
function slotsByParty(open: readonly string[]): LeverSet[][] {
  const slots = open.filter((id) => id.startsWith('slot:'));
  const parties = [...new Set(slots.map((id) => id.slice(0, id.lastIndexOf(':'))))];
  return parties.map((party) => slots.filter((id) => id.startsWith(`${party}:`)).map((id) => [id]));
}

/** Every combination of one alternative of each dimension, fewest levers first. */
export function leverSets(dimensions: readonly Dimension[]): LeverSet[] {
  const all = dimensions.reduce<LeverSet[]>(
    (sets, dimension) =>
      sets.flatMap((set) => dimension.map((alternative) => [...set, ...alternative])),
    [[]],
  );
  return all
    .map((set, index) => ({ set, index }))
    .sort((a, b) => a.set.length - b.set.length || a.index - b.index)
    .map(({ set }) => set);
}
