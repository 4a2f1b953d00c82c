/** Names that people give to a state of a build, to come back to it. */
import type { Database } from 'better-sqlite3';

export const number = 60;

export function run(database: Database): void {
  database.exec(`
    CREATE TABLE versions (
      build_id      TEXT NOT NULL,
      number        INTEGER NOT NULL,
      name          TEXT NOT NULL CHECK (length(name) BETWEEN 1 AND 80),
      created_at_ms INTEGER NOT NULL,
      PRIMARY KEY (build_id, number),
      FOREIGN KEY (build_id, number) REFERENCES revisions (build_id, number)
    ) STRICT;
  `);
}
