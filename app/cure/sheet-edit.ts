/** Edits of the data sheet in use: always on the build's own frozen copy of the resin. */
import type { HardenerRow, Library, ResinRow, SheetRow } from '../document/schema.ts';
import { length } from '../time/words.ts';
import { rowName } from './sheet-words.ts';
import { setField, type Change } from '../document/edit/change.ts';
import type { Draft } from '../document/edit/path.ts';
import { typedOver } from '../document/provenance.ts';

/** Resin and hardener in use, the build's own frozen copies first; null when no library has them. */
export function sheetInUse(
  document: Draft,
  library: Library,
): { resin: ResinRow; hardener: HardenerRow } | null {
  const resin = library.resins.find((row) => row.id === document.resin?.system);
  const hardener = resin?.hardeners.find((row) => row.id === document.resin?.hardener);
  return resin && hardener ? { resin, hardener } : null;
}

/** The document with the resin's frozen copy in place of what it had. */
export function withResin(document: Draft, resin: ResinRow, name: string, said: string): Change {
  const kept = document.library?.resins ?? [];
  const resins = kept.some(({ id }) => id === resin.id)
    ? kept.map((row) => (row.id === resin.id ? resin : row))
    : [...kept, resin];
  return setField(document, 'library.resins', resins, name, said);
}

function withHardener(
  document: Draft,
  library: Library,
  edit: (hardener: HardenerRow) => HardenerRow,
  name: string,
  said: string,
): Change | null {
  const used = sheetInUse(document, library);
  if (!used) return null;
  const { resin, hardener } = used;
  const edited = { ...edit(hardener), provenance: typedOver(hardener.provenance) };
  const hardeners = resin.hardeners.map((row) => (row.id === hardener.id ? edited : row));
  return withResin(document, { ...resin, hardeners }, name, said);
}

/**
 * The document with some figures of the hardener's sheet changed; null when the library lacks it.
 * @param patch the figures, in the units of their names
 * @param name what was changed and `said` its new value, for the undo list
 */
export const setHardener = (
  document: Draft,
  library: Library,
  patch: Partial<HardenerRow>,
  name: string,
  said: string,
): Change | null =>
  withHardener(document, library, (hardener) => ({ ...hardener, ...patch }), name, said);

/**
 * What smear and cup said of a hardener of the resin in use, in place of what they said before; null
 * takes it out. The sheet itself stays as it is.
 */
export function setBench(
  document: Draft,
  library: Library,
  hardener: string,
  bench: HardenerRow['bench'] | null,
  name: string,
  said: string,
): Change | null {
  const resin = library.resins.find((row) => row.id === document.resin?.system);
  if (!resin?.hardeners.some(({ id }) => id === hardener)) return null;
  const hardeners = resin.hardeners.map((row) => {
    if (row.id !== hardener) return row;
    const { bench: _before, ...rest } = row;
    return bench ? { ...rest, bench } : rest;
  });
  return withResin(document, { ...resin, hardeners }, name, said);
}

/** The same of one cure alone, by its layups; all others keep what was said of the hardener. */
export function setCureBench(
  document: Draft,
  layups: readonly string[],
  bench: HardenerRow['bench'] | null,
  name: string,
  said: string,
): Change {
  const others = Object.entries(document.resin?.benchFor ?? {}).filter(
    ([layup]) => !layups.includes(layup),
  );
  const own = bench ? layups.map((layup) => [layup, bench] as const) : [];
  const benchFor = Object.fromEntries([...others, ...own]);
  const resin = { ...document.resin, benchFor } as NonNullable<Draft['resin']>;
  return { label: `${name}: ${said}`, document: { ...document, resin } };
}

/** The same of a named lot with one of its hardeners. */
export function setLotBench(
  document: Draft,
  lot: string,
  hardener: string,
  bench: HardenerRow['bench'] | null,
  name: string,
  said: string,
): Change {
  const others = (document.resin?.benchForLot ?? []).filter(
    (one) => one.lot !== lot || one.hardener !== hardener,
  );
  const benchForLot = bench ? [...others, { lot, hardener, bench }] : others;
  const resin = { ...document.resin, benchForLot } as NonNullable<Draft['resin']>;
  return { label: `${name}, ${lot}: ${said}`, document: { ...document, resin } };
}

/** What a correction holds for: one cure, or every cure that is mixed from the same lot. */
export type BenchScope = 'cure' | 'lot';

/** The cure that smear, cup or log spoke of. */
export interface BenchedCure {
  readonly hardener: string;
  readonly layups: readonly string[];
  /** Lot that it was mixed from; null: lots have no names, and all of its hardener is one. */
  readonly lot: string | null;
}

/** A correction of one cure, taken for it alone or for its lot; null takes it out. */
export function takeBench(
  document: Draft,
  library: Library,
  { hardener, layups, lot }: BenchedCure,
  scope: BenchScope,
  bench: HardenerRow['bench'] | null,
  name: string,
  said: string,
): Change | null {
  if (scope === 'cure') return setCureBench(document, layups, bench, name, said);
  const own = setCureBench(document, layups, null, name, said).document;
  return lot === null
    ? setBench(own, library, hardener, bench, name, said)
    : setLotBench(own, lot, hardener, bench, name, said);
}

/**
 * The document with some figures of the resin changed; null when the library lacks it.
 * @param patch the figures, in the units of their names
 * @param name what was changed and `said` its new value, for the undo list
 */
export function setResin(
  document: Draft,
  library: Library,
  patch: Partial<ResinRow>,
  name: string,
  said: string,
): Change | null {
  const used = sheetInUse(document, library);
  if (!used) return null;
  const provenance = typedOver(used.resin.provenance);
  return withResin(document, { ...used.resin, ...patch, provenance }, name, said);
}

/** Figures of a row typed over; `undefined` takes one out. */
export type RowPatch = { readonly [K in keyof SheetRow]?: SheetRow[K] | undefined };

/**
 * The document with some figures of one row of the sheet changed. Only pot lives have a mass.
 * @param index place of the row, from 0
 * @param patch `undefined` takes a figure out
 * @returns null when there is no such row
 */
export function setRow(
  document: Draft,
  library: Library,
  index: number,
  patch: RowPatch,
): Change | null {
  const used = sheetInUse(document, library);
  const row = used?.hardener.sheet[index];
  if (!row) return null;
  const next = normalizedRow({ ...row, ...patch } as SheetRow);
  const edit = (hardener: HardenerRow): HardenerRow => ({
    ...hardener,
    sheet: hardener.sheet.map((old, i) => (i === index ? next : old)),
  });
  return withHardener(document, library, edit, `Sheet row ${index + 1}`, rowSaid(next));
}

/** The document with one more row on the sheet of the hardener in use; null when the library lacks it. */
export const addRow = (document: Draft, library: Library, row: SheetRow): Change | null =>
  withHardener(
    document,
    library,
    (hardener) => ({ ...hardener, sheet: [...hardener.sheet, normalizedRow(row)] }),
    'Sheet row added',
    rowSaid(row),
  );

/**
 * The document without one row of the sheet.
 * @param index place of the row, from 0
 * @returns null for the last row, since a sheet without rows has no curve
 */
export function removeRow(document: Draft, library: Library, index: number): Change | null {
  const row = sheetInUse(document, library)?.hardener.sheet[index];
  const sheetOf = ({ sheet }: HardenerRow) => sheet.filter((_, i) => i !== index);
  if (!row || sheetOf(sheetInUse(document, library)!.hardener).length === 0) return null;
  const edit = (hardener: HardenerRow): HardenerRow => ({ ...hardener, sheet: sheetOf(hardener) });
  return withHardener(document, library, edit, 'Sheet row removed', rowSaid(row));
}

const rowSaid = (row: SheetRow): string => `${rowName(row)}, ${length(row.minutes)}`;

function normalizedRow(row: SheetRow): SheetRow {
  const { what, temperatureC, minutes, massG, vessel } = row;
  if (what !== 'pot-life') return { what, temperatureC, minutes, vessel: 'film' };
  const kept: SheetRow = { what, temperatureC, minutes, vessel: vessel ?? 'cup' };
  return massG === undefined || kept.vessel === 'film' ? kept : { ...kept, massG };
}
