/** What the bench saw, put back into the model: a smear corrects the film, a leftover cup the pot. */
import type { Minute } from '../time/instant.ts';
import { cureClock } from './clock.ts';
import { potLifeMinutes } from './cup.ts';
import { cupCase, type BatchCase } from './pot.ts';
import type { PracticeLookup } from './practice.ts';
import type { CureModel, TemperatureProfile } from './types.ts';

export interface Calibration {
  readonly model: CureModel;
  /** Seen over expected: above 1 the resin was slower than the sheet. */
  readonly factor: number;
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
): Calibration | null {
  const expected = model.doseHours.gel;
  if (expected === null || gel <= mixed) return null;
  const first = profile[0];
  const last = profile[profile.length - 1];
  if (!first || !last || mixed < first.start || gel > last.end) return null;
  const factor = cureClock(model, profile).doseHours(mixed, gel) / expected;
  if (!(factor > 0)) return null;
  const doseHours = { ...model.doseHours };
  for (const milestone of Object.keys(doseHours) as (keyof typeof doseHours)[]) {
    const dose = doseHours[milestone];
    doseHours[milestone] = dose === null ? null : dose * factor;
  }
  const { kinetics } = model;
  return {
    factor,
    model: {
      ...model,
      doseHours,
      ...(kinetics && {
        kinetics: { ...kinetics, ratePerHour: kinetics.ratePerHour / factor },
        // Same degrees of cure, reached later; the cup's own pace is kept by `rateFactor`.
        pot: model.pot && { ...model.pot, rateFactor: (model.pot.rateFactor ?? 1) * factor },
      }),
    },
  };
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
): Calibration | null {
  if (!model.pot) return null;
  const { pot } = model;
  const now = pot.rateFactor ?? 1;
  const withRate = (rateFactor: number): CureModel => ({ ...model, pot: { ...pot, rateFactor } });
  const lasts = (rateFactor: number): number =>
    potLifeMinutes(cupCase(withRate(rateFactor), batch, practice));
  const expected = lasts(now);
  let [slow, fast] = [now / WIDEST, now * WIDEST];
  if (!(lasts(slow) >= minutes && lasts(fast) <= minutes)) return null;
  for (let i = 0; i < ROUNDS; i++) {
    const middle = Math.sqrt(slow * fast);
    if (lasts(middle) > minutes) slow = middle;
    else fast = middle;
  }
  return { model: withRate(Math.sqrt(slow * fast)), factor: minutes / expected };
}
