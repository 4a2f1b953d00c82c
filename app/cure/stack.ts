/** Heat through what lies in the bag, and in filler and potting poured thick. */
import type { Minute } from '../time/instant.ts';
import { conduct, type ConductionLayer, type Face, type LayerPeak } from './conduction.ts';
import type { CureKinetics } from './kinetics.ts';
import type { PracticeLookup } from './practice.ts';
import { temperatureAt } from './profile.ts';
import type { CureModel, TemperatureProfile } from './types.ts';

/** One thing in the stack, from the bag to the back of the mould. */
export type StackPart =
  | {
      readonly kind: 'laminate';
      readonly name: string;
      readonly thicknessMm: number;
      /** By volume. */
      readonly fibreFraction: number;
      readonly fibreDensityKgM3: number;
      readonly resinDensityKgM3: number;
      /** False for a skin that has cured before and only conducts. */
      readonly wet: boolean;
    }
  | {
      readonly kind: 'core';
      readonly name: string;
      readonly thicknessMm: number;
      readonly densityKgM3: number;
      readonly maxC: number;
    }
  | { readonly kind: 'mould'; readonly name: string; readonly maxC: number };

export interface StackPeak extends LayerPeak {
  /** What the layer takes, C; null for a laminate. */
  readonly limitC: number | null;
  /** Peak over the limit, K; zero or less when it holds; null without a limit. */
  readonly overK: number | null;
}

export interface StackResult {
  readonly layers: readonly StackPeak[];
  readonly peakC: number;
  readonly curve: readonly { readonly hours: number; readonly hottestC: readonly number[] }[];
}

export interface StackSettings {
  readonly hours: number;
  readonly cells: number;
}

const STACK_SETTINGS: StackSettings = { hours: 48, cells: 100 };
/** Steps that follow an exotherm closely enough for a limit in whole degrees. */
const STEPS = { longestStepH: 0.25, stepK: 1.5 };

/**
 * Temperature of every layer of a bagged stack over time: air over the bag, conduction with reaction
 * heat through laminate, core and mould, air behind the mould. A stiff resin reacts more slowly than
 * this takes it to, so that peaks are not understated.
 * @param parts from the bag down
 * @param profile air temperature; before and after it its first and last value hold
 * @throws Error when the model has no curve
 */
export function stackTemperatures(
  model: CureModel,
  parts: readonly StackPart[],
  profile: TemperatureProfile,
  start: Minute,
  practice: PracticeLookup,
  settings: StackSettings = STACK_SETTINGS,
): StackResult {
  const kinetics = kineticsOf(model);
  const airC = airOver(profile, start);
  const loss: Face = {
    kind: 'air',
    temperatureC: airC,
    lossWM2K: practice('cure-surface-loss-w-m2k'),
  };
  const result = conduct({
    form: 'slab',
    layers: parts.map((part) => layerOf(part, kinetics, practice)),
    first: loss,
    last: loss,
    startC: airC(0),
    ...settings,
    ...STEPS,
  });
  return {
    layers: result.layers.map((layer, i) => {
      const part = parts[i]!;
      const limitC = part.kind === 'laminate' ? null : part.maxC;
      return { ...layer, limitC, overK: limitC === null ? null : layer.peakC - limitC };
    }),
    peakC: result.peakC,
    curve: result.curve,
  };
}

function kineticsOf(model: CureModel): CureKinetics {
  if (!model.kinetics) throw new Error('The model has no curve to heat a stack by.');
  return model.kinetics;
}

/** Air temperature over hours since `start`. */
function airOver(profile: TemperatureProfile, start: Minute): (hours: number) => number {
  const [first, last] = [profile[0], profile[profile.length - 1]];
  if (!first || !last) throw new Error('An empty temperature profile heats nothing.');
  return (hours) => {
    const minute = start + hours * 60;
    if (minute < first.start) return first.temperatureC;
    return temperatureAt(profile, minute) ?? last.temperatureC;
  };
}

function layerOf(
  part: StackPart,
  kinetics: CureKinetics,
  practice: PracticeLookup,
): ConductionLayer {
  switch (part.kind) {
    case 'laminate': {
      const fibre = part.fibreFraction * part.fibreDensityKgM3;
      const resin = (1 - part.fibreFraction) * part.resinDensityKgM3;
      return {
        name: part.name,
        thicknessMm: part.thicknessMm,
        conductivityWMK: practice('cure-laminate-conductivity'),
        heatCapacityJKgK: practice('cure-laminate-heat-capacity'),
        densityKgM3: fibre + resin,
        resin: part.wet ? { kinetics, massShare: resin / (fibre + resin) } : null,
      };
    }
    case 'core':
      return {
        name: part.name,
        thicknessMm: part.thicknessMm,
        conductivityWMK: practice('cure-core-conductivity'),
        heatCapacityJKgK: practice('cure-core-heat-capacity'),
        densityKgM3: part.densityKgM3,
        resin: null,
      };
    case 'mould':
      return {
        name: part.name,
        thicknessMm: practice('cure-mould-thickness-mm'),
        conductivityWMK: practice('cure-mould-conductivity'),
        heatCapacityJKgK: practice('cure-mould-heat-capacity'),
        densityKgM3: practice('cure-mould-density'),
        resin: null,
      };
  }
}

/** What is poured or spread thick. */
export interface Pour {
  readonly mix: 'filler' | 'potting';
  /** Air, and mix and ground when it is laid. */
  readonly roomC: number;
  readonly startC?: number;
  /** Thickness and density of the foam under it. */
  readonly groundMm: number;
  readonly groundDensityKgM3: number;
}

/**
 * Hottest moment of a lift on foam: temperature, C, and hours after mixing.
 * @param pour what is poured, temperature of air, mix and ground, C, and the foam under it
 * @param liftMm thickness of the lift, mm
 * @throws MissingRow when the library lacks a practice row; Error when the model has no curve
 */
export function liftPeak(
  model: CureModel,
  pour: Pour,
  liftMm: number,
  practice: PracticeLookup,
): { peakC: number; peakHours: number } {
  const kinetics = kineticsOf(model);
  const kind = pour.mix === 'filler' ? 'filler' : 'pour';
  const still: Face = {
    kind: 'air',
    temperatureC: () => pour.roomC,
    lossWM2K: practice('cure-surface-loss-w-m2k'),
  };
  const result = conduct({
    form: 'slab',
    layers: [
      {
        name: pour.mix,
        thicknessMm: liftMm,
        conductivityWMK: practice(`cure-${kind}-conductivity`),
        densityKgM3: practice(`cure-${kind}-density`),
        heatCapacityJKgK: practice('cure-heat-capacity-j-gk') * 1000,
        resin: { kinetics, massShare: practice(`cure-${kind}-resin-share`) },
      },
      {
        name: 'ground',
        thicknessMm: pour.groundMm,
        conductivityWMK: practice('cure-core-conductivity'),
        densityKgM3: pour.groundDensityKgM3,
        heatCapacityJKgK: practice('cure-core-heat-capacity'),
        resin: null,
      },
    ],
    first: still,
    last: { kind: 'insulated' },
    startC: pour.startC ?? pour.roomC,
    hours: 10 / kinetics.ratePerHour,
    cells: 24,
    longestStepH: 0.5 / kinetics.ratePerHour,
    stepK: 1.5,
  });
  const { peakC, peakHours } = result.layers[0]!;
  return { peakC, peakHours };
}

export interface LargestLift {
  /** 0 when even the thinnest lift is too hot. */
  readonly liftMm: number;
  readonly peakC: number;
  /** True when nothing up to `mostMm` is too hot. */
  readonly unlimited: boolean;
}

/**
 * Thickest lift, in half millimetres, that stays under a temperature.
 * @param limitC greatest temperature in the lift, C
 * @param mostMm thickest lift that is tried, mm
 * @throws MissingRow when the library lacks a practice row; Error when the model has no curve
 */
export function largestLift(
  model: CureModel,
  pour: Pour,
  limitC: number,
  practice: PracticeLookup,
  mostMm = 100,
): LargestLift {
  const peakOf = (halves: number): number => liftPeak(model, pour, halves / 2, practice).peakC;
  const most = Math.floor(mostMm * 2);
  const thickest = peakOf(most);
  if (thickest <= limitC) return { liftMm: mostMm, peakC: thickest, unlimited: true };
  let [low, high] = [0, most];
  let peakC = pour.startC ?? pour.roomC;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    const peak = peakOf(middle);
    if (peak <= limitC) {
      low = middle;
      peakC = peak;
    } else high = middle;
  }
  return { liftMm: low / 2, peakC, unlimited: false };
}
