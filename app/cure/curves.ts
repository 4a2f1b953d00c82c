/** Curves for a chart: a fitted sheet over its rows, a cure over its time. */
import type { Milestone } from '../document/schema.ts';
import type { Minute } from '../time/instant.ts';
import { rateFactor } from './arrhenius.ts';
import type { StatefulClock } from './clock.ts';
import { cureCurveTable } from './kinetics.ts';
import { temperatureAt } from './profile.ts';
import type { CureModel, TemperatureProfile } from './types.ts';

/**
 * Minutes of a film to a milestone at a steady temperature, slowing included; null when the
 * milestone is unknown. Pot life is `potLifeOf` of pot.ts: it depends on the mass.
 */
export function filmMinutes(
  model: CureModel,
  milestone: Milestone,
  temperatureC: number,
): number | null {
  const dose = model.doseHours[milestone];
  if (dose === null) return null;
  const rate = rateFactor(model.activationEnergyJMol, temperatureC, model.referenceC);
  const { kinetics } = model;
  if (!kinetics) return (dose * 60) / rate;
  const way = cureCurveTable(kinetics.shape, kinetics.glass).at(temperatureC);
  return ((way.spent(dose * kinetics.ratePerHour) / kinetics.ratePerHour) * 60) / rate;
}

export interface ProgressPoint {
  readonly minute: Minute;
  readonly temperatureC: number;
  /** Degree of cure, 0 to 1, and Tg, C; null when the model has no curve. */
  readonly degree: number | null;
  readonly tgC: number | null;
}

/**
 * Temperature, degree of cure and Tg of a cure from `start` to `end` at `count` evenly spaced
 * minutes, both ends included. Both lie within the clock's profile.
 */
export function progressCurve(
  clock: StatefulClock,
  profile: TemperatureProfile,
  start: Minute,
  end: Minute,
  count: number,
): ProgressPoint[] {
  return Array.from({ length: count }, (_, i) => {
    const minute = Math.round(start + ((end - start) * i) / Math.max(1, count - 1));
    const { degree, tgC } = clock.stateAt(start, minute);
    const at = temperatureAt(profile, Math.min(minute, end - 1));
    return { minute, temperatureC: at ?? profile[profile.length - 1]!.temperatureC, degree, tgC };
  });
}
