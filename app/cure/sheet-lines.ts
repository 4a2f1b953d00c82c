/** What a fitted sheet says over the temperature: a line for each kind of its rows. */
import type { SheetRow } from '../document/schema.ts';
import { potLifeMinutes } from './cup.ts';
import { filmMinutes } from './curves.ts';
import { cupCase } from './pot.ts';
import type { PracticeLookup } from './practice.ts';
import { isMassRow, MILESTONE_OF_ROW } from './sheet-model.ts';
import type { CureModel } from './types.ts';

/** A milestone of the film, or the life of one mass in one vessel. */
export type LineOf =
  | { readonly kind: 'film'; readonly what: Exclude<SheetRow['what'], 'pot-life'> }
  | { readonly kind: 'pot'; readonly massG: number; readonly vessel: 'cup' | 'tray' };

export interface SheetLine {
  readonly of: LineOf;
  /** Null where the curve does not know. */
  readonly minutesAt: (temperatureC: number) => number | null;
  /** Rows of the sheet that the line should pass. */
  readonly rows: readonly SheetRow[];
}

/**
 * Lines over the temperature for every kind of row that the sheet gives, in its order, and last of the
 * film's gel.
 * @throws MissingRow when the library lacks a practice row
 */
export function sheetLines(
  rows: readonly SheetRow[],
  model: CureModel,
  practice: PracticeLookup,
): SheetLine[] {
  const lines = new Map<string, { of: LineOf; rows: SheetRow[] }>();
  const put = (of: LineOf, row?: SheetRow) => {
    const key = JSON.stringify(of);
    const line = lines.get(key) ?? { of, rows: [] };
    if (row) line.rows.push(row);
    lines.set(key, line);
  };
  for (const row of rows) {
    if (isMassRow(row)) {
      const massG = row.massG ?? practice('cure-pot-reference-g');
      put({ kind: 'pot', massG, vessel: row.vessel === 'tray' ? 'tray' : 'cup' }, row);
    } else {
      put({ kind: 'film', what: row.what === 'pot-life' ? 'film-open' : row.what }, row);
    }
  }
  put({ kind: 'film', what: 'film-gel' });
  return [...lines.values()].map(({ of, rows: own }) => ({
    of,
    rows: own,
    minutesAt: (temperatureC) => minutesOf(of, model, temperatureC, practice),
  }));
}

function minutesOf(
  of: LineOf,
  model: CureModel,
  temperatureC: number,
  practice: PracticeLookup,
): number | null {
  if (of.kind === 'film') return filmMinutes(model, MILESTONE_OF_ROW[of.what], temperatureC);
  if (!model.kinetics || !model.pot) return null;
  const { massG, vessel } = of;
  return potLifeMinutes(cupCase(model, { massG, roomC: temperatureC, vessel }, practice));
}
