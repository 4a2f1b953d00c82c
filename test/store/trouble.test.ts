/** The data file is not what it was: that is noticed, said, and never taken for a first start. */
import {
  copyFileSync,
  existsSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { createBuild, listBuilds, saveEdit } from '../../main/store/builds.ts';
import { keepCopyOfDay } from '../../main/store/copies.ts';
import { diskTrouble, StoreGone } from '../../main/store/errors.ts';
import { connection } from '../../main/store/handles.ts';
import { FILE_NAME, openStore, type Store } from '../../main/store/open.ts';
import { fixedClock } from '../../main/clock.ts';
import { scratchSession, tell, LIBRARY } from '../unit/main/fixtures.ts';
import { documentOf, NOW, NOW_MS, scratchFolder, scratchStore } from './fixtures.ts';

const begin = (store: Store, id: string) =>
  createBuild(store.write, {
    id,
    document: documentOf(`Build ${id}`),
    label: 'New',
    sample: null,
    nowMs: NOW_MS,
  });
const names = (store: Store) => listBuilds(store.read).map(({ name }) => name);
const fileIn = (dataDir: string) => join(dataDir, FILE_NAME);

/** A folder with one build that is in the copy of the day and one that is not. */
function folderWithCopy(copy = true): string {
  const dataDir = scratchFolder();
  const store = openStore({ dataDir, now: () => NOW });
  begin(store, 'a');
  if (copy) keepCopyOfDay(store.read, dataDir, NOW);
  begin(store, 'b');
  store.close();
  return dataDir;
}

/** A folder as a killed program leaves it: the journal was not brought into the file. */
function killedFolder(): string {
  const dataDir = scratchFolder();
  const running = openStore({ dataDir, now: () => NOW });
  begin(running, 'a');
  const crashed = scratchFolder();
  for (const name of [FILE_NAME, `${FILE_NAME}-wal`, 'backcure.seen.json']) {
    copyFileSync(join(dataDir, name), join(crashed, name));
  }
  running.close();
  return crashed;
}

describe('a data file that is not there any more', () => {
  it.each<[string, string, (file: string) => void]>([
    ['gone', 'is gone', (file) => rmSync(file)],
    ['empty', 'is empty', (file) => truncateSync(file, 0)],
    ['noise', 'was damaged', (file) => writeFileSync(file, 'noise '.repeat(3000))],
  ])('because it is %s has its newest copy put in its place, and says so', (_, words, spoil) => {
    const dataDir = folderWithCopy();
    spoil(fileIn(dataDir));
    const store = scratchStore(dataDir);
    expect(names(store)).toEqual(['Build a']);
    expect(store.notice).toContain(words);
    expect(store.notice).toContain('put in its place: what was done after that is missing');
  });

  it.each<[string, (file: string) => void]>([
    ['gone', (file) => rmSync(file)],
    ['empty', (file) => truncateSync(file, 0)],
  ])('because it is %s, without any copy, is said not to be a first start', (_, spoil) => {
    const dataDir = folderWithCopy(false);
    spoil(fileIn(dataDir));
    expect(scratchStore(dataDir).notice).toContain('There is no copy of it');
  });

  it('is nothing to speak of at a first start', () => {
    expect(scratchStore().notice).toBeNull();
  });
});

describe('a data file that holds less than before', () => {
  it('because an older copy was put in its place says how many changes are missing', () => {
    const dataDir = folderWithCopy();
    copyFileSync(join(dataDir, 'backcure.day-20270419.sqlite'), fileIn(dataDir));
    const store = scratchStore(dataDir);
    expect(names(store)).toEqual(['Build a']);
    expect(store.notice).toContain('older than it was');
    expect(store.notice).toContain('1 change is missing');
  });

  it.each<[string, (wal: string) => void]>([
    ['missing', (wal) => rmSync(wal)],
    ['torn', (wal) => truncateSync(wal, Math.floor(statSync(wal).size / 3))],
  ])('because its journal is %s says so', (_, spoil) => {
    const crashed = killedFolder();
    spoil(join(crashed, `${FILE_NAME}-wal`));
    const store = scratchStore(crashed);
    expect(store.notice).toMatch(/older than it was|is gone|is empty|Another data file/);
  });

  it('a killed program with its whole journal is nothing to speak of', () => {
    const store = scratchStore(killedFolder());
    expect(store.notice).toBeNull();
    expect(names(store)).toEqual(['Build a']);
  });

  it('of another shop is said to be another one', () => {
    const dataDir = folderWithCopy(false);
    copyFileSync(fileIn(folderWithCopy(false)), fileIn(dataDir));
    expect(scratchStore(dataDir).notice).toContain('Another data file');
  });
});

describe('a folder that is taken away while the program runs', () => {
  it('is noticed at the next edit, and all that was saved is written there again', () => {
    const dataDir = join(scratchFolder(), 'data');
    const store = openStore({ dataDir, now: () => NOW });
    begin(store, 'a');
    rmSync(dataDir, { recursive: true });
    expect(() => begin(store, 'b')).toThrow(StoreGone);
    expect(() => begin(store, 'b')).toThrow(fileIn(dataDir));
    store.close();
    expect(names(scratchStore(dataDir))).toEqual(['Build a']);
  });

  it('or has its file replaced takes no edit, and keeps what it held beside it', () => {
    const dataDir = folderWithCopy();
    const store = scratchStore(dataDir);
    renameSync(join(dataDir, 'backcure.day-20270419.sqlite'), fileIn(dataDir));
    const edit = { id: 'b', expects: 1, label: 'E', document: documentOf('B 2'), nowMs: 0 };
    expect(() => saveEdit(store.write, edit)).toThrow('put in its place');
    const kept = join(dataDir, 'backcure.replaced-20270419T060000Z.sqlite');
    expect(existsSync(kept)).toBe(true);
    const database = new Database(kept, { readonly: true });
    expect(database.prepare('SELECT count(*) FROM builds').pluck().get()).toBe(2);
    database.close();
  });
});

it('a read-only disk is called that, also where the data file only says it may not write', () => {
  const readOnly = () => {
    throw Object.assign(new Error(), { code: 'EROFS' });
  };
  for (const code of ['SQLITE_READONLY', 'SQLITE_CANTOPEN', 'EACCES']) {
    const error = Object.assign(new Error(), { code });
    expect(diskTrouble(error, '/data', readOnly)).toContain('read-only disk');
    expect(diskTrouble(error, '/data', () => {})).not.toContain('read-only disk');
  }
});

it('the data file, its journal and its copies can be read by their owner alone', () => {
  const dataDir = scratchFolder();
  writeFileSync(fileIn(dataDir), '', { mode: 0o644 });
  const store = scratchStore(dataDir);
  begin(store, 'a');
  keepCopyOfDay(store.read, dataDir, NOW);
  const files = [FILE_NAME, `${FILE_NAME}-wal`, `${FILE_NAME}-shm`, 'backcure.seen.json'];
  for (const name of [...files, 'backcure.day-20270419.sqlite']) {
    expect([name, statSync(join(dataDir, name)).mode & 0o077]).toEqual([name, 0]);
  }
});

describe('the file of a newer program', () => {
  it('opens for looking, refuses edits in plain words and stays as it was', async () => {
    const dataDir = folderWithCopy(false);
    const database = new Database(fileIn(dataDir));
    database.exec('ALTER TABLE builds ADD COLUMN colour TEXT; PRAGMA user_version = 99990');
    database.close();
    const before = readFileSync(fileIn(dataDir));
    const session = scratchSession({ dataDir, samples: [], clock: fixedClock(NOW) });
    const start = await tell(session, 'session-start', {});
    expect(start.notice).toContain('looked at here and not changed');
    expect(start.library.resins).toHaveLength(LIBRARY.resins.length);
    const open = await tell(session, 'build-open', { id: 'a' });
    expect(open.document['name']).toBe('Build a');
    await tell(session, 'view-save', { view: { zoom: 2 } });
    const edit = { id: 'a', expects: 1, label: 'E', document: documentOf('Other') };
    await expect(tell(session, 'build-save', edit)).rejects.toThrow('written by a newer Backcure');
    session.close();
    expect(readFileSync(fileIn(dataDir)).equals(before)).toBe(true);
  });
});

describe('a data file that another process holds', () => {
  it('keeps no other request waiting, and is written as soon as it is free', async () => {
    const dataDir = folderWithCopy(false);
    const session = scratchSession({ dataDir, samples: [] });
    // SQLite's own wait would stand on the only thread there is.
    const { write } = session.store;
    expect(connection(write).pragma('busy_timeout', { simple: true })).toBe(0);
    const other = new Database(fileIn(dataDir));
    other.exec('BEGIN IMMEDIATE');
    const order: string[] = [];
    const removed = tell(session, 'build-remove', { id: 'a' }).then(() => order.push('removed'));
    await tell(session, 'build-list', {}).then(() => order.push('listed'));
    await new Promise((resolve) => setTimeout(resolve, 100));
    other.exec('COMMIT');
    order.push('free');
    other.close();
    await removed;
    expect(order).toEqual(['listed', 'free', 'removed']);
  });
});
