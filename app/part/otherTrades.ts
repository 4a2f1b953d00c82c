/**
 * What other trades take for the same work, from published rates: a band beside a row of labour, never a
 * value that a row is tuned to. None of them is a one-off of a small shop.
 *
 * Blade shop: Bortolotti and others, A Detailed Wind Turbine Blade Cost Model, NREL/TP-5000-73585 (2019),
 * rates as they stand in the laboratory's own public code; series work, no set-up. Aircraft: Advanced
 * Composite Cost Estimating Manual, Northrop, AFFDL-TR-76-87 (1976), equations as a public notebook quotes
 * them: woven prepreg by hand, no wetting out.
 */
import { releaseOf } from '../document/library.ts';
import type { FullBuild, Library } from '../document/schema.ts';
import { isInLine, type PartResult } from './types.ts';

export interface TradeFigure {
  readonly trade: string;
  /** Of one person, for this part; least and most where the source gives a range. */
  readonly hours: readonly [least: number, most: number];
  readonly source: string;
}

const BLADES = 'rotor blades in series';
const AIRCRAFT = 'aircraft parts, woven prepreg';
const NREL = 'NREL/TP-5000-73585 (2019), rates of its public code';
const NORTHROP = 'AFFDL-TR-76-87 (1976), as quoted';

/** Growth of the time to place a ply with its area (Northrop, same source). */
export const PLY_EXPONENT = 0.6295;
/** Hours to place one ply of one square metre, same source. */
const PLY_HOURS_AT_1_M2 = 0.0766;
const PLY_SETUP_HOURS = 0.05;

type Basis = Pick<PartResult, 'areaM2' | 'edgeM' | 'layups'>;

/** Figures of other trades for a row of labour; empty where none was found in print. */
export function otherTrades(
  rowId: string,
  part: Basis,
  build: FullBuild,
  library: Library,
): TradeFigure[] {
  const { areaM2, edgeM } = part;
  const blades = (least: number, most = least): TradeFigure => ({
    trade: BLADES,
    hours: [least, most],
    source: NREL,
  });
  const aircraft = (hours: number): TradeFigure => ({
    trade: AIRCRAFT,
    hours: [hours, hours],
    source: NORTHROP,
  });
  switch (rowId) {
    case 'release':
      return [blades((releaseOf(library, build.mould.release).coats * areaM2) / 12)];
    case 'layup': {
      const own = part.layups.filter(
        ({ id, place, plies }) => plies > 0 && isInLine({ place }) && id !== 'closeout',
      );
      const plyM2 = own.reduce((sum, layup) => sum + layup.plyAreaM2, 0);
      // Peel ply 20, bag 7.5, pull-down 45 m2/h; tape 90 and leak check 30 m/h.
      const bags = own.reduce(
        (sum, { areaM2: m2, edgeM: m }) => sum + m2 * (1 / 20 + 1 / 7.5 + 1 / 45) + m / 90 + m / 30,
        0,
      );
      const placed = own.reduce(
        (sum, { plies, plyAreaM2 }) =>
          sum + PLY_SETUP_HOURS + PLY_HOURS_AT_1_M2 * plies * (plyAreaM2 / plies) ** PLY_EXPONENT,
        0,
      );
      return [blades(plyM2 / 30 + bags, plyM2 / 8 + bags), aircraft(placed)];
    }
    case 'layup-core':
      return [blades(areaM2 / 12)];
    case 'infusion-setup':
      return [blades(0.61 * areaM2)];
    case 'bag-off':
      return [blades(areaM2 / 20)];
    case 'trim':
      return [blades(edgeM / 10), aircraft(0.05 + (3.58 / 60) * edgeM)];
    default:
      return [];
  }
}
