/** The smallest of the sets that a list holds, for what has to give way or clashes. */

/** Sets that are tried, from the smallest on. */
const MOST_TRIED = 400;

/**
 * The first set for which `holds` is true: the fewest, and of as many those of the last in the list.
 * @param most the most that a set may have
 * @param untried taken where there are too many sets to try every one
 * @returns null where it is true of none
 */
export function smallestSet<T>(
  list: readonly T[],
  most: number,
  holds: (set: readonly T[]) => boolean,
  untried: () => readonly T[],
): readonly T[] | null {
  let tried = 0;
  for (let count = 1; count <= most; count++) {
    for (const set of youngestFirst(list, count)) {
      if (tried++ >= MOST_TRIED) return untried();
      if (holds(set)) return set;
    }
  }
  return null;
}

/** Sets of so many, those of the last in the list before others. */
function* youngestFirst<T>(list: readonly T[], count: number): Generator<T[]> {
  if (count === 0) return yield [];
  for (let last = list.length - 1; last >= count - 1; last--) {
    for (const rest of youngestFirst(list.slice(0, last), count - 1)) yield [...rest, list[last]!];
  }
}
