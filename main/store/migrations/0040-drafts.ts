/**
 * Builds that are not complete yet. They were a key of the window's state, where the last window to
 * write took the place of all others; each gets a row of its own, and a write says which revision it
 * was made on. `removed_at_ms` is set when a draft is dropped or has become a build.
 */
import type { Database } from 'better-sqlite3';

export const number = 40;

export function run(database: Database): void {
  database.exec(`
    CREATE TABLE drafts (
      id            TEXT NOT NULL PRIMARY KEY,
      revision      INTEGER NOT NULL CHECK (revision >= 1),
      document      TEXT NOT NULL CHECK (json_valid(document)),
      created_at_ms INTEGER NOT NULL,
      changed_at_ms INTEGER NOT NULL,
      removed_at_ms INTEGER
    ) STRICT;

    -- The id is laid out as UUID version 7, from the moment at which the window's state was kept.
    INSERT INTO drafts (id, revision, document, created_at_ms, changed_at_ms)
      SELECT printf('%08x-%04x-7000-8000-000000000000', changed_at_ms >> 16, changed_at_ms & 65535),
             1, json_extract(value, '$.draft'), changed_at_ms, changed_at_ms
      FROM view_state
      WHERE name = 'planner' AND json_type(value, '$.draft') = 'object';

    INSERT INTO meta (name, value)
      SELECT 'open-draft', drafts.id FROM drafts, view_state
      WHERE view_state.name = 'planner' AND json_type(view_state.value, '$.drafting') = 'true';

    UPDATE view_state SET value = json_remove(value, '$.draft', '$.drafting')
      WHERE name = 'planner';
  `);
}
