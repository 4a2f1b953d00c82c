/** A cure followed segment by segment once the resin is stiff enough to slow. */
import type { Minute } from '../time/instant.ts';
import { UNITS_PER_HOUR, type DoseTable } from './dose.ts';
import { cureCurveTable, type CureKinetics, type CurveAtTemperature } from './kinetics.ts';
import type { TemperatureProfile } from './types.ts';

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

/**
 * The walk over segments once the resin is stiff. Doses are in units, as in `doses`. Answers are
 * kept: a scheduler asks for the same starts over and over.
 */
export function stiffWalk(
  kinetics: CureKinetics,
  profile: TemperatureProfile,
  doses: DoseTable,
  head: number,
) {
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
