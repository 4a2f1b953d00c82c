/** Library rows: seeded from the shipped library, overruled by the shop's own. */
import { librarySchema, type Library, type LibraryTable } from '../../app/document/schema.ts';
import { connection, write, type ReadHandle, type WriteHandle } from './handles.ts';

const TABLES = Object.keys(librarySchema.shape) as LibraryTable[];

/**
 * Puts shipped rows in that are not there yet, by table, id and revision. Rows of the shop's own
 * are never touched, and a second run changes nothing.
 * @returns the number of rows that were new
 */
export function seedLibrary(handle: WriteHandle, library: Library, nowMs: number): number {
  return write(handle, () => {
    const insert = connection(handle).prepare(
      `INSERT INTO library_rows
         (table_name, id, origin, revision, provenance_kind, provenance_source, demo, body,
          created_at_ms)
       VALUES (?, ?, 'shipped', ?, ?, ?, ?, ?, ?)
       ON CONFLICT DO NOTHING`,
    );
    let added = 0;
    for (const table of TABLES) {
      for (const row of library[table]) {
        const { kind, source } = row.provenance;
        const demo = kind === 'demo' ? 1 : 0;
        const body = JSON.stringify(row);
        added += insert.run(table, row.id, row.revision, kind, source, demo, body, nowMs).changes;
      }
    }
    return added;
  });
}

/**
 * Puts a row of the shop's own in, over those that it had of the same id; shipped rows stay behind it. Its
 * revision is the next of the shop's own, so that nothing is ever overwritten.
 */
export function keepOwnRow<T extends LibraryTable>(
  handle: WriteHandle,
  table: T,
  row: Library[T][number],
  nowMs: number,
): void {
  write(handle, () => {
    const last = connection(handle)
      .prepare<[string, string], { revision: number }>(
        `SELECT coalesce(max(revision), 0) AS revision FROM library_rows
         WHERE table_name = ? AND id = ?`,
      )
      .get(table, row.id)!;
    const revision = Math.max(last.revision + 1, row.revision);
    const { kind, source } = row.provenance;
    connection(handle)
      .prepare(
        `INSERT INTO library_rows
           (table_name, id, origin, revision, provenance_kind, provenance_source, demo, body,
            created_at_ms)
         VALUES (?, ?, 'shop', ?, ?, ?, ?, ?, ?)`,
      )
      .run(
        table,
        row.id,
        revision,
        kind,
        source,
        kind === 'demo' ? 1 : 0,
        JSON.stringify({ ...row, revision }),
        nowMs,
      );
  });
}

/**
 * The library in force: of every row the shop's newest, or else the newest shipped one, in the
 * order in which the rows first came. A row that today's schema cannot read is left out; the
 * shipped library stands behind it.
 */
export function readLibrary(handle: ReadHandle): Library {
  const rows = connection(handle)
    .prepare<[], { table_name: string; body: string }>(
      `SELECT table_name, body FROM (
         SELECT table_name, body,
                min(sequence) OVER (PARTITION BY table_name, id) AS first,
                row_number() OVER (PARTITION BY table_name, id
                                   ORDER BY origin = 'shop' DESC, revision DESC) AS place
         FROM library_rows)
       WHERE place = 1 ORDER BY first`,
    )
    .all();
  const raw: Record<string, unknown[]> = Object.fromEntries(TABLES.map((table) => [table, []]));
  for (const { table_name, body } of rows) raw[table_name]?.push(JSON.parse(body));
  const whole = librarySchema.safeParse(raw);
  if (whole.success) return whole.data;
  for (const table of TABLES) {
    raw[table] = raw[table]!.filter((row) => librarySchema.safeParse({ [table]: [row] }).success);
  }
  return librarySchema.parse(raw);
}
