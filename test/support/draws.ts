/**
 * Properties over drawn cases: the same draws in every run, and a count of what they exercised, so that
 * a property whose cases have all become trivial fails instead of passing.
 */
import fc from 'fast-check';
import { expect } from 'vitest';

/** Counts of the kinds of cases that a test means to exercise. */
export interface Tally<Name extends string> {
  /** Counts one case of the kind. */
  readonly saw: (name: Name) => void;
  readonly counts: Readonly<Record<Name, number>>;
  /** Fails and names every kind that was seen less often than `least` times. */
  readonly expectEach: (least?: number) => void;
}

/** @param names every kind of case that must turn up at least once */
export function tally<Name extends string>(...names: readonly Name[]): Tally<Name> {
  const counts = Object.fromEntries(names.map((name) => [name, 0])) as Record<Name, number>;
  return {
    saw: (name) => void counts[name]++,
    counts,
    expectEach: (least = 1) => {
      const short = names.filter((name) => counts[name] < least);
      expect(short, `too few of these cases among ${JSON.stringify(counts)}`).toEqual([]);
    },
  };
}

export interface Draws {
  /** Start of the draws; it is not used when `FRESH_DRAWS` is set. */
  readonly seed: number;
  readonly numRuns?: number;
  /** What the draws must have exercised, each kind at least `least` times (once if it is not given). */
  readonly seen?: { readonly expectEach: (least?: number) => void };
  readonly least?: number;
}

/**
 * Holds a property against drawn cases, and then against the tally of what they exercised.
 * With `FRESH_DRAWS=1` in the environment the seed is random; a failure prints the one it found.
 */
export function forAll<Ts>(
  property: fc.IRawProperty<Ts>,
  { seed, numRuns = 100, seen, least = 1 }: Draws,
): void {
  fc.assert(property, process.env['FRESH_DRAWS'] ? { numRuns } : { numRuns, seed });
  seen?.expectEach(least);
}
