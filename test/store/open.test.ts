import { existsSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { createBuild, listBuilds, saveEdit } from '../../main/store/builds.ts';
import { diskTrouble, StoreUnavailable } from '../../main/store/errors.ts';
import { connection } from '../../main/store/handles.ts';
import { FILE_NAME, openStore } from '../../main/store/open.ts';
import { readView, saveView, lastOpenBuild, rememberOpenBuild } from '../../main/store/state.ts';
import { documentOf, NOW, NOW_MS, scratchFolder, scratchStore } from './fixtures.ts';

const now = () => NOW;

describe('opening the data file', () => {
  it('makes the folder, readable by its owner alone', () => {
    const dataDir = join(scratchFolder(), 'deep', 'folder');
    scratchStore(dataDir);
    expect(statSync(dataDir).mode & 0o077).toBe(0);
  });

  it('runs with write-ahead log, full sync and foreign keys', () => {
    const database = connection(scratchStore().read);
    expect(database.pragma('journal_mode', { simple: true })).toBe('wal');
    expect(database.pragma('synchronous', { simple: true })).toBe(2);
    expect(database.pragma('foreign_keys', { simple: true })).toBe(1);
  });

  it('has strict tables only', () => {
    const loose = connection(scratchStore().read)
      .prepare(
        `SELECT name FROM pragma_table_list WHERE schema = 'main' AND type = 'table'
                AND strict = 0 AND name NOT LIKE 'sqlite_%'`,
      )
      .all();
    expect(loose).toEqual([]);
  });

  it('a file in the way of the folder is said in plain words', () => {
    const file = join(scratchFolder(), 'file');
    writeFileSync(file, '');
    expect(() => openStore({ dataDir: file, now })).toThrow(StoreUnavailable);
    expect(() => openStore({ dataDir: join(file, 'x'), now })).toThrow('a file of that name');
  });
});

it.skipIf(process.platform !== 'linux')(
  'a file system that takes no folders is said in plain words, and at once',
  () => {
    expect(() => openStore({ dataDir: '/proc/backcure/data', now })).toThrow('cannot be made');
  },
);

describe('a damaged data file', () => {
  it('that is noise is kept aside and a new one begun', () => {
    const dataDir = scratchFolder();
    const noise = 'no database at all '.repeat(1000);
    writeFileSync(join(dataDir, FILE_NAME), noise);
    const store = scratchStore(dataDir);
    expect(store.notice).toContain('damaged');
    expect(listBuilds(store.read)).toEqual([]);
    const kept = readdirSync(dataDir).find((name) => name.includes('damaged'))!;
    expect(store.notice).toContain(kept);
    expect(readFileSync(join(dataDir, kept), 'utf8')).toBe(noise);
  });

  it('with overwritten pages is kept aside, byte for byte', () => {
    const dataDir = scratchFolder();
    const first = openStore({ dataDir, now });
    for (let i = 0; i < 50; i += 1) {
      const document = documentOf(`Build ${i}`, { note: 'n'.repeat(500) });
      createBuild(first.write, { id: `b${i}`, document, label: 'New', sample: null, nowMs: 0 });
    }
    first.close();
    const path = join(dataDir, FILE_NAME);
    const bytes = readFileSync(path);
    bytes.fill(0x5a, 4096 + 100, 4096 * 4);
    writeFileSync(path, bytes);
    const store = scratchStore(dataDir);
    expect(store.notice).not.toBeNull();
    const kept = readdirSync(dataDir).find((name) => name.endsWith('Z.sqlite'))!;
    expect(readFileSync(join(dataDir, kept)).equals(bytes)).toBe(true);
  });

  it('twice in one second makes two kept files', () => {
    const dataDir = scratchFolder();
    for (const noise of ['first noise '.repeat(200), 'second noise '.repeat(200)]) {
      writeFileSync(join(dataDir, FILE_NAME), noise);
      for (const suffix of ['-wal', '-shm']) {
        const path = join(dataDir, FILE_NAME + suffix);
        if (existsSync(path)) writeFileSync(path, '');
      }
      openStore({ dataDir, now }).close();
    }
    expect(readdirSync(dataDir).filter((name) => name.includes('damaged'))).toHaveLength(2);
  });

  it('an empty file is none: it is taken as new, without a word', () => {
    const dataDir = scratchFolder();
    writeFileSync(join(dataDir, FILE_NAME), '');
    expect(scratchStore(dataDir).notice).toBeNull();
  });
});

describe('a data file of somebody else', () => {
  it('from a newer program of another layout is refused and left as it was', () => {
    const dataDir = scratchFolder();
    openStore({ dataDir, now }).close();
    const path = join(dataDir, FILE_NAME);
    const database = new Database(path);
    database.exec('ALTER TABLE revisions RENAME TO history; PRAGMA user_version = 99990');
    database.close();
    const before = readFileSync(path);
    expect(() => openStore({ dataDir, now })).toThrow('written by a newer Backcure');
    expect(readFileSync(path).equals(before)).toBe(true);
    expect(readdirSync(dataDir).filter((name) => name.endsWith('.sqlite'))).toEqual([FILE_NAME]);
  });

  it('from another program is refused and left as it was', () => {
    const dataDir = scratchFolder();
    const path = join(dataDir, FILE_NAME);
    const database = new Database(path);
    database.exec('CREATE TABLE other (x)');
    database.close();
    const before = readFileSync(path);
    expect(() => openStore({ dataDir, now })).toThrow('belongs to another program');
    expect(readFileSync(path).equals(before)).toBe(true);
  });
});

describe('a disk that is full', () => {
  it('loses the write in hand and nothing that was acknowledged', () => {
    const dataDir = scratchFolder();
    const store = openStore({ dataDir, now });
    createBuild(store.write, {
      id: 'a',
      document: documentOf('A'),
      label: 'New',
      sample: null,
      nowMs: NOW_MS,
    });
    const database = connection(store.write);
    const pages = Number(database.pragma('page_count', { simple: true }));
    database.pragma(`max_page_count = ${pages}`);
    let noise = '';
    for (let i = 0; i < 20_000; i += 1) noise += Math.sin(i).toString(36);
    const big = documentOf('too big', { noise });
    const edit = { id: 'a', expects: 1, label: 'Grow', document: big, nowMs: NOW_MS };
    let failure: unknown;
    try {
      saveEdit(store.write, edit);
    } catch (error) {
      failure = error;
    }
    expect(diskTrouble(failure)).toContain('disk is full');
    store.close();
    expect(listBuilds(scratchStore(dataDir).read)[0]?.name).toBe('A');
  });
});

it('view state and the last open build survive a restart', () => {
  const dataDir = scratchFolder();
  const first = openStore({ dataDir, now });
  saveView(first.write, 'planner', { zoom: 2 }, NOW_MS);
  saveView(first.write, 'planner', { zoom: 3 }, NOW_MS);
  rememberOpenBuild(first.write, 'one', 1);
  rememberOpenBuild(first.write, 'two', 2);
  first.close();
  const second = scratchStore(dataDir);
  expect(readView(second.read, 'planner')).toEqual({ zoom: 3 });
  expect(readView(second.read, 'window')).toEqual({});
  expect(lastOpenBuild(second.read)).toBe('two');
});
