/** Rows of a data sheet that cannot be, found before anything is fitted to them. */
import type { HardenerRow, ResinRow, SheetRow } from '../document/schema.ts';
import type { PracticeLookup } from './practice.ts';

export type RowFault =
  | { readonly fault: 'no-time' | 'no-mass'; readonly row: number }
  | {
      /** Too hot or too cold to time a laminating resin; `fahrenheitC`: what it is when read as F. */
      readonly fault: 'temperature';
      readonly row: number;
      readonly temperatureC: number;
      readonly fahrenheitC: number | null;
    }
  | {
      /**
       * - 'order': a later step is timed before an earlier one at the same temperature;
       * - 'hotter-slower': the same step takes longer at the higher temperature;
       * - 'heavier-longer': the heavier cup lives longer at the same temperature;
       * - 'twice': the same row with another time.
       */
      readonly fault: 'order' | 'hotter-slower' | 'heavier-longer' | 'twice';
      readonly row: number;
      /** The row it goes against; earlier in the order of the cure. */
      readonly against: number;
    };

/** Steps in the order in which they must come; a pot life comes before the gel of a film. */
const RANK: Readonly<Record<SheetRow['what'], number>> = {
  'pot-life': 0,
  'film-open': 1,
  'film-gel': 2,
  'tack-free': 3,
  debag: 4,
  demould: 5,
  sand: 6,
  full: 7,
  // Has no place in the order: it may end before or after the part is demoulded.
  'bond-until': -1,
};

/** Closer temperatures are one and the same on a sheet, K. */
const SAME_TEMPERATURE_K = 0.5;
const COLDEST_C = -5;

/**
 * Every fault of a sheet, in order of its rows (`row` counts from 0). Nothing is changed.
 * @throws MissingRow when the library lacks a practice row
 */
export function checkSheet(rows: readonly SheetRow[], practice: PracticeLookup): RowFault[] {
  const faults: RowFault[] = [];
  rows.forEach((row, i) => {
    if (!(row.minutes > 0)) faults.push({ fault: 'no-time', row: i });
    if (row.massG !== undefined && !(row.massG > 0)) faults.push({ fault: 'no-mass', row: i });
    const { temperatureC } = row;
    if (!(temperatureC >= COLDEST_C && temperatureC <= practice('cure-row-hottest-c'))) {
      const asFahrenheit = Math.round(((temperatureC - 32) / 1.8) * 10) / 10;
      const fahrenheitC = asFahrenheit >= 5 && asFahrenheit <= 45 ? asFahrenheit : null;
      faults.push({ fault: 'temperature', row: i, temperatureC, fahrenheitC });
    }
    rows.slice(0, i).forEach((other, j) => {
      const fault = between(row, i, other, j);
      if (fault) faults.push(fault);
    });
  });
  return faults;
}

function between(a: SheetRow, i: number, b: SheetRow, j: number): RowFault | null {
  const sameTemperature = Math.abs(a.temperatureC - b.temperatureC) <= SAME_TEMPERATURE_K;
  if (a.what === b.what) {
    const sameMass = (a.massG ?? 0) === (b.massG ?? 0) && a.vessel === b.vessel;
    if (sameTemperature) {
      if (!sameMass) {
        const [light, heavy] = (a.massG ?? 0) < (b.massG ?? 0) ? [a, b] : [b, a];
        const comparable = a.massG !== undefined && b.massG !== undefined && a.vessel === b.vessel;
        if (!comparable || heavy.minutes <= light.minutes) return null;
        return { fault: 'heavier-longer', row: heavy === a ? i : j, against: heavy === a ? j : i };
      }
      return a.minutes === b.minutes ? null : { fault: 'twice', row: i, against: j };
    }
    if (!sameMass) return null;
    const [cool, hot] = a.temperatureC < b.temperatureC ? [a, b] : [b, a];
    if (hot.minutes <= cool.minutes) return null;
    return { fault: 'hotter-slower', row: hot === a ? i : j, against: hot === a ? j : i };
  }
  if (!sameTemperature || RANK[a.what] < 0 || RANK[b.what] < 0) return null;
  const aIsLater = RANK[a.what] > RANK[b.what];
  const [earlier, later] = aIsLater ? [b, a] : [a, b];
  if (later.minutes >= earlier.minutes) return null;
  return { fault: 'order', row: aIsLater ? i : j, against: aIsLater ? j : i };
}

/** A figure beside the rows that goes against another one, or that no laminating resin has. */
export type FigureFault =
  | {
      readonly fault: 'volume';
      /** Millilitres for 100 ml on the sheet, and what mass and densities make of it. */
      readonly found: number;
      readonly expected: number;
    }
  | {
      /** `step` counts from 0; `fahrenheitC`: a figure that could be, when it is read as Fahrenheit. */
      readonly fault: 'tg' | 'post-cure';
      readonly step: number;
      readonly temperatureC: number;
      readonly mostC: number;
      readonly fahrenheitC: number | null;
    };

/** Millilitres of hardener for 100 ml of resin, from the mix by mass and the densities, kg/m3. */
export const partsByVolume = (
  { densityKgM3 }: Pick<ResinRow, 'densityKgM3'>,
  hardener: Pick<HardenerRow, 'partsPer100ByMass' | 'densityKgM3'>,
): number => (hardener.partsPer100ByMass * densityKgM3) / hardener.densityKgM3;

const LEAST_TG_C = 30;

/**
 * Every doubtful figure of a sheet. Nothing is changed.
 * @throws MissingRow when the library lacks a practice row
 */
export function checkFigures(
  resin: ResinRow,
  hardener: HardenerRow,
  practice: PracticeLookup,
): FigureFault[] {
  const faults: FigureFault[] = [];
  const expected = partsByVolume(resin, hardener);
  const found = hardener.partsPer100ByVolume;
  // Sheets round to whole millilitres: half of one is no contradiction.
  const reach = Math.max(0.5, practice('ratio-volume-off-share') * expected);
  if (found !== null && Math.abs(found - expected) > reach) {
    faults.push({ fault: 'volume', found, expected });
  }
  const asFahrenheit = (temperatureC: number, mostC: number): number | null => {
    const read = Math.round(((temperatureC - 32) / 1.8) * 10) / 10;
    return read >= LEAST_TG_C && read <= mostC ? read : null;
  };
  const hottest = practice('sheet-tg-hottest-c');
  const { tgFullC } = hardener;
  const doubt = (fault: 'tg' | 'post-cure', step: number, temperatureC: number, mostC: number) => {
    if (temperatureC <= mostC) return;
    const fahrenheitC = asFahrenheit(temperatureC, mostC);
    faults.push({ fault, step, temperatureC, mostC, fahrenheitC });
  };
  if (tgFullC !== null) doubt('tg', 0, tgFullC, hottest);
  const overTg = Math.min(tgFullC ?? hottest, hottest) + practice('sheet-post-cure-over-tg-c');
  hardener.postCure.forEach(({ temperatureC }, i) => doubt('post-cure', i, temperatureC, overTg));
  return faults;
}
