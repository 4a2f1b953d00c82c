/**
 * The batch in its cup as one lump: m cp dT/dt = m H d(alpha)/dt - U A (T - Troom).
 * Temperature over time, pot life, peak, and whether it runs away.
 */
import { GAS_CONSTANT, rateFactor, ZERO_C_IN_K } from './arrhenius.ts';
import { integrate, timeOf, within, type Step } from './integrate.ts';
import { shapeRate, type CureKinetics } from './kinetics.ts';

/** What the batch stands in. */
export interface Vessel {
  readonly kind: 'cup' | 'tray';
  /** Cup: height of the fill over its diameter. */
  readonly heightPerDiameter: number;
  /** Tray: depth of the fill, mm. */
  readonly depthMm: number;
  /** Heat loss through wall, bottom and top together, W/(m2 K). */
  readonly lossWM2K: number;
}

export interface CupCase {
  readonly kinetics: CureKinetics;
  readonly massG: number;
  readonly vessel: Vessel;
  readonly roomC: number;
  readonly resinC: number;
  readonly densityKgM3: number;
  readonly heatCapacityJGK: number;
  /** Pace at a temperature, C, over that at the reference; by the activation energy when absent. */
  readonly paceAt?: (temperatureC: number) => number;
  /** Degree of cure at which the mix is too thick to work. */
  readonly openDegree: number;
  /** Temperature at which a cup is given up, C. */
  readonly hottestC: number;
}

export interface CupPoint {
  readonly minutes: number;
  readonly temperatureC: number;
  readonly degree: number;
}

export interface CupResult {
  /** Until too thick or too hot, whichever is first; null when neither comes within `hours`. */
  readonly potLifeMinutes: number | null;
  readonly endedBy: 'thick' | 'hot' | null;
  /** Until it is hotter than heat loss can hold: from then on it runs away; null: not within `hours`. */
  readonly heldMinutes: number | null;
  readonly peakC: number;
  readonly peakMinutes: number;
  /** True when the batch, left standing, got hotter than heat loss can ever hold it. */
  readonly runsAway: boolean;
  readonly curve: readonly CupPoint[];
}

/** Area through which a fill loses heat, m2: wall, bottom and top. */
export function vesselAreaM2(vessel: Vessel, massG: number, densityKgM3: number): number {
  const volumeM3 = massG / 1000 / densityKgM3;
  if (vessel.kind === 'tray') return (2 * volumeM3) / (vessel.depthMm / 1000);
  const diameter = ((4 * volumeM3) / (Math.PI * vessel.heightPerDiameter)) ** (1 / 3);
  return Math.PI * diameter ** 2 * (0.5 + vessel.heightPerDiameter);
}

/**
 * Excess over the room, K, beyond which heat loss cannot hold a reacting lump: the tangent of loss
 * and Arrhenius heat, T - Troom = R T^2 / E (Semenov), solved without the usual approximation.
 * Infinity when the reaction is too little sensitive to temperature to run away.
 */
export function criticalExcessC(activationEnergyJMol: number, roomC: number): number {
  const roomK = roomC + ZERO_C_IN_K;
  const ratio = activationEnergyJMol / GAS_CONSTANT;
  const root = 1 - (4 * roomK) / ratio;
  return root < 0 ? Infinity : (ratio / 2) * (1 - Math.sqrt(root)) - roomK;
}

const TOLERANCE = { relative: 1e-6, absolute: [1e-8, 1e-5] };
const QUICK_TOLERANCE = { relative: 1e-4, absolute: [1e-6, 1e-3] };

const lossPerHour = (cup: CupCase): number => {
  const area = vesselAreaM2(cup.vessel, cup.massG, cup.densityKgM3);
  return (cup.vessel.lossWM2K * area * 3600) / (cup.massG * cup.heatCapacityJGK);
};

/** A fill that loses its heat within a minute stands at the room's temperature: quicker changes nothing. */
const QUICKEST_LOSS_PER_HOUR = 100;

function cupRates(cup: CupCase, loss = lossPerHour(cup)) {
  const { kinetics, roomC, heatCapacityJGK } = cup;
  const { shape, ratePerHour, activationEnergyJMol, referenceC, heatJG } = kinetics;
  const rise = heatJG / heatCapacityJGK;
  const paceAt = cup.paceAt ?? ((c: number) => rateFactor(activationEnergyJMol, c, referenceC));
  return (_hours: number, y: readonly number[], out: number[]): void => {
    const rate = ratePerHour * paceAt(y[1]!) * shapeRate(shape, y[0]!);
    out[0] = rate;
    out[1] = rise * rate - loss * (y[1]! - roomC);
  };
}

/** When, inside a step, the mix is given up; null when it is still workable at the step's end. */
function endOfPotLife(cup: CupCase, step: Step): { hours: number; by: 'thick' | 'hot' } | null {
  const thick = step.y1[0]! >= cup.openDegree ? timeOf(step, 0, cup.openDegree) : Infinity;
  const hot = step.y1[1]! >= cup.hottestC ? timeOf(step, 1, cup.hottestC) : Infinity;
  if (thick === Infinity && hot === Infinity) return null;
  return thick <= hot ? { hours: thick, by: 'thick' } : { hours: hot, by: 'hot' };
}

/**
 * Temperature beyond which a batch runs away, C: R T^2 / E above the room (Semenov), or where the resin
 * started if that is warmer.
 */
const runawayC = ({ kinetics, roomC, resinC }: CupCase): number =>
  Math.max(resinC, roomC + criticalExcessC(kinetics.activationEnergyJMol, roomC));

/** Minutes until the batch is too thick or too hot; Infinity when neither comes within 1000 hours. */
export function potLifeMinutes(cup: CupCase): number {
  if (cup.resinC >= cup.hottestC) return 0;
  let end: number | null = null;
  const loss = Math.min(lossPerHour(cup), QUICKEST_LOSS_PER_HOUR);
  integrate(cupRates(cup, loss), [0, cup.resinC], 0, 1000, {
    ...QUICK_TOLERANCE,
    firstStep: 0.02 / cup.kinetics.ratePerHour,
    onStep(step) {
      end = endOfPotLife(cup, step)?.hours ?? null;
      return end !== null;
    },
  });
  return end === null ? Infinity : end * 60;
}

/** The batch from first contact over `hours`. */
export function cupCurve(cup: CupCase, hours: number): CupResult {
  const startsHot = cup.resinC >= cup.hottestC;
  let potLife: { hours: number; by: 'thick' | 'hot' } | null = startsHot
    ? { hours: 0, by: 'hot' }
    : null;
  let peak = { hours: 0, temperatureC: cup.resinC };
  const limitC = runawayC(cup);
  let held: number | null = null;
  const curve: CupPoint[] = [{ minutes: 0, temperatureC: cup.resinC, degree: 0 }];
  integrate(cupRates(cup), [0, cup.resinC], 0, hours, {
    ...TOLERANCE,
    firstStep: Math.min(hours, 0.001 / cup.kinetics.ratePerHour),
    onStep(step) {
      potLife ??= endOfPotLife(cup, step);
      if (held === null && step.y1[1]! > limitC) held = timeOf(step, 1, limitC);
      const top = topOf(step);
      if (top.temperatureC > peak.temperatureC) peak = top;
      curve.push({ minutes: step.t1 * 60, temperatureC: step.y1[1]!, degree: step.y1[0]! });
      return false;
    },
  });
  return {
    potLifeMinutes: potLife === null ? null : potLife.hours * 60,
    endedBy: potLife?.by ?? null,
    heldMinutes: held === null ? null : held * 60,
    peakC: peak.temperatureC,
    peakMinutes: peak.hours * 60,
    runsAway: peak.temperatureC > limitC,
    curve,
  };
}

/** Highest temperature inside a step, between its ends where the slope changes sign. */
function topOf(step: Step): { hours: number; temperatureC: number } {
  const end = { hours: step.t1, temperatureC: step.y1[1]! };
  if (!(step.slope0[1]! > 0 && step.slope1[1]! < 0)) return end;
  let best = end;
  for (let i = 1; i < 32; i++) {
    const hours = step.t0 + ((step.t1 - step.t0) * i) / 32;
    const temperatureC = within(step, 1, hours);
    if (temperatureC > best.temperatureC) best = { hours, temperatureC };
  }
  return best;
}

/**
 * Largest mass, g, up to `mostG`, that stays workable for `minutes` and no hotter than heat loss can hold
 * for `heldMinutes`; 0 when not even 1 g does. What is left standing after that may still run away.
 * @param cupOf the case for a mass
 */
export function largestBatchG(
  cupOf: (massG: number) => CupCase,
  wanted: { readonly minutes: number; readonly heldMinutes: number },
  mostG: number,
): number {
  const lasts = (massG: number): boolean => {
    const cup = cupOf(massG);
    if (potLifeMinutes(cup) < wanted.minutes) return false;
    const { heldMinutes } = cupCurve(cup, wanted.heldMinutes / 60);
    return heldMinutes === null || heldMinutes >= wanted.heldMinutes;
  };
  if (lasts(mostG)) return mostG;
  if (!lasts(1)) return 0;
  let [low, high] = [1, mostG];
  while (high - low > 0.5) {
    const middle = (low + high) / 2;
    if (lasts(middle)) low = middle;
    else high = middle;
  }
  return Math.floor(low);
}
