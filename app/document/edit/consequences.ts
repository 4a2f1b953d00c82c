/** The consequence table as the shop sets it: frozen rows of the build, never the shipped library. */
import type { ConsequenceRow, Library, Provenance } from '../schema.ts';
import { change, type Change } from './change.ts';
import type { Draft } from './path.ts';

export type Figure =
  'fairMinutesPerM2' | 'fairMinutesPerEdgeM' | 'fillerKgM2' | 'extraHours' | 'waitHoursAt20C';

export const BY_THE_SHOP = 'set by the shop in this build';
export type Basis = 'measured' | 'assumed';

const basisOf = ({ kind }: Provenance): Basis => (kind === 'measured' ? 'measured' : 'assumed');

/** The document with one row of the table replaced; the whole table is frozen with it. */
export function putConsequence(
  document: Draft,
  rows: Library,
  row: ConsequenceRow,
  said: string,
): Change {
  const consequences = rows.consequences.map((one) => (one.id === row.id ? row : one));
  return change(`${row.name}: ${said}`, {
    ...document,
    library: { ...document.library, consequences },
  });
}

/** A figure or a word of a row, changed by hand: assumed until the shop says that it was measured. */
export function setConsequence(
  document: Draft,
  rows: Library,
  id: string,
  changed: Partial<Pick<ConsequenceRow, Figure | 'bestFinish' | 'touches'>>,
  said: string,
): Change {
  const row = rowOf(rows, id);
  const provenance: Provenance = { kind: basisOf(row.provenance), source: BY_THE_SHOP };
  const next = { ...row, ...changed, revision: row.revision + 1, provenance };
  return putConsequence(document, rows, next, said);
}

export function setBasis(document: Draft, rows: Library, id: string, kind: Basis): Change {
  const row = rowOf(rows, id);
  const next = { ...row, revision: row.revision + 1, provenance: { kind, source: BY_THE_SHOP } };
  return putConsequence(document, rows, next, kind);
}

/** @throws Error when the table has no such row */
export function rowOf(rows: Pick<Library, 'consequences'>, id: string): ConsequenceRow {
  const row = rows.consequences.find((one) => one.id === id);
  if (!row) throw new Error(`no consequence ${id}`);
  return row;
}

/** True while the build's row says otherwise than the library as shipped. */
export const differs = (row: ConsequenceRow, shipped: ConsequenceRow | undefined): boolean =>
  shipped !== undefined &&
  (row.revision !== shipped.revision || row.provenance.source !== shipped.provenance.source);
