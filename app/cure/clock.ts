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
import { doseTable, UNITS_PER_HOUR, type DoseTable } from './dose.ts';
import { cureCurveTable, type CurveAtTemperature } from './kinetics.ts';
import { temperatureRange } from './profile.ts';
import type { CureClock, CureModel, TemperatureProfile } from './types.ts';

export interface ClockOptions {
  /**
   * Lowest temperature at which the hardener may be used, C. Time below it does not count: a cure
   * that stays below is never reached, one that is warmed again goes on from where it stood.
   */
  readonly minimumC?: number;
  /** Dose that the resin has already had when the clock starts, equivalent hours. */
  readonly headHours?: number;
}

/** How far a cure has come. */
export interface CureState {
  /** Dose that counts, equivalent hours: what a soft resin would have needed to get here. */
  readonly doseHours: number;
  /** Degree of cure, 0 to 1, and its glass transition; null when the model has no curve. */
  readonly degree: number | null;
  readonly tgC: number | null;
  /** True once Tg has come so far over the temperature that the cure slows. */
  readonly slowed: boolean;
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
  'referenceC' | 'activationEnergyJMol' | 'doseHours' | 'kinetics'
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
  const minimumC = options.minimumC ?? -Infinity;
  const doses = doseTable(model, profile, minimumC);
  const head = Math.round((options.headHours ?? 0) * UNITS_PER_HOUR);
  const stiff = model.kinetics ? stiffWalk(model, profile, doses, head) : null;
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

/**
 * The walk over segments once the resin is stiff. Doses are in units, as in `doses`. Answers are
 * kept: a scheduler asks for the same starts over and over.
 */
function stiffWalk(model: ClockModel, profile: TemperatureProfile, doses: DoseTable, head: number) {
  const kinetics = model.kinetics!;
  const table = cureCurveTable(kinetics.shape, kinetics.glass);
  const perUnit = kinetics.ratePerHour / UNITS_PER_HOUR;
  const byTemperature = new Map<number, CurveAtTemperature>();
  const curveAt = (temperatureC: number): CurveAtTemperature => {
    let curve = byTemperature.get(temperatureC);
    if (!curve) byTemperature.set(temperatureC, (curve = table.at(temperatureC)));
    return curve;
  };
  /** Below this dose nothing slows anywhere in the profile. */
  let [coldestC, hottestC, fastest] = [Infinity, -Infinity, 0];
  for (let i = 0; i < profile.length; i++) {
    const { temperatureC } = profile[i]!;
    if (temperatureC < coldestC) coldestC = temperatureC;
    if (temperatureC > hottestC) hottestC = temperatureC;
    if (doses.rates[i]! > fastest) fastest = doses.rates[i]!;
  }
  const softUnits = Math.floor(curveAt(coldestC).slowsFrom / perUnit);
  const kept = new Map<number, Map<Minute, Minute | null>>();

  /** False where even the hottest of the profile all the time would not get from y to a goal. */
  const inTimeAtBest = (y: number, goal: number, minutes: number): boolean => {
    const curve = curveAt(hottestC);
    return (
      curve.spentAtNode(goal) - curve.spentAtNode(y) <= fastest * perUnit * minutes * (1 + 1e-9)
    );
  };

  /**
   * Follows a cure to `until`, or to the place `stopAt` on the curve, or (stopAt 'slow') to where it
   * first slows; whichever is first.
   */
  const walk = (start: Minute, until: Minute, stopAt: number | 'slow') => {
    // All that is soft goes by dose in one step.
    const softEnd = doses.firstAtLeast(doses.at(start) + softUnits - head);
    const from = Math.min(until, softEnd === null ? doses.last : Math.max(start, softEnd - 1));
    let y = table.nodeAtDose((head + doses.at(from) - doses.at(start)) * perUnit);
    let minute: number = from;
    let slowed = false;
    if (stopAt !== 'slow' && stopAt < Infinity && !inTimeAtBest(y, stopAt, until - from)) {
      return { minute: until, y, slowed, stopped: false };
    }
    for (let i = Math.max(0, doses.segmentAt(from)); i < profile.length && minute < until; i++) {
      const end = Math.min(until, profile[i]!.end);
      const ratePerMinute = doses.rates[i]! * perUnit;
      if (ratePerMinute > 0 && end > minute) {
        const curve = curveAt(profile[i]!.temperatureC);
        const goal = stopAt === 'slow' ? Math.max(y, curve.slowsFromNode) : stopAt;
        const spent = curve.spentAtNode(y);
        const need = (curve.spentAtNode(goal) - spent) / ratePerMinute;
        if (need <= end - minute)
          return { minute: minute + Math.max(0, need), y: goal, slowed, stopped: true };
        y = Math.max(y, curve.nodeBy(spent + ratePerMinute * (end - minute)));
        slowed = y >= curve.slowsFromNode;
      }
      minute = end;
    }
    return { minute, y, slowed, stopped: false };
  };
  const wholeMinute = (result: { minute: number; stopped: boolean }): Minute | null =>
    result.stopped ? Math.ceil(result.minute - 1e-9) : null;

  return {
    softUnits,
    reached(start: Minute, target: number): Minute | null {
      let answers = kept.get(target);
      if (!answers) kept.set(target, (answers = new Map()));
      let answer = answers.get(start);
      if (answer === undefined) {
        answer = wholeMinute(walk(start, doses.last, table.nodeAtDose(target * perUnit)));
        answers.set(start, answer);
      }
      return answer;
    },
    slowsFrom(start: Minute): Minute | null {
      if (start < doses.first || start > doses.last) return null;
      return wholeMinute(walk(start, doses.last, 'slow'));
    },
    stateAt(start: Minute, at: Minute): CureState {
      const { y, slowed } = walk(start, Math.min(at, doses.last), Infinity);
      return {
        doseHours: table.doseAtNode(y) / kinetics.ratePerHour,
        degree: table.degreeAtNode(y),
        tgC: table.tgAtNode(y),
        slowed,
      };
    },
  };
}
