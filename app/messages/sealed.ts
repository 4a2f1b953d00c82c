/** What the moment is called at which wet work is over: the bag is down, or the infused bag is full. */
const WORDS = {
  bagged: {
    by: 'Bag down by',
    done: 'Bag down',
    shortBy: 'bag by',
    must: 'the bag must be down',
    late: 'If the bag is not down by',
    go: 'Bag goes down by',
  },
  infused: {
    by: 'Full by',
    done: 'Full, feed clamped',
    shortBy: 'full by',
    must: 'the part must be full',
    late: 'If it is not full by',
    go: 'Full by',
  },
} as const;

/** @param infused true: its cloth is laid dry and filled under the bag */
export const sealedWords = (infused: boolean | undefined) =>
  WORDS[infused === true ? 'infused' : 'bagged'];
