/** Edits of the data sheet in use: always on the build's own frozen copy of the resin. */
import { doseBetweenId, isDoseBetween } from '../../app/document/ids.ts';
import type { HardenerRow, Library, ResinRow, SheetRow } from '../../app/document/schema.ts';
import { doseForGel, gelAtDose, type InitiatorRange } from '../../app/cure/initiator.ts';
import type { PracticeLookup } from '../../app/cure/practice.ts';
import { checkSheet } from '../../app/cure/sheet-check.ts';
import { rowFaultText } from '../../app/cure/words.ts';
import { length } from '../../app/shop/words.ts';
import { setField, type Change } from '../edit/change.ts';
import type { Draft } from '../edit/path.ts';
import { useResin } from '../edit/resin.ts';

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
  const mass = row.massG === undefined ? '' : `, ${row.massG} g`;
  const vessel = row.what === 'pot-life' && row.vessel ? ` in a ${VESSEL_WORDS[row.vessel]}` : '';
  return `${ROW_WORDS[row.what]}${mass}${vessel} at ${row.temperatureC} °C`;
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

/** Resin and hardener in use; null when the library lacks them. */
export function sheetInUse(
  document: Draft,
  library: Library,
): { resin: ResinRow; hardener: HardenerRow } | null {
  const resin = library.resins.find((row) => row.id === document.resin?.system);
  const hardener = resin?.hardeners.find((row) => row.id === document.resin?.hardener);
  return resin && hardener ? { resin, hardener } : null;
}

const TYPED = 'typed into this build';
const SOURCE_LENGTH = 300;

/** Says that somebody changed the row, and what it was before. */
function typedOver({ kind, source }: HardenerRow['provenance']): HardenerRow['provenance'] {
  if (source.startsWith(TYPED)) return { kind, source };
  const whole = `${TYPED}; before: ${source || kind}`;
  return { kind: 'data-sheet', source: whole.slice(0, SOURCE_LENGTH) };
}

/** The document with the resin's frozen copy in place of what it had. */
function withResin(document: Draft, resin: ResinRow, name: string, said: string): Change {
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

/** One figure of the hardener's sheet. */
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

/** One figure of the resin itself. */
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

/** A row of the sheet with some of its figures changed. Only pot lives have a mass. */
export function setRow(
  document: Draft,
  library: Library,
  index: number,
  patch: RowPatch,
): Change | null {
  const used = sheetInUse(document, library);
  const row = used?.hardener.sheet[index];
  if (!row) return null;
  const next = tidy({ ...row, ...patch } as SheetRow);
  const edit = (hardener: HardenerRow): HardenerRow => ({
    ...hardener,
    sheet: hardener.sheet.map((old, i) => (i === index ? next : old)),
  });
  return withHardener(document, library, edit, `Sheet row ${index + 1}`, rowSaid(next));
}

export const addRow = (document: Draft, library: Library, row: SheetRow): Change | null =>
  withHardener(
    document,
    library,
    (hardener) => ({ ...hardener, sheet: [...hardener.sheet, tidy(row)] }),
    'Sheet row added',
    rowSaid(row),
  );

/** Null for the last row: a sheet without rows has no curve. */
export function removeRow(document: Draft, library: Library, index: number): Change | null {
  const row = sheetInUse(document, library)?.hardener.sheet[index];
  const sheetOf = ({ sheet }: HardenerRow) => sheet.filter((_, i) => i !== index);
  if (!row || sheetOf(sheetInUse(document, library)!.hardener).length === 0) return null;
  const edit = (hardener: HardenerRow): HardenerRow => ({ ...hardener, sheet: sheetOf(hardener) });
  return withHardener(document, library, edit, 'Sheet row removed', rowSaid(row));
}

const rowSaid = (row: SheetRow): string => `${rowName(row)}, ${length(row.minutes)}`;

function tidy(row: SheetRow): SheetRow {
  const { what, temperatureC, minutes, massG, vessel } = row;
  if (what !== 'pot-life') return { what, temperatureC, minutes, vessel: 'film' };
  const kept: SheetRow = { what, temperatureC, minutes, vessel: vessel ?? 'cup' };
  return massG === undefined || kept.vessel === 'film' ? kept : { ...kept, massG };
}

/** The doses that the maker gives, without those that were read between them. */
export const makersDoses = (resin: ResinRow): ResinRow => ({
  ...resin,
  hardeners: resin.hardeners.filter(({ id }) => !isDoseBetween(id)),
});

/**
 * The build at another dose of initiator: the maker's own sheet where he gives it, else the sheet of
 * the nearest dose with its times in proportion to gel. Null outside the maker's range.
 */
export function takeDose(
  document: Draft,
  library: Library,
  range: InitiatorRange,
  partsPer100: number,
): Change | null {
  const used = sheetInUse(document, library);
  const gel = gelAtDose(range, partsPer100);
  if (!used || gel === null) return null;
  const nearest = range.points.toSorted(
    (a, b) => Math.abs(a.partsPer100 - partsPer100) - Math.abs(b.partsPer100 - partsPer100),
  )[0]!;
  const said = `${partsPer100} g for 100 g of resin`;
  if (Math.abs(nearest.partsPer100 - partsPer100) < 1e-9) {
    return setField(document, 'resin.hardener', nearest.hardener, 'Initiator', said);
  }
  const near = used.resin.hardeners.find(({ id }) => id === nearest.hardener)!;
  const stretch = gel / nearest.gelMinutes;
  const between: HardenerRow = {
    ...near,
    id: doseBetweenId(partsPer100),
    name: `${near.name.replace(/[,(].*$/, '').trim()}, ${said}`,
    provenance: {
      kind: 'assumed',
      source: 'between the doses of the maker; every time in proportion to gel',
    },
    partsPer100ByMass: partsPer100,
    partsPer100ByVolume: null,
    sheet: near.sheet.map((row) => ({ ...row, minutes: row.minutes * stretch })),
  };
  const hardeners = [...makersDoses(used.resin).hardeners, between];
  const next = withResin(document, { ...used.resin, hardeners }, 'Initiator', said);
  const { document: frozen } = next;
  return {
    ...next,
    document: {
      ...frozen,
      resin: useResin(document.resin, { ...used.resin, hardeners }, between.id),
    },
  };
}

/** Dose that gels in the wanted time, to a twentieth of a gram; null outside the maker's range. */
export function doseFor(range: InitiatorRange, gelMinutes: number): number | null {
  const dose = doseForGel(range, gelMinutes);
  if (dose === null) return null;
  const rounded = Math.round(dose * 20) / 20;
  return Math.min(range.mostPartsPer100, Math.max(range.leastPartsPer100, rounded));
}
