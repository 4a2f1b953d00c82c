/** Drying and hardening times that a data sheet states at 20 C, in the room as it is. */
import { practiceOf } from '../../document/library.ts';
import { memoByAll } from '../../document/memo.ts';
import { MILESTONES, type Library, type Milestone } from '../../document/schema.ts';
import { cureClock } from '../../cure/clock.ts';
import type { TemperatureProfile } from '../../cure/types.ts';
import type { MonotoneMap } from '../problem.ts';
import { milestoneMap } from './builder.ts';

/** Temperature at which fillers, primers and clear coats state their times, C. */
const SHEET_C = 20;

/**
 * A wait of so many hours at 20 C as a map from its start to its end. Such sheets state one temperature:
 * away from it the slower end of what published drying tables show is taken.
 */
export const waitMap = (
  library: Library,
  profile: TemperatureProfile,
  hoursAt20C: number,
): MonotoneMap =>
  known([library, profile], `${hoursAt20C}`, () => workOut(library, profile, hoursAt20C));

const known = memoByAll<MonotoneMap>();

function workOut(library: Library, profile: TemperatureProfile, hoursAt20C: number): MonotoneMap {
  const practice = practiceOf(library);
  const steepJMol = practice('energy-pot-steep-kj') * 1000;
  const flatJMol = practice('energy-pot-flat-kj') * 1000;
  const cure = { pivotC: SHEET_C, flatJMol, steepJMol };
  const model = {
    referenceC: SHEET_C,
    activationEnergyJMol: steepJMol,
    doseHours: { ...NONE, full: hoursAt20C },
    slopes: { cure, pot: cure },
  };
  return milestoneMap(cureClock(model, profile, { side: 'late' }), 'full');
}

const NONE = Object.fromEntries(MILESTONES.map((milestone) => [milestone, null])) as Record<
  Milestone,
  null
>;
