/** Drying and hardening times that a data sheet states at 20 C, in the room as it is. */
import { cureClock } from '../../cure/clock.ts';
import type { CureModel, TemperatureProfile } from '../../cure/types.ts';
import type { MonotoneMap } from '../problem.ts';

/** Temperature at which fillers, primers and clear coats state their times, C. */
const SHEET_C = 20;

/**
 * A wait of so many hours at 20 C as a map from its start to its end. Fillers and two-pack coats
 * are taken to slow with the cold as the resin does (rate by the resin's activation energy).
 */
export function waitMap(
  model: CureModel,
  profile: TemperatureProfile,
  hoursAt20C: number,
): MonotoneMap {
  const { activationEnergyJMol } = model;
  const doseHours = { ...model.doseHours, full: hoursAt20C };
  const clock = cureClock({ referenceC: SHEET_C, activationEnergyJMol, doseHours }, profile);
  return {
    apply: (x) => clock.reached(x, 'full'),
    latest: (y) => clock.latestStart(y, 'full'),
    earliest: (y) => clock.earliestStart(y, 'full'),
  };
}
