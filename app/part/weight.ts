/** The part's weight row by row, in the order in which it comes onto the part. */
import type { FullBuild } from '../document/schema.ts';
import { WEIGHT_NAMES } from '../messages/weights.ts';
import { roundedToSum } from '../units/summed.ts';
import type { MassBreakdown } from './types.ts';

/** Filler beyond the part's own fairing, that the joints of a route ask for. */
export type WeightId = keyof MassBreakdown | 'routeFiller';
export type WeightState = FullBuild['part']['targetIncludes'];

export interface WeightRow {
  readonly id: WeightId;
  readonly name: string;
  readonly massKg: number;
  /** The first state in which the part is weighed with it. */
  readonly from: WeightState;
}

/** The state from which each row is weighed, in the order in which they come onto the part. */
const FROM: Readonly<Record<WeightId, WeightState>> = {
  fibre: 'shell',
  resin: 'shell',
  core: 'shell',
  coreResin: 'shell',
  closeout: 'shell',
  fairing: 'faired',
  routeFiller: 'faired',
  paint: 'painted',
};
const NAMES: Readonly<Record<WeightId, string>> = WEIGHT_NAMES;
const IDS = Object.keys(FROM) as WeightId[];

/** States in the order in which the part passes them. */
export const WEIGHT_STATES = [
  'shell',
  'faired',
  'painted',
] as const satisfies readonly WeightState[];

export const isOnPart = (row: Pick<WeightRow, 'from'>, state: WeightState): boolean =>
  WEIGHT_STATES.indexOf(row.from) <= WEIGHT_STATES.indexOf(state);

/**
 * Every row with its mass, exact, kg.
 * @param fillerKg of the route
 */
export const weightRows = (massKg: MassBreakdown, fillerKg: number): WeightRow[] =>
  IDS.map((id) => ({
    id,
    name: NAMES[id],
    from: FROM[id],
    massKg: id === 'routeFiller' ? fillerKg : massKg[id],
  }));

/** Mass of the part in one state, exact, kg. */
export const massInState = (rows: readonly WeightRow[], state: WeightState): number =>
  sum(rows.filter((row) => isOnPart(row, state)));

/**
 * The rows to a hundredth of a kilogram, so that those of each state add up to its mass to a
 * hundredth.
 */
export function roundedWeightRows(rows: readonly WeightRow[]): WeightRow[] {
  let before = 0;
  return WEIGHT_STATES.flatMap((state) => {
    const own = rows.filter((row) => row.from === state);
    const whole = hundredths(massInState(rows, state));
    const rounded = roundedToSum(
      own.map((row) => row.massKg),
      100,
      whole - before,
    );
    before = whole;
    return own.map((row, i) => ({ ...row, massKg: rounded[i]! }));
  });
}

const hundredths = (massKg: number): number => Math.round(massKg * 100) / 100;
const sum = (rows: readonly WeightRow[]): number =>
  rows.reduce((total, { massKg }) => total + massKg, 0);
