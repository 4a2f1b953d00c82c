/** Rounding a list so that what is shown adds up to the total that is shown. */
import { UNITS } from './convert.ts';
import { decimals } from './formats.ts';

/**
 * Rounds each value to a whole number of `1 / steps` so that they add up to the rounded total: all are
 * rounded down, and the steps that are left go to those that lost most (largest remainder, as seats
 * are given out by the Hare quota: Balinski and Young, Fair Representation, 1982, from memory). No
 * value moves by a whole step. Ties go to the one that comes first.
 * @param values of any sign and one unit
 * @param steps steps in one unit: 100 for hundredths
 * @param total what they add up to, in the same unit, where it was rounded elsewhere; it must lie
 *   within one step a value of their sum
 * @returns values in the order given
 */
export function roundedToSum(
  values: readonly number[],
  steps: number,
  total: number = values.reduce((sum, value) => sum + value, 0),
): number[] {
  const exact = values.map((value) => value * steps);
  const counts = exact.map((value) => Math.floor(value + ROUNDING_TOLERANCE));
  let left = Math.round(total * steps) - counts.reduce((sum, count) => sum + count, 0);
  const byLoss = exact
    .map((value, i) => ({ i, lost: value - counts[i]! }))
    .toSorted((a, b) => b.lost - a.lost || a.i - b.i);
  for (const { i } of left < 0 ? byLoss.toReversed() : byLoss) {
    if (left === 0) break;
    const step = Math.sign(left);
    counts[i]! += step;
    left -= step;
  }
  // Nothing is written as −0.
  return counts.map((count) => count / steps + 0);
}

/** What binary fractions leave of a whole step. */
const ROUNDING_TOLERANCE = 1e-9;

const KG_STEPS = 100;

/** `6.74 kg (14.86 lb)`: the weight of a part, the same decimals whatever its size. */
export const massWords = (massKg: number): string => massRowWords([massKg])[0]!;

/**
 * The same for the rows of one total: in kilograms and in pounds the rows shown add up to
 * `massWords` of their sum.
 */
export function massRowWords(massesKg: readonly number[]): string[] {
  const kgPerLb = UNITS.massKg[1]!.factor;
  const total = massesKg.reduce((sum, mass) => sum + mass, 0);
  const metric = roundedToSum(massesKg, KG_STEPS);
  const totalKg = Math.round(total * KG_STEPS) / KG_STEPS;
  // Pounds follow from the kilograms that are shown, so that one figure has one companion.
  const customary = roundedToSum(
    metric.map((mass) => mass / kgPerLb),
    KG_STEPS,
    totalKg / kgPerLb,
  );
  return metric.map((mass, i) => `${decimals(mass, 2)} kg (${decimals(customary[i]!, 2)} lb)`);
}

const HOUR_STEPS = 10;

/** `18.2 h`: hours of work, as they are published. */
export const workHoursWords = (hours: number): string => `${decimals(hours, 1)} h`;

/** The same for the rows of one total, in person-minutes: as shown they add up to `workHoursWords` of their sum. */
export const workHoursRowWords = (personMinutes: readonly number[]): string[] =>
  roundedToSum(
    personMinutes.map((minutes) => minutes / 60),
    HOUR_STEPS,
  ).map(workHoursWords);
