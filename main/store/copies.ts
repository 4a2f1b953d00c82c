/** Kept copies of the data file: one a day, those of migrations and restores, and the way back to one. */
import {
  chmodSync,
  copyFileSync,
  existsSync,
  readdirSync,
  renameSync,
  rmSync,
  statSync,
} from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import type { CopySummary } from '../../app/contract/channels.ts';
import { flush, freeName, writeCopy } from './backup.ts';
import { StoreRefusal } from './errors.ts';
import { connection, type ReadHandle } from './handles.ts';
import { versionOf } from './migrate.ts';
import { MIGRATIONS } from './migrations/list.ts';
import { dropFileNote } from './fileNote.ts';

/** Daily copies that are kept, and files that a restore put aside. */
const KEPT = { day: 14, replaced: 5 } as const;
const NAME = /^backcure\.(day|before-step|replaced|damaged)-[\w-]+\.sqlite$/;
const DAY = /^backcure\.day-(\d{8})\.sqlite$/;
const REPLACED = /^backcure\.replaced-[\w-]+\.sqlite$/;

export const stampOf = (date: Date): string =>
  date.toISOString().slice(0, 19).replace(/[-:]/g, '') + 'Z';

/**
 * Makes the copy of the day where it is not there yet, and lets the oldest go.
 * @returns its path, or null when there was nothing to do
 * @throws Error when no sound copy could be made; older ones stay then
 */
export function keepCopyOfDay(handle: ReadHandle, dataDir: string, now: Date): string | null {
  const copy = join(dataDir, `backcure.day-${stampOf(now).slice(0, 8)}.sqlite`);
  if (existsSync(copy)) return null;
  writeCopy(connection(handle), copy);
  rotate(dataDir, DAY, KEPT.day);
  return copy;
}

/** What is kept, the newest first. A copy that cannot be read is told with its fault. */
export function listCopies(dataDir: string): CopySummary[] {
  return namesIn(dataDir)
    .map((name) => {
      const path = join(dataDir, name);
      const { size, mtime } = statSync(path);
      const kind = NAME.exec(name)![1] as CopySummary['kind'];
      return { name, kind, at: mtime.toISOString(), bytes: size, ...contentsOf(path) };
    })
    .toSorted((a, b) => (a.at < b.at ? 1 : -1));
}

/** The newest copy that can be read, or null. */
export const newestSoundCopy = (dataDir: string): CopySummary | null =>
  listCopies(dataDir).find((copy) => copy.fault === null && copy.kind !== 'damaged') ?? null;

/**
 * Puts a copy in the place of the data file, which is closed, and keeps that one aside.
 * @param name of a file in the data folder, as the list tells it
 * @throws StoreRefusal when there is no such copy or it cannot be read; nothing was changed then
 */
export function restoreCopy(dataDir: string, fileName: string, name: string, now: Date): void {
  if (!namesIn(dataDir).includes(name)) {
    throw new StoreRefusal('not-found', 'There is no such copy any more.');
  }
  const copy = join(dataDir, name);
  const { fault } = contentsOf(copy);
  if (fault !== null) throw new StoreRefusal('refused', fault);
  const file = join(dataDir, fileName);
  const draft = `${file}.part`;
  copyFileSync(copy, draft);
  chmodSync(draft, 0o600);
  flush(draft);
  const aside = freeName(dataDir, `backcure.replaced-${stampOf(now)}`);
  for (const suffix of ['', '-wal', '-shm']) {
    if (existsSync(file + suffix)) renameSync(file + suffix, aside + suffix);
  }
  renameSync(draft, file);
  dropFileNote(dataDir);
  rotate(dataDir, REPLACED, KEPT.replaced);
}

const namesIn = (dataDir: string): string[] =>
  existsSync(dataDir) ? readdirSync(dataDir).filter((name) => NAME.test(name)) : [];

/** Names hold day and time, so that their order is that of age. */
function rotate(dataDir: string, names: RegExp, kept: number): void {
  const all = readdirSync(dataDir).filter((name) => names.test(name));
  for (const name of all.toSorted().toReversed().slice(kept)) {
    for (const suffix of ['', '-wal', '-shm'])
      rmSync(join(dataDir, name + suffix), { force: true });
  }
}

function contentsOf(path: string): Pick<CopySummary, 'builds' | 'fault'> {
  let database: Database.Database | null = null;
  try {
    database = new Database(path, { readonly: true, fileMustExist: true });
    const builds = Number(
      database.prepare('SELECT count(*) FROM builds WHERE removed_at_ms IS NULL').pluck().get(),
    );
    if (versionOf(database) > MIGRATIONS.at(-1)!.number) {
      return { builds, fault: 'This copy was written by a newer Backcure.' };
    }
    const sound = database.pragma('quick_check(1)', { simple: true }) === 'ok';
    return { builds, fault: sound ? null : 'This copy is damaged.' };
  } catch {
    return { builds: 0, fault: 'This copy cannot be read.' };
  } finally {
    database?.close();
  }
}
