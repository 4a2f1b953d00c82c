/** The rows a build works with: its own frozen copies first, the shipped or shop's library behind. */
import type {
  Build,
  ClothRow,
  CoreRow,
  FullBuild,
  HardenerRow,
  Library,
  LibraryTable,
  MouldRow,
  ReleaseRow,
  ResinRow,
} from './schema.ts';
import { memoByObject, memoByObjects } from './memo.ts';

interface Row {
  readonly id: string;
  readonly revision: number;
  readonly byOffer?: true | undefined;
}

const TABLES: readonly LibraryTable[] = [
  'resins',
  'cloths',
  'cores',
  'consumables',
  'releases',
  'moulds',
  'labour',
  'finishing',
  'consequences',
  'practice',
];

/**
 * The rows of a build first, the library's behind them. A table that the build has frozen gets no row that
 * is there by offer: such rows are taken by hand, never slipped in.
 */
export const mergeLibraries = memoByObjects((own: Library, behind: Library): Library =>
  merged(own, behind, (row, frozen) => !frozen || row.byOffer !== true),
);

/** Two libraries in one: the first one's rows win over the second's with the same id. */
export const joinLibraries = memoByObjects((first: Library, second: Library): Library =>
  merged(first, second, () => true),
);

function merged(
  first: Library,
  second: Library,
  takes: (row: Row, frozen: boolean) => boolean,
): Library {
  const tables: Record<string, readonly Row[]> = {};
  for (const table of TABLES) {
    const own: readonly Row[] = first[table];
    const ids = new Set(own.map((row) => row.id));
    const more = (second[table] as readonly Row[]).filter(
      (row) => !ids.has(row.id) && takes(row, own.length > 0),
    );
    tables[table] = [...own, ...more];
  }
  return tables as unknown as Library;
}

/** Ids of the cloths that are laid anywhere in the part. */
export function clothsUsed(build: FullBuild): ReadonlySet<string> {
  const cloths = new Set(build.part.inserts.map(({ cloth }) => cloth));
  for (const zone of build.part.zones) {
    const plies = [...zone.outer, ...zone.inner, ...zone.local, ...(zone.closeout?.plies ?? [])];
    for (const ply of plies) cloths.add(ply.cloth);
  }
  return cloths;
}

/** Ids of the rows that a build names, table by table; null: the whole table is in use. */
function usedIds(build: FullBuild): Readonly<Record<LibraryTable, ReadonlySet<string> | null>> {
  const cores = new Set<string>();
  for (const zone of build.part.zones) if (zone.core) cores.add(zone.core.material);
  return {
    resins: new Set([build.resin.system]),
    cloths: clothsUsed(build),
    cores,
    releases: new Set([build.mould.release]),
    moulds: new Set([build.mould.material]),
    consumables: null,
    labour: null,
    finishing: null,
    consequences: null,
    practice: null,
  };
}

/** The library cut down to the rows that the build uses: what is frozen into its document. */
function usedRows(build: FullBuild, library: Library): Library {
  const used = usedIds(build);
  const cut: Record<string, readonly Row[]> = {};
  for (const table of TABLES) {
    const ids = used[table];
    const rows: readonly Row[] = library[table];
    cut[table] = ids ? rows.filter((row) => ids.has(row.id)) : rows;
  }
  return cut as unknown as Library;
}

/**
 * The document with a frozen copy of every row it uses. Rows it already carries stay as they are;
 * rows it no longer names are dropped, but for resins that the shop made or changed: nobody else has
 * them.
 */
export function freezeRows(document: Build, full: FullBuild, library: Library): Build {
  const used = usedRows(full, mergeLibraries(full.library, library));
  const kept = full.library.resins.filter(
    (resin) => !used.resins.some(({ id }) => id === resin.id) && isOwnResin(resin, library),
  );
  return { ...document, library: { ...used, resins: [...used.resins, ...kept] } };
}

/** True when the resin stands in no library but the build's own, or otherwise than there. */
export function isOwnResin(resin: ResinRow, library: Pick<Library, 'resins'>): boolean {
  const known = library.resins.find(({ id }) => id === resin.id);
  return !known || JSON.stringify(known) !== JSON.stringify(resin);
}

/** A row that a build names and no library holds. `readBuild` reports it before it can be thrown. */
export class MissingRow extends Error {
  readonly table: string;
  readonly id: string;
  constructor(table: string, id: string) {
    super(`${table} has no row ${id}`);
    this.name = 'MissingRow';
    this.table = table;
    this.id = id;
  }
}

/** Rows by id; of two with one id the first. */
const rowsById = memoByObject(
  (rows: readonly Row[]) => new Map(rows.toReversed().map((row) => [row.id, row])),
);

function rowOf<T extends Row>(rows: readonly T[], table: string, id: string): T {
  const row = rowsById(rows).get(id) as T | undefined;
  if (!row) throw new MissingRow(table, id);
  return row;
}

export const clothOf = (library: Library, id: string): ClothRow =>
  rowOf(library.cloths, 'cloths', id);
export const coreOf = (library: Library, id: string): CoreRow => rowOf(library.cores, 'cores', id);
export const mouldOf = (library: Library, id: string): MouldRow =>
  rowOf(library.moulds, 'moulds', id);
export const releaseOf = (library: Library, id: string): ReleaseRow =>
  rowOf(library.releases, 'releases', id);
export const resinOf = (library: Library, id: string): ResinRow =>
  rowOf(library.resins, 'resins', id);

/** @throws MissingRow when the resin has no such hardener. */
export function hardenerOf(
  library: Library,
  resin: { system: string; hardener: string },
): HardenerRow {
  const hardener = resinOf(library, resin.system).hardeners.find((h) => h.id === resin.hardener);
  if (!hardener) throw new MissingRow(`resins.${resin.system}.hardeners`, resin.hardener);
  return hardener;
}

/** A number of trade practice that a build may have to do without; null where it has not taken it. */
export const practiceIf = (library: Library, id: string): number | null =>
  library.practice.find((row) => row.id === id)?.value ?? null;

/** A working day where one is counted in hours, min: a night of cure, a spare day, a hired day. */
export const workDayMinutes = (library: Library): number =>
  (practiceIf(library, 'work-day-hours') ?? WORK_DAY_HOURS_OF_BEFORE) * 60;

/** What builds were planned with before there was a row, and are until they take it. */
const WORK_DAY_HOURS_OF_BEFORE = 8;

/** A number of trade practice by id. @throws MissingRow */
export const practiceOf =
  (library: Library) =>
  (id: string): number =>
    rowOf(library.practice, 'practice', id).value;
