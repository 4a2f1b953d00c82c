/**
 * Dose over a temperature profile, counted in whole units (about 2^-22 of a minute at the reference
 * temperature), so that sums are exact: a profile cut into other pieces gives the same minute.
 */
import type { Minute } from '../time/instant.ts';
import type { TemperatureProfile } from './types.ts';

/** Dose units in one minute at the reference temperature. */
const UNITS_PER_MINUTE = 2 ** 22;
export const UNITS_PER_HOUR = 60 * UNITS_PER_MINUTE;

/** Prefix sums of the dose at the segments' ends, and both ways of reading them. */
export interface DoseTable {
  readonly first: Minute;
  readonly last: Minute;
  /** Dose units per minute of a segment. */
  readonly rates: Float64Array;
  /** Segment that holds a minute; -1 before the profile, the count of segments at or after its end. */
  segmentAt(minute: Minute): number;
  /** Dose units from the profile's start to a minute; constant outside the profile. */
  at(minute: Minute): number;
  /** First whole minute with at least this dose since the profile's start; null when never. */
  firstAtLeast(dose: number): Minute | null;
  /** Last whole minute within the profile with at most this dose since its start; null when none. */
  lastAtMost(dose: number): Minute | null;
}

/** Rates of temperatures remembered while a table is made; a power of two. */
const RATE_CACHE_SIZE = 32;

/**
 * @param rateAt pace at a temperature, C, over that at the reference temperature; 0: time does not count
 * @throws Error when the profile is empty, or has a gap or overlap between segments
 */
export function doseTable(
  rateAt: (temperatureC: number) => number,
  profile: TemperatureProfile,
): DoseTable {
  if (profile.length === 0) throw new Error('A temperature profile needs at least one segment.');
  const count = profile.length;
  const starts = new Float64Array(count + 1);
  const rates = new Float64Array(count);
  const sums = new Float64Array(count + 1);
  // The same few temperatures come back day after day: each slot remembers the last of its own.
  const knownC = new Float64Array(RATE_CACHE_SIZE).fill(NaN);
  const knownUnits = new Float64Array(RATE_CACHE_SIZE);
  let from = profile[0]!.start;
  for (let i = 0; i < count; i++) {
    const { start, end, temperatureC } = profile[i]!;
    if (end < start || start !== from) {
      throw new Error(
        `Segment ${i + 1} of the temperature profile does not follow the one before.`,
      );
    }
    const slot = (temperatureC * 10) & (RATE_CACHE_SIZE - 1);
    if (knownC[slot] !== temperatureC) {
      knownC[slot] = temperatureC;
      knownUnits[slot] = Math.round(rateAt(temperatureC) * UNITS_PER_MINUTE);
    }
    const rate = knownUnits[slot]!;
    starts[i] = start;
    rates[i] = rate;
    sums[i + 1] = sums[i]! + rate * (end - start);
    from = end;
  }
  starts[count] = profile[count - 1]!.end;

  const segmentAt = (minute: Minute): number => lastIndexAtMost(starts, minute);
  return {
    first: starts[0]!,
    last: starts[count]!,
    rates,
    segmentAt,
    at(minute) {
      const i = segmentAt(minute);
      if (i < 0) return 0;
      if (i >= count) return sums[count]!;
      return sums[i]! + rates[i]! * (minute - starts[i]!);
    },
    firstAtLeast(dose) {
      if (dose <= 0) return starts[0]!;
      if (dose > sums[count]!) return null;
      const i = firstIndexAtLeast(sums, dose) - 1;
      return starts[i]! + Math.ceil((dose - sums[i]!) / rates[i]!);
    },
    lastAtMost(dose) {
      if (dose < 0) return null;
      const i = lastIndexAtMost(sums, dose);
      if (i >= count) return starts[count]!;
      return starts[i]! + Math.floor((dose - sums[i]!) / rates[i]!);
    },
  };
}

/** Largest i whose key is at or below the value; -1 when there is none. Keys never fall. */
function lastIndexAtMost(keys: Float64Array, value: number): number {
  let low = 0;
  let high = keys.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (keys[middle]! <= value) low = middle + 1;
    else high = middle;
  }
  return low - 1;
}

/** Smallest i whose key is at or above the value; the length when there is none. */
function firstIndexAtLeast(keys: Float64Array, value: number): number {
  let low = 0;
  let high = keys.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (keys[middle]! >= value) high = middle;
    else low = middle + 1;
  }
  return low;
}
