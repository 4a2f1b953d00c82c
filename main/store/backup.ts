/**
 * The copy of the data file that is made before a migration changes it. It is
 * opened and compared with the original, since a copy that nobody has read may be unsound; without a
 * sound copy no migration runs.
 */
import {
  closeSync,
  existsSync,
  fsyncSync,
  openSync,
  readdirSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { diskTrouble, StoreUnavailable } from './errors.ts';
import { versionOf } from './migrate.ts';

/** Copies of earlier migrations that are kept, the newest one included. */
const BACKUPS_KEPT = 5;
const NAME = /^backcure\.before-step-\d+-(\d{8}T\d{6}Z)(?:-(\d+))?\.sqlite$/;

/**
 * Copies the data file to a new file in its folder and reads the copy back.
 * @param version step of the file before the migration, part of the copy's name
 * @param when stamp of the day and time for the name, as in `20270419T060000Z`
 * @returns path of the copy
 * @throws StoreUnavailable in one line when there is no sound copy; nothing is left of a bad one
 */
export function backUp(
  database: Database.Database,
  dataDir: string,
  version: number,
  when: string,
): string {
  const copy = freeName(dataDir, `backcure.before-step-${version}-${when}`);
  try {
    writeCopy(database, copy);
  } catch (error) {
    const why = diskTrouble(error) ?? (error instanceof Error ? error.message : String(error));
    throw new StoreUnavailable(
      'The data file has to be brought up to date for this program, and no sound copy of it could ' +
        `be made first, so it was left as it is. ${why} (${dataDir})`,
    );
  }
  dropOldest(dataDir, copy);
  return copy;
}

/**
 * Copies the open data file and reads the copy back; its owner alone may read it.
 * @param copy path that is not taken
 * @throws Error when there is no sound copy; nothing is left of a bad one
 */
export function writeCopy(database: Database.Database, copy: string): void {
  const draft = `${copy}.part`;
  try {
    // A draft of this very name can only be the rest of a copy that was broken off.
    rmSync(draft, { force: true });
    writeFileSync(draft, '', { mode: 0o600 });
    database.prepare('VACUUM INTO ?').run(draft);
    const fault = faultOfCopy(draft, database);
    if (fault !== null) throw new Error(fault);
    flush(draft);
    renameSync(draft, copy);
  } catch (error) {
    if (statSync(draft, { throwIfNoEntry: false })?.isFile()) rmSync(draft);
    throw error;
  }
}

/** Waits until the file is on the disk: SQLite does not do it for a copy made by VACUUM INTO. */
export function flush(path: string): void {
  const file = openSync(path, 'r+');
  try {
    fsyncSync(file);
  } finally {
    closeSync(file);
  }
}

/**
 * Opens a copy and compares it with the file that it was made of.
 * @param copy path of the copy
 * @param original the open data file
 * @returns what is wrong with the copy, one sentence, or null when it is sound
 */
export function faultOfCopy(copy: string, original: Database.Database): string | null {
  let database: Database.Database | null = null;
  try {
    database = new Database(copy, { readonly: true, fileMustExist: true });
    const check = database.pragma('integrity_check(1)', { simple: true });
    if (check !== 'ok') return 'The copy is damaged.';
    if (versionOf(database) !== versionOf(original)) return 'The copy is of another step.';
    for (const table of tablesOf(original)) {
      if (countOf(database, table) !== countOf(original, table)) {
        return `The copy lacks rows of ${table}.`;
      }
    }
    return faultOfNewestBuild(database, original);
  } catch {
    return 'The copy cannot be read.';
  } finally {
    database?.close();
  }
}

/** Reads the newest revision from both: what the file itself has damaged is no fault of the copy. */
function faultOfNewestBuild(
  database: Database.Database,
  original: Database.Database,
): string | null {
  const newest = original
    .prepare<[], { build_id: string; number: number; document: Buffer }>(
      'SELECT build_id, number, document FROM revisions ORDER BY created_at_ms DESC LIMIT 1',
    )
    .get();
  if (newest === undefined) return null;
  const copied = database
    .prepare<[string, number], Buffer>(
      'SELECT document FROM revisions WHERE build_id = ? AND number = ?',
    )
    .pluck()
    .get(newest.build_id, newest.number);
  return copied?.equals(newest.document)
    ? null
    : 'The build that was changed last cannot be read from the copy.';
}

const tablesOf = (database: Database.Database): string[] =>
  database
    .prepare<[], string>(
      `SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite_%'`,
    )
    .pluck()
    .all();

const countOf = (database: Database.Database, table: string): number =>
  Number(database.prepare(`SELECT count(*) FROM "${table}"`).pluck().get());

/** Removes the oldest copies of migrations beyond those kept; never the one just made. */
function dropOldest(dataDir: string, justMade: string): void {
  const age = (name: string): string => {
    const [, stamp = '', again = '1'] = NAME.exec(name) ?? [];
    return `${stamp}-${again.padStart(4, '0')}`;
  };
  const others = readdirSync(dataDir)
    .filter((name) => NAME.test(name) && join(dataDir, name) !== justMade)
    .toSorted((a, b) => (age(a) < age(b) ? 1 : -1));
  for (const name of others.slice(BACKUPS_KEPT - 1)) rmSync(join(dataDir, name), { force: true });
}

/**
 * A file name that is not taken yet.
 * @param stem name without its ending; a number follows it where it is taken
 */
export function freeName(dataDir: string, stem: string): string {
  for (let n = 1; ; n += 1) {
    const name = join(dataDir, `${stem}${n === 1 ? '' : `-${n}`}.sqlite`);
    if (!existsSync(name)) return name;
  }
}
