/** The part's weight row by row, in the order in which it comes onto the part. */
import type { FullBuild } from '../document/schema.ts';
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

const ROWS: Readonly<Record<WeightId, { readonly name: string; readonly from: WeightState }>> = {
  fibre: { name: 'Fibre', from: 'shell' },
  resin: { name: 'Resin in the plies', from: 'shell' },
  core: { name: 'Core', from: 'shell' },
  coreResin: { name: 'Resin taken by the core', from: 'shell' },
  closeout: { name: 'Closeout', from: 'shell' },
  fairing: { name: 'Fairing', from: 'faired' },
  routeFiller: { name: 'Filler for this route', from: 'faired' },
  paint: { name: 'Primer and paint', from: 'painted' },
};
const IDS = Object.keys(ROWS) as WeightId[];

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
  IDS.map((id) => ({ id, ...ROWS[id], massKg: id === 'routeFiller' ? fillerKg : massKg[id] }));

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
