/**
 * Builds and their history. A revision is a whole document; none is ever changed or deleted.
 *
 * `position` is the edit whose state a revision shows: its own number for an edit, an older one for
 * an undo or redo. `parent` is the position that an edit was made on. `record` is a change of floor
 * records alone, which no undo takes back.
 */
import type { Database } from 'better-sqlite3';

export const number = 10;

export function run(database: Database): void {
  database.exec(`
    CREATE TABLE builds (
      id            TEXT NOT NULL PRIMARY KEY,
      name          TEXT NOT NULL,
      unveiling     TEXT NOT NULL,
      sample        TEXT UNIQUE,
      created_at_ms INTEGER NOT NULL,
      changed_at_ms INTEGER NOT NULL,
      removed_at_ms INTEGER
    ) STRICT;

    CREATE TABLE revisions (
      build_id      TEXT NOT NULL REFERENCES builds (id),
      number        INTEGER NOT NULL CHECK (number >= 1),
      kind          TEXT NOT NULL CHECK (kind IN ('edit', 'record', 'undo', 'redo')),
      label         TEXT NOT NULL,
      position      INTEGER NOT NULL,
      parent        INTEGER,
      created_at_ms INTEGER NOT NULL,
      document      BLOB NOT NULL,
      PRIMARY KEY (build_id, number),
      FOREIGN KEY (build_id, position) REFERENCES revisions (build_id, number),
      FOREIGN KEY (build_id, parent) REFERENCES revisions (build_id, number)
    ) STRICT;

    CREATE INDEX revisions_edits ON revisions (build_id, number) WHERE kind = 'edit';

    CREATE TRIGGER revisions_stay BEFORE UPDATE ON revisions
      BEGIN SELECT RAISE (ABORT, 'a revision is never changed'); END;
    CREATE TRIGGER revisions_last BEFORE DELETE ON revisions
      BEGIN SELECT RAISE (ABORT, 'a revision is never deleted'); END;
  `);
}
