/**
 * A note beside the data file that says which file it was and how many changes it held. A file that
 * is gone, empty, older than the note or another one is noticed by it at the next start.
 */
import { readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Database } from 'better-sqlite3';
import { z } from 'zod';

const NAME = 'backcure.seen.json';

const seen = z.strictObject({
  store: z.string(),
  changes: z.number().int().min(0),
  at: z.string(),
});
export type Seen = z.infer<typeof seen>;

/** Null where there is no note, or none that can be read. */
export function readFileNote(dataDir: string): Seen | null {
  try {
    const read = seen.safeParse(JSON.parse(readFileSync(join(dataDir, NAME), 'utf8')));
    return read.success ? read.data : null;
  } catch {
    return null;
  }
}

/** Written beside its place first: one that is broken off leaves the one before. Never throws. */
export function writeFileNote(dataDir: string, note: Seen): void {
  const path = join(dataDir, NAME);
  try {
    writeFileSync(`${path}.part`, JSON.stringify(note), { mode: 0o600 });
    renameSync(`${path}.part`, path);
  } catch {
    // The change itself is stored; the note of the next one makes up for this.
  }
}

/** After a file was put in place on purpose. */
export const dropFileNote = (dataDir: string): void => rmSync(join(dataDir, NAME), { force: true });

/** Which file this is and how many changes it holds. */
export function countedIn(database: Database): Omit<Seen, 'at'> {
  const fact = database.prepare<[string], string>('SELECT value FROM meta WHERE name = ?').pluck();
  return { store: fact.get('store-id') ?? '', changes: Number(fact.get('changes') ?? 0) };
}

/** Gives a new file its name; one that has it keeps it. */
export function nameStore(database: Database, id: string): void {
  const keep = database.prepare(
    'INSERT INTO meta (name, value) VALUES (?, ?) ON CONFLICT (name) DO NOTHING',
  );
  keep.run('store-id', id);
  keep.run('changes', '0');
}

export const countChange = (database: Database): unknown =>
  database.prepare(`UPDATE meta SET value = CAST(value + 1 AS TEXT) WHERE name = 'changes'`).run();

/** What is to be said of an opened file that is not the one of last time; null when all is well. */
export function differenceTo(note: Seen | null, now: Omit<Seen, 'at'>): string | null {
  if (note === null) return null;
  if (note.store !== now.store) {
    return (
      'Another data file lies in the data folder than when the planner last ran. ' +
      'It was opened as it is. The kept copies of the data are under Builds.'
    );
  }
  const lost = note.changes - now.changes;
  if (lost <= 0) return null;
  return (
    `The data file is older than it was when the planner last ran: ${lost === 1 ? '1 change is' : `${lost} changes are`} ` +
    `missing, the last of ${note.at.slice(0, 16).replace('T', ' ')} UTC. An older copy may have ` +
    'been put in its place, or its journal was taken away. The kept copies of the data are under Builds.'
  );
}
