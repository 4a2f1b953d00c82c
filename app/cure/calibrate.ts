/** What the bench saw, put back into the model: a smear corrects the film, a leftover cup the pot. */
import type { HardenerRow } from '../document/schema.ts';
import type { Minute } from '../time/instant.ts';
import { NO_CORRECTION, speedUpCup, slowFilm, type BenchCorrection } from './bench.ts';
import { cureClock, type ClockOptions } from './clock.ts';
import { potLifeMinutes } from './cup.ts';
import { cupCase, type BatchCase } from './pot.ts';
import type { PracticeLookup } from './practice.ts';
import type { CureModel, TemperatureProfile } from './types.ts';

export interface Calibration {
  readonly model: CureModel;
  /** Seen over expected: above 1 the resin was slower than the sheet. */
  readonly factor: number;
}

export interface CupCalibration extends Calibration {
  /** Pace of the reaction in the cup over what was expected; it is no mere inverse of the times. */
  readonly pace: number;
}

/**
 * The smear on the flange gelled at `gel`: every dose of the film is stretched so that it does. The
 * pot, which heats itself, keeps its own time.
 * @returns null when the clock cannot say (gel before the mix, outside the profile, no gel dose)
 */
export function filmFromSmear(
  model: CureModel,
  profile: TemperatureProfile,
  mixed: Minute,
  gel: Minute,
  options: Pick<ClockOptions, 'minimumC'> = {},
): Calibration | null {
  const expected = model.doseHours.gel;
  if (expected === null || gel <= mixed) return null;
  const first = profile[0];
  const last = profile[profile.length - 1];
  if (!first || !last || mixed < first.start || gel > last.end) return null;
  const factor = cureClock(model, profile, options).doseHours(mixed, gel) / expected;
  if (!(factor > 0)) return null;
  return { factor, model: slowFilm(model, factor) };
}

const ROUNDS = 40;
const WIDEST = 8;

/**
 * A leftover cup was given up after `minutes`: the pot's pace is set so that such a cup lasts as
 * long. The film's doses stay as they are: a cup gels several times sooner than the laminate.
 * @returns null when no pace within a factor of eight explains it
 */
export function potFromCup(
  model: CureModel,
  batch: BatchCase,
  minutes: number,
  practice: PracticeLookup,
): CupCalibration | null {
  if (!model.pot) return null;
  const lasts = (pace: number): number =>
    potLifeMinutes(cupCase(speedUpCup(model, pace), batch, practice));
  const expected = lasts(1);
  let [slow, fast] = [1 / WIDEST, WIDEST];
  if (!(lasts(slow) >= minutes && lasts(fast) <= minutes)) return null;
  for (let i = 0; i < ROUNDS; i++) {
    const middle = Math.sqrt(slow * fast);
    if (lasts(middle) > minutes) slow = middle;
    else fast = middle;
  }
  const pace = Math.sqrt(slow * fast);
  return { model: speedUpCup(model, pace), factor: minutes / expected, pace };
}

/**
 * The correction beside the sheet after a smear. It multiplies the one before it, since the smear was
 * compared with the clock as corrected by then.
 */
export const benchAfterSmear = (
  bench: HardenerRow['bench'],
  { factor }: Calibration,
): BenchCorrection => {
  const before = bench ?? NO_CORRECTION;
  return { ...before, filmTimes: before.filmTimes * factor };
};

/** The same after a leftover cup. */
export const benchAfterCup = (
  bench: HardenerRow['bench'],
  { pace }: CupCalibration,
): BenchCorrection => {
  const before = bench ?? NO_CORRECTION;
  return { ...before, cupPace: before.cupPace * pace };
};
