/** Rows of the library that a build has not got, or has in an older state: taken by hand, never slipped in. */
import type { Library, LibraryTable, Provenance } from '../schema.ts';
import { change, type Change } from './change.ts';
import { BY_THE_SHOP } from './consequences.ts';
import type { Draft } from './path.ts';

export interface OfferedRow {
  readonly table: LibraryTable;
  readonly id: string;
  readonly name: string;
  /** `new`: the build plans without it; `newer`: its own copy is of an earlier state. */
  readonly is: 'new' | 'newer';
}

interface Row {
  readonly id: string;
  readonly name: string;
  readonly revision?: number;
  readonly byOffer?: true | undefined;
  readonly provenance: Provenance;
  readonly hardeners?: readonly { readonly bench?: unknown; readonly provenance: Provenance }[];
}

type Tables = Partial<Record<LibraryTable, readonly Row[]>>;

const tablesOf = (document: Draft): Tables => (document.library ?? {}) as Tables;

/** True for a row that the shop typed, measured or changed: nothing is offered in its place. */
function isOwn(row: Row): boolean {
  const { kind, source, typed } = row.provenance;
  const read =
    row.hardeners?.some((one) => one.bench !== undefined || one.provenance.typed) ?? false;
  return kind === 'measured' || source === BY_THE_SHOP || typed !== undefined || read;
}

const isNewer = (own: Row, shipped: Row): boolean =>
  !isOwn(own) && (own.revision ?? 1) < (shipped.revision ?? 1);

/** Rows that the build could take, table by table, in the order of the library. */
export function offeredRows(document: Draft, library: Library): OfferedRow[] {
  const own = tablesOf(document);
  return (Object.keys(library) as LibraryTable[]).flatMap((table) => {
    const frozen = own[table] ?? [];
    if (frozen.length === 0) return [];
    return (library[table] as readonly Row[]).flatMap((row): OfferedRow[] => {
      const { id, name } = row;
      const mine = frozen.find((one) => one.id === id);
      if (!mine) return row.byOffer ? [{ table, id, name, is: 'new' }] : [];
      return isNewer(mine, row) ? [{ table, id, name, is: 'newer' }] : [];
    });
  });
}

/** The document with every offered row: newer ones in the place of their older state, new ones behind. */
export function acceptOfferedRows(document: Draft, library: Library): Change {
  const offered = offeredRows(document, library);
  const own = tablesOf(document);
  const tables = { ...own };
  for (const table of new Set(offered.map((row) => row.table))) {
    const wanted = new Set(offered.filter((row) => row.table === table).map(({ id }) => id));
    const rows = (library[table] as readonly Row[]).filter(({ id }) => wanted.has(id));
    const byId = new Map(rows.map((row) => [row.id, row]));
    const frozen = own[table] ?? [];
    const known = new Set(frozen.map(({ id }) => id));
    tables[table] = [
      ...frozen.map((row) => byId.get(row.id) ?? row),
      ...rows.filter(({ id }) => !known.has(id)),
    ];
  }
  const count = offered.length;
  const label = `Take ${count} ${count === 1 ? 'row' : 'rows'} of the library`;
  return change(label, { ...document, library: tables } as Draft);
}
