/** The batch in its cup, by the fitted curve. */
import { cupCurve, largestBatchG, potLifeMinutes, type CupCase, type CupResult } from './cup.ts';
import { usualCup, usualVessel } from './nominal.ts';
import type { PracticeLookup } from './practice.ts';
import type { CureModel } from './types.ts';

/** Minutes that a mass (g) in a cup stays workable, resin and room at one temperature (C). */
export type PotLife = (massG: number, temperatureC: number) => number;

/** A batch to ask 'what if' of. */
export interface BatchCase {
  readonly massG: number;
  readonly roomC: number;
  /** Resin when mixed; the room's when absent. */
  readonly resinC?: number;
  readonly vessel?: 'cup' | 'tray';
  /** Depth of the fill in a tray; practice when absent. */
  readonly depthMm?: number;
}

/**
 * The case of a batch in its vessel, with the heat loss that the sheet's own pot life rows showed.
 * @throws Error when the model has no curve (a model made by hand)
 */
export function cupCase(model: CureModel, batch: BatchCase, practice: PracticeLookup): CupCase {
  if (!model.kinetics || !model.pot) throw new Error('The model has no curve to heat a cup by.');
  const usual = usualVessel(batch.vessel ?? 'cup', practice);
  const vessel = {
    ...usual,
    depthMm: batch.depthMm ?? usual.depthMm,
    lossWM2K: usual.lossWM2K * model.pot.lossFactor,
  };
  return usualCup(
    {
      massG: batch.massG,
      roomC: batch.roomC,
      ...(batch.resinC === undefined ? {} : { resinC: batch.resinC }),
      vessel,
    },
    { ...model.kinetics, ratePerHour: model.kinetics.ratePerHour * (model.pot.rateFactor ?? 1) },
    model.pot.openDegree,
    practice,
  );
}

/** Pot life of a resin as a function of mass and temperature; answers are kept. */
export function potLifeOf(model: CureModel, practice: PracticeLookup): PotLife {
  const kept = new Map<string, number>();
  return (massG, temperatureC) => {
    const key = `${massG} ${temperatureC}`;
    let minutes = kept.get(key);
    if (minutes === undefined) {
      minutes = potLifeMinutes(cupCase(model, { massG, roomC: temperatureC }, practice));
      kept.set(key, minutes);
    }
    return minutes;
  };
}

/** Peak of a batch left standing in its cup, C, as a function of mass (g) and temperature (C). */
export function peakOf(
  model: CureModel,
  practice: PracticeLookup,
): (massG: number, temperatureC: number) => number {
  const kept = new Map<string, number>();
  return (massG, temperatureC) => {
    const key = `${massG} ${temperatureC}`;
    let peakC = kept.get(key);
    if (peakC === undefined) {
      ({ peakC } = batchCurve(model, { massG, roomC: temperatureC }, practice));
      kept.set(key, peakC);
    }
    return peakC;
  };
}

/** Temperature, degree of cure, pot life and peak of a batch over `hours` (24 unless said). */
export function batchCurve(
  model: CureModel,
  batch: BatchCase,
  practice: PracticeLookup,
  hours = 24,
): CupResult {
  return cupCurve(cupCase(model, batch, practice), hours);
}

/** Largest batch, g, that stays workable for `minutes`; up to 5 kg, 0 when none does. */
export function largestBatchFor(
  model: CureModel,
  minutes: number,
  batch: Omit<BatchCase, 'massG'>,
  practice: PracticeLookup,
): number {
  return largestBatchG((massG) => cupCase(model, { ...batch, massG }, practice), minutes, 5000);
}
