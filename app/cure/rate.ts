/**
 * How fast the clock runs at a temperature, over its pace at the reference temperature: as fitted, and
 * on its two safe sides.
 *
 * The early side is for what hurts when it comes early: it counts at every temperature. The late side
 * is for what hurts when it comes late: below the hardener's minimum it stands still. Where the sheet
 * has rows at one temperature only, the slope over temperature is open: from that temperature on, either
 * way, the early side takes the end of the published range that is quicker there, the late side the
 * slower one. At the sheet's own temperature all three are the same.
 */
import type { SheetRow } from '../document/schema.ts';
import { GAS_CONSTANT, rateFactor, ZERO_C_IN_K } from './arrhenius.ts';
import type { PracticeLookup } from './practice.ts';
import type { CureModel } from './types.ts';

export type Side = 'fitted' | 'early' | 'late';

/** What runs by the slope of cure tables, and what by the flatter one of pot life and drying. */
export type SlopeKind = 'cure' | 'pot';

/** A slope that a sheet leaves open: known at one temperature, a range of energies away from it. */
export interface SlopeRange {
  readonly pivotC: number;
  readonly flatJMol: number;
  readonly steepJMol: number;
}

/** Null: the sheet has settled it. */
export type OpenSlopes = Readonly<Record<SlopeKind, SlopeRange | null>>;

/** One kelvin moves the dose of a minute by no more than this factor. */
const MOST_PER_K = 1.2;
/** Greatest activation energy that is taken, J/mol: with it MOST_PER_K holds from -10 C up. */
export const MOST_ENERGY_J_MOL = GAS_CONSTANT * Math.log(MOST_PER_K) * (ZERO_C_IN_K - 10) ** 2;

/** `rateFactor` with its slope held to MOST_PER_K below the temperatures at which resin is used. */
function boundedRate(energyJMol: number, referenceC: number): (temperatureC: number) => number {
  const steepestC = Math.sqrt(energyJMol / (GAS_CONSTANT * Math.log(MOST_PER_K))) - ZERO_C_IN_K;
  return (temperatureC) =>
    temperatureC >= steepestC
      ? rateFactor(energyJMol, temperatureC, referenceC)
      : rateFactor(energyJMol, steepestC, referenceC) * MOST_PER_K ** (temperatureC - steepestC);
}

/** The late side runs down to nothing over so many kelvin below the minimum. */
const STOPS_WITHIN_K = 1;

export type RateModel = Pick<CureModel, 'referenceC' | 'activationEnergyJMol' | 'slopes'>;

/**
 * Rate at a temperature, C, as a multiple of the one at the model's reference temperature.
 * @param minimumC the hardener's lowest temperature: counted in full from there up, not at all from a
 *   kelvin below it down, in proportion between, so that a tenth of a degree never decides a plan. The
 *   early side does not ask for it.
 */
export function clockRate(
  model: RateModel,
  side: Side,
  kind: SlopeKind = 'cure',
  minimumC = -Infinity,
): (temperatureC: number) => number {
  const { referenceC, activationEnergyJMol } = model;
  const range = side === 'fitted' ? null : (model.slopes?.[kind] ?? null);
  const bare = range
    ? sidedRate(model, side, range)
    : boundedRate(activationEnergyJMol, referenceC);
  if (side === 'early' || minimumC === -Infinity) return bare;
  return (temperatureC) => bare(temperatureC) * countedShare(temperatureC, minimumC);
}

function sidedRate(
  { referenceC, activationEnergyJMol }: RateModel,
  side: Side,
  { pivotC, flatJMol, steepJMol }: SlopeRange,
): (temperatureC: number) => number {
  const atPivot = rateFactor(activationEnergyJMol, pivotC, referenceC);
  const [colder, warmer] = (side === 'early' ? [flatJMol, steepJMol] : [steepJMol, flatJMol]).map(
    (energyJMol) => boundedRate(energyJMol, pivotC),
  );
  return (temperatureC) => atPivot * (temperatureC < pivotC ? colder! : warmer!)(temperatureC);
}

const countedShare = (temperatureC: number, minimumC: number): number =>
  Math.min(1, Math.max(0, (temperatureC - minimumC) / STOPS_WITHIN_K + 1));

/** Rows nearer together than this are at one temperature, K. */
export const ONE_TEMPERATURE_K = 2;

/**
 * The slopes that a sheet's rows leave open. Rows of pot and open film settle the slope of the pot
 * alone; rows of the cure settle both. The fitted energy always lies within the range.
 */
export function openSlopes(
  rows: readonly SheetRow[],
  activationEnergyJMol: number,
  practice: PracticeLookup,
): OpenSlopes {
  const curing = rows.filter(({ what }) => what !== 'pot-life' && what !== 'film-open');
  if (spanK(curing) >= ONE_TEMPERATURE_K) return { cure: null, pot: null };
  const early = rows.filter((row) => !curing.includes(row));
  const rangeOf = (kind: SlopeKind, about: readonly SheetRow[]): SlopeRange => ({
    pivotC: mean(about.map(({ temperatureC }) => temperatureC)),
    flatJMol: Math.min(practice(`energy-${kind}-flat-kj`) * 1000, activationEnergyJMol),
    steepJMol: Math.max(practice(`energy-${kind}-steep-kj`) * 1000, activationEnergyJMol),
  });
  return {
    cure: rangeOf('cure', curing.length > 0 ? curing : early),
    pot:
      spanK(early) >= ONE_TEMPERATURE_K ? null : rangeOf('pot', early.length > 0 ? early : curing),
  };
}

const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

function spanK(rows: readonly SheetRow[]): number {
  if (rows.length === 0) return 0;
  const temperatures = rows.map(({ temperatureC }) => temperatureC);
  return Math.max(...temperatures) - Math.min(...temperatures);
}
