/**
 * Milestones of a cure over a temperature profile, and their exact inverses.
 *
 * While the resin is soft the dose alone decides. From the moment at which Tg stands so far over the
 * temperature that a stiff resin slows, the rate is integrated with its diffusion factor, in closed
 * form over every segment of constant temperature (see kinetics.ts). Degrees of cure of two starts
 * never cross, so that a later start never ends earlier on either side of the switch.
 */
import type { Milestone } from '../document/schema.ts';
import type { Minute } from '../time/instant.ts';
import { doseTable, UNITS_PER_HOUR } from './dose.ts';
import { temperatureRange } from './profile.ts';
import { clockRate, type Side, type SlopeKind } from './rate.ts';
import { stiffWalk, type CureState } from './stiff-walk.ts';
import type { CureClock, CureModel, TemperatureProfile } from './types.ts';

export interface ClockOptions {
  /** Which way uncertainty is taken; as fitted when absent. */
  readonly side?: Side;
  /**
   * Lowest temperature at which the hardener may be used, C. Time below it does not count, but for
   * the early side: a cure that stays below is never reached, one that is warmed again goes on from
   * where it stood.
   */
  readonly minimumC?: number;
  /** Dose that the resin has already had when the clock starts, equivalent hours. */
  readonly headHours?: number;
}

/** The clock over one known profile, which also says how far the resin has come. */
export interface StatefulClock extends CureClock {
  /** Dose in equivalent hours between two minutes. */
  doseHours(from: Minute, to: Minute): number;
  /** Lowest and highest temperature met between two minutes, C. */
  range(from: Minute, to: Minute): { minC: number; maxC: number };
  /** State at `at` of a cure started at `start`; both within the profile and in order. */
  stateAt(start: Minute, at: Minute): CureState;
  /**
   * First whole minute at which the cure slows for stiffness; null when it never does within the
   * profile or the model has no curve.
   */
  slowsFrom(start: Minute): Minute | null;
}

/** First stride back from what the dose alone would allow, min. */
const FIRST_BACK_MINUTES = 64;

export type ClockModel = Pick<
  CureModel,
  'referenceC' | 'activationEnergyJMol' | 'doseHours' | 'kinetics' | 'slopes'
>;

/**
 * The clock of one resin over one profile (contiguous segments in order of time).
 * By dose every answer takes O(log n) of the number of segments; where the cure slows, the segments
 * from there to the milestone are walked. Starts outside the profile are never reached; nothing is
 * reached after the profile's end.
 * @throws Error when the profile is empty, or has a gap or overlap between segments.
 */
export function cureClock(
  model: ClockModel,
  profile: TemperatureProfile,
  options: ClockOptions = {},
): StatefulClock {
  const cure = clockOfSlope(model, profile, options, 'cure');
  if (options.side !== 'early' || !model.slopes?.cure) return cure;
  // Open time goes by the flatter tables of pot life; all else by those of the cure.
  const pot = clockOfSlope(model, profile, options, 'pot');
  const of = (milestone: Milestone): CureClock => (milestone === 'open' ? pot : cure);
  return {
    ...cure,
    reached: (start, milestone) => of(milestone).reached(start, milestone),
    latestStart: (end, milestone) => of(milestone).latestStart(end, milestone),
    earliestStart: (end, milestone) => of(milestone).earliestStart(end, milestone),
  };
}

function clockOfSlope(
  model: ClockModel,
  profile: TemperatureProfile,
  { side = 'fitted', minimumC, headHours = 0 }: ClockOptions,
  kind: SlopeKind,
): StatefulClock {
  const doses = doseTable(clockRate(model, side, kind, minimumC), profile);
  const head = Math.round(headHours * UNITS_PER_HOUR);
  const stiff = model.kinetics ? stiffWalk(model.kinetics, profile, doses, head) : null;
  const { first, last } = doses;

  const targetOf = (milestone: Milestone): number | null => {
    const hours = model.doseHours[milestone];
    return hours === null ? null : Math.round(hours * UNITS_PER_HOUR);
  };

  const reachedBy = (start: Minute, target: number): Minute | null => {
    if (start < first || start > last) return null;
    if (stiff && target > stiff.softUnits) return stiff.reached(start, target);
    const minute = doses.firstAtLeast(doses.at(start) + target - head);
    return minute === null ? null : Math.max(minute, Math.ceil(start));
  };

  /** Largest whole start whose dose alone is reached by `end`: stiffness can only make it earlier. */
  const latestByDose = (end: Minute, target: number): Minute | null => {
    if (end < first) return null;
    const until = Math.min(Math.floor(end), last);
    const start = doses.lastAtMost(doses.at(until) - Math.max(0, target - head));
    return start === null ? null : Math.min(start, until);
  };

  const latestBy = (end: Minute, target: number): Minute | null => {
    const byDose = latestByDose(end, target);
    if (byDose === null || !stiff || target <= stiff.softUnits) return byDose;
    const inTime = (start: Minute): boolean => {
      const reached = reachedBy(start, target);
      return reached !== null && reached <= end;
    };
    // Stiffness seldom takes more than hours: looked for close by first, then ever further back.
    let [low, high] = [byDose, byDose + 1];
    for (let back = FIRST_BACK_MINUTES; !inTime(low); back *= 2) {
      if (low === first) return null;
      high = low;
      low = Math.max(first, low - back);
    }
    while (high - low > 1) {
      const middle = Math.floor((low + high) / 2);
      if (inTime(middle)) low = middle;
      else high = middle;
    }
    return low;
  };

  return {
    reached(start, milestone) {
      const target = targetOf(milestone);
      return target === null ? null : reachedBy(start, target);
    },
    latestStart(end, milestone) {
      const target = targetOf(milestone);
      return target === null ? null : latestBy(end, target);
    },
    earliestStart(end, milestone) {
      const target = targetOf(milestone);
      if (target === null) return null;
      // One minute after the last start that has reached the milestone before `end`.
      const tooEarly = latestBy(Math.ceil(end) - 1, target);
      const start = tooEarly === null ? first : tooEarly + 1;
      return reachedBy(start, target) === null ? null : start;
    },
    doseHours: (from, to) => (doses.at(to) - doses.at(from)) / UNITS_PER_HOUR,
    range: (from, to) => temperatureRange(profile, from, to),
    stateAt(start, at) {
      if (stiff) return stiff.stateAt(start, at);
      const hours = (head + doses.at(at) - doses.at(start)) / UNITS_PER_HOUR;
      return { doseHours: hours, degree: null, tgC: null, slowed: false };
    },
    slowsFrom: (start) => stiff?.slowsFrom(start) ?? null,
  };
}
