/** The batch in its cup, by the fitted curve. */
import { cupCurve, largestBatchG, potLifeMinutes, type CupCase, type CupResult } from './cup.ts';
import { usualCup, usualVessel } from './nominal.ts';
import type { PracticeLookup } from './practice.ts';
import { clockRate } from './rate.ts';
import type { CureModel } from './types.ts';

/**
 * Minutes that a mass (g) in a cup stays workable in a room (C); the resin as warm as the room, unless
 * its own temperature when mixed (C) is given.
 */
export type PotLife = (massG: number, roomC: number, resinC?: number) => number;

/** Temperature of resin and hardener when they are mixed, C: warmed, or as warm as a warmer room. */
export const mixedC = (roomC: number, practice: PracticeLookup): number =>
  Math.max(roomC, practice('resin-mixed-c'));

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
  const cup = usualCup(
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
  const paceAt = earlyPace(model);
  return paceAt ? { ...cup, paceAt } : cup;
}

/**
 * Where the sheet leaves the slope of the pot open: below its own temperature the early side, above it the
 * fitted one, by which its rows were read.
 */
function earlyPace(model: CureModel): ((temperatureC: number) => number) | null {
  const range = model.slopes?.pot;
  if (!range) return null;
  const [early, fitted] = [clockRate(model, 'early', 'pot'), clockRate(model, 'fitted')];
  return (temperatureC) => (temperatureC < range.pivotC ? early : fitted)(temperatureC);
}

/** Pot life of a resin as a function of mass, room and resin; answers are kept. */
export function potLifeOf(model: CureModel, practice: PracticeLookup): PotLife {
  const kept = new Map<string, number>();
  return (massG, roomC, resinC = roomC) => {
    const key = `${massG} ${roomC} ${resinC}`;
    let minutes = kept.get(key);
    if (minutes === undefined) {
      minutes = potLifeMinutes(cupCase(model, { massG, roomC, resinC }, practice));
      kept.set(key, minutes);
    }
    return minutes;
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

/**
 * Largest batch, g, that stays workable for `minutes` and does not begin to run away within `heldMinutes`
 * of them, those in which it is spread; no larger than the largest cup of practice, 0 when none does.
 */
export function largestBatchFor(
  model: CureModel,
  minutes: number,
  batch: Omit<BatchCase, 'massG'>,
  practice: PracticeLookup,
  heldMinutes = minutes,
): number {
  const cupOf = (massG: number): CupCase => cupCase(model, { ...batch, massG }, practice);
  return largestBatchG(cupOf, { minutes, heldMinutes }, practice('batch-max-g'));
}
