/**
 * Library rows by table, id, origin and revision. `shipped` rows are put in by the program, `shop`
 * rows by the shop; where the shop has one of its own it counts. `body` is the row as JSON.
 */
import type { Database } from 'better-sqlite3';

export const number = 20;

export function run(database: Database): void {
  database.exec(`
    CREATE TABLE library_rows (
      sequence          INTEGER PRIMARY KEY,
      table_name        TEXT NOT NULL,
      id                TEXT NOT NULL,
      origin            TEXT NOT NULL CHECK (origin IN ('shipped', 'shop')),
      revision          INTEGER NOT NULL CHECK (revision >= 1),
      provenance_kind   TEXT NOT NULL,
      provenance_source TEXT NOT NULL,
      demo              INTEGER NOT NULL CHECK (demo IN (0, 1)),
      body              TEXT NOT NULL CHECK (json_valid(body)),
      created_at_ms     INTEGER NOT NULL,
      UNIQUE (table_name, id, origin, revision)
    ) STRICT;
  `);
}
