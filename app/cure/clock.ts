/**
 * Milestones of a cure over a temperature profile, and their exact inverses.
 *
 * The dose is counted in whole units (about 2^-22 of a minute at the reference temperature), so
 * that sums are exact: a profile cut into other pieces gives the same minute, and reached,
 * latestStart and earliestStart are inverses of each other without tolerance.
 */
import type { Milestone } from '../build/schema.ts';
import { MINUTES_PER_HOUR, type Minute } from '../time/instant.ts';
import { rateFactor } from './arrhenius.ts';
import { temperatureRange } from './profile.ts';
import type { CureClock, CureModel, TemperatureProfile } from './types.ts';

/** Dose units in one minute at the reference temperature. */
const UNITS_PER_MINUTE = 2 ** 22;

export interface ClockOptions {
  /**
   * Lowest temperature at which the hardener may be used, C. Time below it does not count: a cure
   * that stays below is never reached, one that is warmed again goes on from where it stood.
   */
  readonly minimumC?: number;
}

/**
 * The clock of one resin over one profile (contiguous segments in order of time).
 * Every answer takes O(log n) of the number of segments. Starts outside the profile are never
 * reached; nothing is reached after the profile's end.
 * @throws Error when the profile is empty, or has a gap or overlap between segments.
 */
export function cureClock(
  model: Pick<CureModel, 'referenceC' | 'activationEnergyJMol' | 'doseHours'>,
  profile: TemperatureProfile,
  options: ClockOptions = {},
): CureClock {
  const doses = doseTable(model, profile, options.minimumC ?? -Infinity);
  const first = profile[0]!.start;
  const last = profile[profile.length - 1]!.end;
  const { at, firstAtLeast, lastAtMost } = doses;

  const targetOf = (milestone: Milestone): number | null => {
    const hours = model.doseHours[milestone];
    return hours === null ? null : Math.round(hours * MINUTES_PER_HOUR * UNITS_PER_MINUTE);
  };

  const reached = (start: Minute, milestone: Milestone): Minute | null => {
    const target = targetOf(milestone);
    if (target === null || start < first || start > last) return null;
    const minute = firstAtLeast(at(start) + target);
    return minute === null ? null : Math.max(minute, Math.ceil(start));
  };

  return {
    reached,
    latestStart(end, milestone) {
      const target = targetOf(milestone);
      if (target === null || end < first) return null;
      const until = Math.min(Math.floor(end), last);
      const start = lastAtMost(at(until) - target);
      return start === null ? null : Math.min(start, until);
    },
    earliestStart(end, milestone) {
      const target = targetOf(milestone);
      if (target === null) return null;
      // The first start that has not reached the milestone one minute before `end`.
      const before = Math.ceil(end) - 1;
      let start = first;
      if (before >= first) {
        const tooEarly = lastAtMost(at(Math.min(before, last)) - target);
        if (tooEarly !== null) start = Math.min(tooEarly, before) + 1;
      }
      return reached(start, milestone) === null ? null : start;
    },
    doseHours: (from, to) => (at(to) - at(from)) / (UNITS_PER_MINUTE * MINUTES_PER_HOUR),
    range: (from, to) => temperatureRange(profile, from, to),
  };
}

/** Prefix sums of the dose at the segments' ends, and both ways of reading them. */
function doseTable(
  model: Pick<CureModel, 'referenceC' | 'activationEnergyJMol'>,
  profile: TemperatureProfile,
  minimumC: number,
) {
  if (profile.length === 0) throw new Error('A temperature profile needs at least one segment.');
  const count = profile.length;
  const starts = new Float64Array(count + 1);
  const rates = new Float64Array(count);
  const sums = new Float64Array(count + 1);
  profile.forEach((segment, i) => {
    const previous = profile[i - 1];
    if (segment.end < segment.start || (previous && previous.end !== segment.start)) {
      throw new Error(
        `Segment ${i + 1} of the temperature profile does not follow the one before.`,
      );
    }
    const factor =
      segment.temperatureC < minimumC
        ? 0
        : rateFactor(model.activationEnergyJMol, segment.temperatureC, model.referenceC);
    starts[i] = segment.start;
    rates[i] = Math.round(factor * UNITS_PER_MINUTE);
    sums[i + 1] = sums[i]! + rates[i]! * (segment.end - segment.start);
  });
  starts[count] = profile[count - 1]!.end;

  /** Largest i whose key is at or below the value; -1 when there is none. */
  const lastIndexAtMost = (keys: Float64Array, value: number): number => {
    let low = 0;
    let high = count + 1;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (keys[middle]! <= value) low = middle + 1;
      else high = middle;
    }
    return low - 1;
  };

  const at = (minute: Minute): number => {
    const i = lastIndexAtMost(starts, minute);
    if (i < 0) return 0;
    if (i >= count) return sums[count]!;
    return sums[i]! + rates[i]! * (minute - starts[i]!);
  };

  return {
    at,
    /** First whole minute with at least this dose since the profile's start. */
    firstAtLeast(dose: number): Minute | null {
      if (dose <= 0) return starts[0]!;
      if (dose > sums[count]!) return null;
      let low = 0;
      let high = count;
      while (low < high) {
        const middle = (low + high) >> 1;
        if (sums[middle]! >= dose) high = middle;
        else low = middle + 1;
      }
      const i = low - 1;
      return starts[i]! + Math.ceil((dose - sums[i]!) / rates[i]!);
    },
    /** Last whole minute within the profile with at most this dose since its start. */
    lastAtMost(dose: number): Minute | null {
      if (dose < 0) return null;
      const i = lastIndexAtMost(sums, dose);
      if (i >= count) return starts[count]!;
      return starts[i]! + Math.floor((dose - sums[i]!) / rates[i]!);
    },
  };
}
