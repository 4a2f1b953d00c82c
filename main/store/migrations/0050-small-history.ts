/**
 * A revision is kept as its difference to an earlier one, `base`, or whole where that is null; its
 * checksum is over the text of the document and the facts beside it. Nothing of the history goes:
 * every text that could be read before is read back out of its new form before it is written.
 */
import type { Database } from 'better-sqlite3';
import { inflated, packed, type Facts } from '../packing.ts';

export const number = 50;

interface Row extends Facts {
  readonly document: Buffer;
}

export function run(database: Database): void {
  database.exec(`
    ALTER TABLE revisions ADD COLUMN base INTEGER;
    ALTER TABLE revisions ADD COLUMN checksum BLOB NOT NULL DEFAULT x'';
    DROP TRIGGER revisions_stay;
  `);
  const builds = database.prepare<[], string>('SELECT id FROM builds').pluck().all();
  for (const build of builds) shrink(database, build);
  database.exec(`
    CREATE TRIGGER revisions_stay BEFORE UPDATE ON revisions
      BEGIN SELECT RAISE (ABORT, 'a revision is never changed'); END;
  `);
}

/** Row by row: a long history would not fit the memory as text. */
function shrink(database: Database, build: string): void {
  const numbers = database
    .prepare<[string], number>('SELECT number FROM revisions WHERE build_id = ? ORDER BY number')
    .pluck()
    .all(build);
  const read = database.prepare<[string, number], Row>(
    `SELECT build_id AS build, number, kind, label, position, parent, created_at_ms, document
     FROM revisions WHERE build_id = ? AND number = ?`,
  );
  const write = database.prepare(
    'UPDATE revisions SET document = ?, base = ?, checksum = ? WHERE build_id = ? AND number = ?',
  );
  let whole: { readonly number: number; readonly text: string } | null = null;
  for (const at of numbers) {
    const row = read.get(build, at)!;
    const text = textOf(row.document);
    // What cannot be read stays as it is; without a checksum it counts as damaged.
    if (text === null) continue;
    const next = packed(row, text, whole);
    if (next.base === null) whole = { number: at, text };
    write.run(next.document, next.base, next.checksum, build, at);
  }
}

function textOf(document: Buffer): string | null {
  try {
    const text = inflated(document);
    JSON.parse(text);
    return text;
  } catch {
    return null;
  }
}
