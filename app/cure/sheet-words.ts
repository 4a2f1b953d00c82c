/** Rows of a data sheet as the bench says them, and what is said of one that cannot be. */
import type { ResinRow, SheetRow } from '../document/schema.ts';
import type { PracticeLookup } from './practice.ts';
import { checkSheet } from './sheet-check.ts';
import { rowFaultText } from './words.ts';
import { exact } from '../units/words.ts';

export const ROW_WORDS: Readonly<Record<SheetRow['what'], string>> = {
  'pot-life': 'Pot life',
  'film-open': 'Film open',
  'film-gel': 'Film gel',
  'tack-free': 'Tack-free',
  debag: 'Bag off',
  demould: 'Demould',
  sand: 'Sand',
  'bond-until': 'Bond until',
  full: 'Full cure',
};
export const CHEMISTRY_WORDS: Readonly<Record<ResinRow['chemistry'], string>> = {
  epoxy: 'Epoxy',
  polyester: 'Polyester',
  'vinyl-ester': 'Vinyl ester',
};
export const VESSEL_WORDS = { cup: 'cup', tray: 'tray', film: 'film' } as const;

/** `Pot life, 150 g in a cup at 20 °C` */
export function rowName(row: Omit<SheetRow, 'minutes'>): string {
  const mass = row.massG === undefined ? '' : `, ${exact(row.massG)} g`;
  const vessel = row.what === 'pot-life' && row.vessel ? ` in a ${VESSEL_WORDS[row.vessel]}` : '';
  return `${ROW_WORDS[row.what]}${mass}${vessel} at ${exact(row.temperatureC)} °C`;
}

/**
 * Refuses temperatures that no laminating room has, with what they would be when read as Fahrenheit.
 * @param row number of the row that is spoken of, from 0
 */
export const refuseRowTemperature =
  (practice: PracticeLookup, row = 0) =>
  (temperatureC: number): { why: string; offer?: number } | null => {
    const asked: SheetRow = { what: 'film-gel', temperatureC, minutes: 1 };
    const fault = checkSheet([asked], practice).find((f) => f.fault === 'temperature');
    if (fault?.fault !== 'temperature') return null;
    const why = rowFaultText({ ...fault, row });
    return fault.fahrenheitC === null ? { why } : { why, offer: fault.fahrenheitC };
  };
