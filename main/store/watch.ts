/** Looks after the open data file: that it still lies in its place, and that each change is noted. */
import { existsSync, mkdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import type { Database } from 'better-sqlite3';
import { StoreGone } from './errors.ts';
import { countedIn, writeFileNote } from './fileNote.ts';

interface Watch {
  /** @throws StoreGone when the file is not in its place any more */
  before(): void;
  after(): void;
}

const watches = new WeakMap<Database, Watch>();

const NO_WATCH: Watch = { before: () => {}, after: () => {} };
export const watchOf = (database: Database): Watch => watches.get(database) ?? NO_WATCH;

/** Begins to look after a file that was just opened. */
export function watchFile(
  database: Database,
  dataDir: string,
  fileName: string,
  now: () => Date,
): void {
  const file = join(dataDir, fileName);
  const { dev, ino } = statSync(file);
  let gone: StoreGone | null = null;
  watches.set(database, {
    before: () => {
      if (gone) throw gone;
      const here = statSync(file, { throwIfNoEntry: false });
      if (here && here.dev === dev && here.ino === ino) return;
      gone = new StoreGone(rescued(database, dataDir, here ? null : file, now()));
      throw gone;
    },
    after: () => writeFileNote(dataDir, { ...countedIn(database), at: now().toISOString() }),
  });
}

/**
 * Writes what the open file holds back to the disk: an open file can be read after its name is gone.
 * @param place where it was; null when something else lies there
 * @returns path of what was written, or null when that failed too
 */
function rescued(
  database: Database,
  dataDir: string,
  place: string | null,
  now: Date,
): string | null {
  const name = `backcure.replaced-${now.toISOString().slice(0, 19).replace(/[-:]/g, '')}Z.sqlite`;
  const path = place ?? join(dataDir, name);
  try {
    if (!existsSync(dataDir)) mkdirSync(dataDir, { recursive: true, mode: 0o700 });
    database.prepare('VACUUM INTO ?').run(path);
    return path;
  } catch {
    return null;
  }
}
