/** Rates of work as the shop sets them: the frozen rows of the build, never the shipped library. */
import type { FinishingRow, LabourRow, Library, Provenance } from '../document/schema.ts';
import { labourById } from './labour.ts';
import { change, type Change } from '../document/edit/change.ts';
import { BY_THE_SHOP } from '../document/edit/consequences.ts';
import type { Draft } from '../document/edit/path.ts';

export const RATES = [
  { key: 'setupMinutes', name: 'Set-up', unit: 'min' },
  { key: 'minutesPerM2', name: 'Per m²', unit: 'min' },
  { key: 'minutesPerPlyM2', name: 'Per m² of ply', unit: 'min' },
  { key: 'minutesPerEdgeM', name: 'Per m of edge', unit: 'min' },
] as const;
export type RateKey = (typeof RATES)[number]['key'];

/** Shortest and longest hours of a row, times its likely ones. */
export const POINTS = [
  { key: 'low', name: 'Low', limits: { min: 0.05, max: 1 } },
  { key: 'high', name: 'High', limits: { min: 1, max: 20 } },
] as const;
export type PointKey = (typeof POINTS)[number]['key'];

/** The points that a row is drawn between: its own, or its spread, late more than early. */
export function pointsOf(row: LabourRow, lateFactor: number): Readonly<Record<PointKey, number>> {
  return { low: row.low ?? 1 - row.spread, high: row.high ?? 1 + lateFactor * row.spread };
}

/**
 * The document with the shortest or longest hours of a labour row set by the shop.
 * @param times the likely hours; null: by the spread of the row again
 * @throws MissingRow when there is no such row
 */
export function setPoint(
  document: Draft,
  rows: Library,
  id: string,
  key: PointKey,
  times: number | null,
): Change {
  const row = labourById(rows, id);
  const next = { ...row, [key]: times, revision: row.revision + 1, provenance: MEASURED };
  const said = times === null ? 'by its spread' : `${times} times the likely hours`;
  return putLabour(document, rows, next, `${key} ${said}`);
}

const MEASURED: Provenance = { kind: 'measured', source: BY_THE_SHOP };

/**
 * The document with one labour row replaced. The whole table is frozen with it: the first row of a
 * stage kind counts, so their order must stay.
 */
export function putLabour(document: Draft, rows: Library, row: LabourRow, said: string): Change {
  const labour = rows.labour.map((one) => (one.id === row.id ? row : one));
  return change(`${row.name}: ${said}`, {
    ...document,
    library: { ...document.library, labour },
  });
}

/**
 * The document with one rate of a labour row set by the shop; the row counts as measured from then on.
 * @param rows the library in force
 * @param minutes person-minutes, by the unit of the rate
 * @throws MissingRow when there is no such row
 */
export function setLabour(
  document: Draft,
  rows: Library,
  id: string,
  key: RateKey,
  minutes: number,
): Change {
  const row = labourById(rows, id);
  // A rate that the shop states itself is the table for the records that come after.
  const { taught: _, ...stated } = row;
  const next = { ...stated, [key]: minutes, revision: row.revision + 1, provenance: MEASURED };
  const { name } = RATES.find((rate) => rate.key === key)!;
  return putLabour(document, rows, next, `${name.toLowerCase()} ${minutes} min`);
}

/**
 * The document with one rate of a finishing round set by the shop; the row counts as measured from then on.
 * @param rows the library in force
 * @param minutes person-minutes, once or for a square metre
 */
export function setFinishing(
  document: Draft,
  rows: Library,
  id: string,
  key: 'setupMinutes' | 'minutesPerM2',
  minutes: number,
): Change {
  const finishing = rows.finishing.map((row): FinishingRow =>
    row.id === id
      ? { ...row, [key]: minutes, revision: row.revision + 1, provenance: MEASURED }
      : row,
  );
  const name = rows.finishing.find((row) => row.id === id)?.name ?? id;
  return change(`${name}: ${minutes} min`, {
    ...document,
    library: { ...document.library, finishing },
  });
}
