/** Opens the shop's data file: folder, soundness, pragmas, migrations. */
import { existsSync, mkdirSync, renameSync, statSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import Database from 'better-sqlite3';
import { backUp, freeName } from './backup.ts';
import { isDamage, unavailable } from './errors.ts';
import { readHandle, writeHandle, type ReadHandle, type WriteHandle } from './handles.ts';
import { migrate } from './migrate.ts';
import { MIGRATIONS, type Migration } from './migrations/list.ts';

export const FILE_NAME = 'backcure.sqlite';
/** How long a second process is waited for before an answer says that the file is held. */
const BUSY_MS = 4000;

export interface Store {
  readonly read: ReadHandle;
  readonly write: WriteHandle;
  /** What the person should know about opening it, or null. */
  readonly notice: string | null;
  close(): void;
}

export interface OpenOptions {
  /** Made when it is not there. */
  readonly dataDir: string;
  readonly now: () => Date;
  readonly migrations?: readonly Migration[];
}

/**
 * Opens or makes the data file. A damaged one is renamed and kept, and a new one begun.
 * @throws StoreUnavailable with a plain message when there is no way to keep data
 */
export function openStore({ dataDir, now, migrations = MIGRATIONS }: OpenOptions): Store {
  try {
    makeFolder(resolve(dataDir));
    const file = join(dataDir, FILE_NAME);
    let notice: string | null = null;
    let database = openSound(file);
    if (database === null) {
      const kept = setAside(dataDir, stamp(now()));
      notice =
        `The data file was damaged and could not be read. It is kept as ${kept} ` +
        'and a new one was begun.';
      database = new Database(file);
    }
    try {
      prepare(database, dataDir, now, migrations);
    } catch (error) {
      database.close();
      throw error;
    }
    const open = database;
    return {
      read: readHandle(open),
      write: writeHandle(open),
      notice,
      close: () => open.close(),
    };
  } catch (error) {
    throw unavailable(error, dataDir);
  }
}

/** Level by level: Node's own recursive way never returns from a file system that takes no folders. */
function makeFolder(folder: string): void {
  if (existsSync(folder)) return;
  const parent = dirname(folder);
  if (parent !== folder) makeFolder(parent);
  try {
    mkdirSync(folder, { mode: 0o700 });
  } catch (error) {
    // Another process may have been first.
    if (!statSync(folder, { throwIfNoEntry: false })?.isDirectory()) throw error;
  }
}

/** The opened file, or null when it is not a sound database. */
function openSound(file: string): Database.Database | null {
  const database = new Database(file, { timeout: BUSY_MS });
  try {
    if (database.pragma('quick_check(1)', { simple: true }) === 'ok') return database;
  } catch (error) {
    if (!isDamage(error)) {
      database.close();
      throw error;
    }
  }
  database.close();
  return null;
}

function prepare(
  database: Database.Database,
  dataDir: string,
  now: () => Date,
  migrations: readonly Migration[],
): void {
  database.pragma(`busy_timeout = ${BUSY_MS}`);
  database.pragma('foreign_keys = ON');
  database.pragma('trusted_schema = OFF');
  migrate(database, migrations, (version) => backUp(database, dataDir, version, stamp(now())));
  giveBackRoom(database);
  // After the refusals: a file of a newer program is not touched at all.
  database.pragma('journal_mode = WAL');
  database.pragma('synchronous = FULL');
}

/** A step that makes the history smaller leaves pages of the file unused. */
function giveBackRoom(database: Database.Database): void {
  const [free, all] = ['freelist_count', 'page_count'].map((name) =>
    Number(database.pragma(name, { simple: true })),
  );
  if (free! * 2 > all! && all! > 1000) database.exec('VACUUM');
}

/** Renames the file with its journal files; answers with the new name. */
function setAside(dataDir: string, when: string): string {
  const kept = freeName(dataDir, `backcure.damaged-${when}`);
  for (const suffix of ['', '-wal', '-shm']) {
    const from = join(dataDir, FILE_NAME + suffix);
    if (existsSync(from)) renameSync(from, kept + suffix);
  }
  return kept;
}

const stamp = (date: Date): string => date.toISOString().slice(0, 19).replace(/[-:]/g, '') + 'Z';
