/** A small seeded generator: the same seed gives the same numbers everywhere. */
export interface Random {
  /** Next number in [0, 1). */
  next(): number;
  /** Whole number in [0, below). */
  below(below: number): number;
}

/**
 * A generator of numbers in [0, 1): Mulberry32 (T. Ettinger, public domain), 32 bits of state, ample for a
 * search.
 * @param seed whole number, its lower 32 bits are used
 */
export function seededRandom(seed: number): Random {
  let state = seed >>> 0;
  const next = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = state;
    mixed = Math.imul(mixed ^ (mixed >>> 15), mixed | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
  return { next, below: (below) => Math.floor(next() * below) };
}
