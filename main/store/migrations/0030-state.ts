/** State that is no part of a build: how the windows stand, and single facts of the program. */
import type { Database } from 'better-sqlite3';

export const number = 30;

export function run(database: Database): void {
  database.exec(`
    CREATE TABLE view_state (
      name          TEXT NOT NULL PRIMARY KEY,
      value         TEXT NOT NULL CHECK (json_valid(value)),
      changed_at_ms INTEGER NOT NULL
    ) STRICT;

    CREATE TABLE meta (
      name  TEXT NOT NULL PRIMARY KEY,
      value TEXT NOT NULL
    ) STRICT;
  `);
}
