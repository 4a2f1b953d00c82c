/** Opens the shop's data file: folder, soundness, pragmas, migrations, and what is to be said of it. */
import { randomUUID } from 'node:crypto';
import { chmodSync, existsSync, mkdirSync, renameSync, statSync, writeFileSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import Database from 'better-sqlite3';
import { backUp, freeName } from './backup.ts';
import { newestSoundCopy, restoreCopy, stampOf } from './copies.ts';
import { isDamage, unavailable } from './errors.ts';
import { readHandle, writeHandle, type ReadHandle, type WriteHandle } from './handles.ts';
import { migrate } from './migrate.ts';
import { MIGRATIONS, type Migration } from './migrations/list.ts';
import { openNewer } from './newer.ts';
import { watchFile } from './watch.ts';
import { countedIn, differenceTo, nameStore, readFileNote, writeFileNote } from './fileNote.ts';

export const FILE_NAME = 'backcure.sqlite';
/** How long a second process is waited for at the start; later a request is tried again instead. */
const BUSY_MS = 4000;

export interface Store {
  readonly dataDir: string;
  readonly read: ReadHandle;
  readonly write: WriteHandle;
  /** True for the file of a newer program: it can be looked at and not changed. */
  readonly readOnly: boolean;
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
 * Opens or makes the data file. A damaged one is kept aside, and its newest sound copy takes its place.
 * @throws StoreUnavailable with a plain message when there is no way to keep data
 */
export function openStore({ dataDir, now, migrations = MIGRATIONS }: OpenOptions): Store {
  try {
    makeFolder(resolve(dataDir));
    const file = join(dataDir, FILE_NAME);
    const gone = inPlaceOfMissing(dataDir, now);
    const newer = openNewer(file, dataDir, migrations);
    if (newer) return newer;
    let notice = gone;
    let database = openSound(file);
    if (database === null) {
      notice = inPlaceOfDamaged(dataDir, now);
      database = new Database(file, { timeout: BUSY_MS });
    }
    try {
      prepare(database, dataDir, now, migrations);
    } catch (error) {
      database.close();
      throw error;
    }
    const open = database;
    // Said of a file that was found, not of one that was just put there.
    notice ??= differenceTo(readFileNote(dataDir), countedIn(open));
    writeFileNote(dataDir, { ...countedIn(open), at: now().toISOString() });
    watchFile(open, dataDir, FILE_NAME, now);
    return {
      dataDir,
      read: readHandle(open),
      write: writeHandle(open),
      readOnly: false,
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

/**
 * Where there was a data file and none, or an empty one, lies there now: its newest copy takes the place.
 * @returns what is to be said, or null when all is as it should be
 */
function inPlaceOfMissing(dataDir: string, now: () => Date): string | null {
  const file = join(dataDir, FILE_NAME);
  const size = statSync(file, { throwIfNoEntry: false })?.size;
  if (size !== undefined && size > 0) return null;
  const copy = newestSoundCopy(dataDir);
  if (copy === null && readFileNote(dataDir) === null) return null;
  const what = size === undefined ? 'The data file is gone' : 'The data file is empty';
  return `${what}. ${putInPlace(dataDir, now, copy?.name ?? null, copy?.at ?? '')}`;
}

/** Keeps the damaged file aside. */
function inPlaceOfDamaged(dataDir: string, now: () => Date): string {
  const copy = newestSoundCopy(dataDir);
  const kept = setAside(dataDir, stampOf(now()));
  return (
    `The data file was damaged and could not be read. It is kept as ${kept}. ` +
    putInPlace(dataDir, now, copy?.name ?? null, copy?.at ?? '')
  );
}

function putInPlace(dataDir: string, now: () => Date, name: string | null, at: string): string {
  if (name === null) return 'There is no copy of it, so a new one was begun.';
  restoreCopy(dataDir, FILE_NAME, name, now());
  const when = at.slice(0, 16).replace('T', ' ');
  return `The copy of ${when} UTC was put in its place: what was done after that is missing.`;
}

/** The opened file, or null when it is not a sound database. */
function openSound(file: string): Database.Database | null {
  // Made here, so that nobody else may read it from the first moment; its journal takes the same mode.
  if (!existsSync(file)) writeFileSync(file, '', { mode: 0o600 });
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
  migrate(database, migrations, (version) => backUp(database, dataDir, version, stampOf(now())));
  giveBackRoom(database);
  // After the refusals: a file of another program is not touched at all.
  database.pragma('journal_mode = WAL');
  database.pragma('synchronous = FULL');
  nameStore(database, randomUUID());
  for (const suffix of ['', '-wal', '-shm']) {
    const path = join(dataDir, FILE_NAME + suffix);
    if (existsSync(path)) chmodSync(path, 0o600);
  }
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
