/** The fitted sheet corrected by what the bench saw: smear for the film, leftover cup for the pot. */
import type { HardenerRow } from '../document/schema.ts';
import { cureText } from './words.ts';
import type { CureModel } from './types.ts';

export type BenchCorrection = NonNullable<HardenerRow['bench']>;

/** No correction: times and pace of the sheet as they are. */
export const NO_CORRECTION: BenchCorrection = { filmTimes: 1, cupPace: 1 };

/**
 * The model with every time of the film `factor` times as long. The pot keeps its own times, since the
 * batch heats itself.
 */
export function slowFilm(model: CureModel, factor: number): CureModel {
  const doseHours = { ...model.doseHours };
  for (const milestone of Object.keys(doseHours) as (keyof typeof doseHours)[]) {
    const dose = doseHours[milestone];
    doseHours[milestone] = dose === null ? null : dose * factor;
  }
  const { kinetics, pot } = model;
  return {
    ...model,
    doseHours,
    ...(kinetics && {
      kinetics: { ...kinetics, ratePerHour: kinetics.ratePerHour / factor },
      // Same degrees of cure, reached later; the cup's own pace is kept by `rateFactor`.
      ...(pot && { pot: { ...pot, rateFactor: (pot.rateFactor ?? 1) * factor } }),
    }),
  };
}

/** The model with a reaction in the cup `factor` times as fast; no time of the film changes. */
export const speedUpCup = (model: CureModel, factor: number): CureModel =>
  model.pot
    ? { ...model, pot: { ...model.pot, rateFactor: (model.pot.rateFactor ?? 1) * factor } }
    : model;

/**
 * The model with the corrections of smear and leftover cup applied; its assumptions say so.
 * @param bench factors of film times and of the cup's pace; undefined: the sheet's own curve
 */
export function withBench(model: CureModel, bench: HardenerRow['bench']): CureModel {
  if (!bench) return model;
  const { filmTimes, cupPace } = bench;
  const corrected = speedUpCup(slowFilm(model, filmTimes), cupPace);
  return {
    ...corrected,
    assumptions: [
      ...model.assumptions,
      ...(filmTimes === 1 ? [] : [cureText.smearSaid(filmTimes)]),
      ...(cupPace === 1 ? [] : [cureText.cupSaid(cupPace)]),
    ],
  };
}
