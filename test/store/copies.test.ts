import { existsSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { createBuild, listBuilds, openBuild, saveEdit, undo } from '../../main/store/builds.ts';
import { keepCopyOfDay, listCopies, restoreCopy } from '../../main/store/copies.ts';
import { createDraft, listDrafts } from '../../main/store/drafts.ts';
import { exportShop, importShop } from '../../main/store/everything.ts';
import { connection } from '../../main/store/handles.ts';
import { FILE_NAME, type Store } from '../../main/store/open.ts';
import { scratchSession, tell } from '../unit/main/fixtures.ts';
import { documentOf, NOW, NOW_MS, scratchFolder, scratchStore } from './fixtures.ts';

const DAY_MS = 86_400_000;
const begin = (store: Store, id: string) =>
  createBuild(store.write, {
    id,
    document: documentOf(`Build ${id}`, { rows: Array.from({ length: 300 }, (_, i) => i * 3.7) }),
    label: 'New',
    sample: null,
    nowMs: NOW_MS,
  });
const edit = (store: Store, id: string, expects: number, name: string) => {
  const { document } = openBuild(store.read, id);
  return saveEdit(store.write, {
    id,
    expects,
    label: name,
    document: { ...document, name },
    nowMs: 0,
  });
};

describe('the copy of the day', () => {
  it('is made once a day, is read back, and the oldest of more than fourteen go', () => {
    const store = scratchStore();
    begin(store, 'a');
    const { dataDir } = store;
    expect(keepCopyOfDay(store.read, dataDir, NOW)).toContain('backcure.day-20270419.sqlite');
    expect(keepCopyOfDay(store.read, dataDir, NOW)).toBeNull();
    for (let day = 1; day < 20; day += 1) {
      keepCopyOfDay(store.read, dataDir, new Date(NOW_MS + day * DAY_MS));
    }
    const kept = readdirSync(dataDir).filter((name) => name.includes('.day-'));
    expect(kept).toHaveLength(14);
    expect(kept.toSorted()[0]).toBe('backcure.day-20270425.sqlite');
    expect(listCopies(dataDir).map(({ builds, fault }) => [builds, fault])).toEqual(
      kept.map(() => [1, null]),
    );
  });

  it('is made by the session at its start and with the first change of another day', async () => {
    let now = NOW;
    const session = scratchSession({ clock: { now: () => now, fixed: false }, samples: [] });
    const days = () =>
      readdirSync(session.store.dataDir).filter((name) => name.includes('.day-')).length;
    expect(days()).toBe(1);
    now = new Date(NOW_MS + DAY_MS);
    await tell(session, 'view-save', { view: {} });
    expect(days()).toBe(2);
  });

  it('that cannot be made is reported and keeps nobody from working', async () => {
    const dataDir = scratchFolder();
    const day = 'backcure.day-20270419.sqlite.part';
    const session = scratchSession({
      dataDir,
      samples: [],
      clock: { now: () => NOW, fixed: true },
    });
    expect(existsSync(join(dataDir, day))).toBe(false);
    expect(await tell(session, 'copy-list', {})).toHaveLength(1);
  });
});

describe('putting a copy back', () => {
  it('brings its builds, keeps what was there as a copy, and can be taken back', async () => {
    const session = scratchSession({ samples: [] });
    begin(session.store, 'a');
    const { dataDir } = session.store;
    const later = new Date(NOW_MS + DAY_MS);
    keepCopyOfDay(session.store.read, dataDir, later);
    begin(session.store, 'b');
    await tell(session, 'copy-restore', { name: 'backcure.day-20270420.sqlite' });
    expect((await tell(session, 'build-list', {})).map(({ id }) => id)).toEqual(['a']);
    expect(session.store.notice).toBeNull();
    const kept = (await tell(session, 'copy-list', {})).find(({ kind }) => kind === 'replaced')!;
    expect(kept.builds).toBe(2);
    await tell(session, 'copy-restore', { name: kept.name });
    expect((await tell(session, 'build-list', {})).map(({ id }) => id).toSorted()).toEqual([
      'a',
      'b',
    ]);
    edit(session.store, 'b', 1, 'Goes on');
  });

  it('keeps the newest five of what restores put aside', () => {
    const { dataDir, read } = scratchStore();
    keepCopyOfDay(read, dataDir, NOW);
    const aside = () => readdirSync(dataDir).filter((name) => name.includes('.replaced-'));
    for (let hour = 1; hour <= 7; hour += 1) {
      const now = new Date(NOW_MS + hour * 3_600_000);
      restoreCopy(dataDir, FILE_NAME, 'backcure.day-20270419.sqlite', now);
    }
    const files = aside().filter((name) => name.endsWith('.sqlite'));
    expect(files).toHaveLength(5);
    expect(files.toSorted()[0]).toContain('T090000Z');
  });

  it.each([
    ['../backcure.sqlite', 'no such copy'],
    ['backcure.sqlite', 'no such copy'],
    ['backcure.day-20200101.sqlite', 'cannot be read'],
  ])('of %s is refused, and everything stays', async (name, words) => {
    const session = scratchSession({ samples: [] });
    begin(session.store, 'a');
    writeFileSync(
      join(session.store.dataDir, 'backcure.day-20200101.sqlite'),
      'noise '.repeat(900),
    );
    await expect(tell(session, 'copy-restore', { name })).rejects.toThrow(words);
    expect((await tell(session, 'build-list', {})).map(({ id }) => id)).toEqual(['a']);
  });
});

it('a removed build can be had back with its whole history', async () => {
  const session = scratchSession({ samples: [] });
  begin(session.store, 'a');
  edit(session.store, 'a', 1, 'Second');
  await tell(session, 'build-remove', { id: 'a' });
  expect((await tell(session, 'removed-list', {})).map(({ name }) => name)).toEqual(['Second']);
  const open = await tell(session, 'build-bring-back', { id: 'a' });
  expect(open).toMatchObject({ revision: 2, canUndo: true, document: { name: 'Second' } });
  expect(await tell(session, 'removed-list', {})).toEqual([]);
  await expect(tell(session, 'build-bring-back', { id: 'x' })).rejects.toThrow('no such build');
});

describe('everything as one text', () => {
  const rows = (store: Store) =>
    ['builds', 'revisions', 'drafts'].map((table) =>
      connection(store.read).prepare(`SELECT * FROM ${table} ORDER BY 1, 2`).all(),
    );
  function filled(): Store {
    const store = scratchStore();
    begin(store, 'a');
    for (let n = 1; n < 6; n += 1) edit(store, 'a', n, `Edit ${n}`);
    undo(store.write, { id: 'a', expects: 6, nowMs: 0 });
    begin(store, 'gone');
    connection(store.write).exec(`UPDATE builds SET removed_at_ms = 5 WHERE id = 'gone'`);
    createDraft(store.write, { id: 'd', document: documentOf('Half'), nowMs: NOW_MS });
    connection(store.write).exec(
      `INSERT INTO library_rows VALUES (1, 'practice', 'p', 'shop', 1, 'shop', 's', 0, '{}', 1)`,
    );
    return store;
  }
  const unused = () => {
    throw new Error('no id was due');
  };

  it('goes into an empty store without loss, and a second time changes nothing', () => {
    const [from, to] = [filled(), scratchStore()];
    const text = exportShop(from.read);
    expect(importShop(to.write, text, unused).toSorted()).toEqual(['a', 'gone']);
    expect(rows(to)).toEqual(rows(from));
    expect(exportShop(to.read)).toBe(text);
    expect(importShop(to.write, text, unused)).toEqual([]);
    expect(openBuild(to.read, 'a')).toEqual(openBuild(from.read, 'a'));
  });

  it('lengthens a history that went the same way, and keeps both where it went another', () => {
    const [from, same, other] = [filled(), scratchStore(), scratchStore()];
    const early = exportShop(from.read);
    for (const store of [same, other]) importShop(store.write, early, unused);
    edit(from, 'a', 7, 'Later');
    edit(other, 'a', 7, 'Another way');
    const text = exportShop(from.read);
    expect(importShop(same.write, text, unused)).toEqual(['a']);
    expect(rows(same)).toEqual(rows(from));
    expect(importShop(other.write, text, () => 'beside')).toEqual(['beside']);
    expect(openBuild(other.read, 'a').document['name']).toBe('Another way');
    const beside = openBuild(other.read, 'beside');
    expect(beside.document).toEqual(openBuild(from.read, 'a').document);
    expect(undo(other.write, { id: 'beside', expects: 8, nowMs: 0 }).document['name']).toBe(
      'Edit 4',
    );
  });

  it.each([
    ['cut short', (text: string) => text.slice(0, -40), 'no JSON'],
    ['with a wrong row', (text: string) => text.replace('"number":1', '"number":0'), 'whole shop'],
    [
      'with a build that cannot be read',
      (text: string) => text.replace(/"checksum":"[^"]+"/g, '"checksum":"AAAA"'),
      'nothing can be read',
    ],
  ])('%s is refused, and nothing of it is taken', (_, spoil, words) => {
    const to = scratchStore();
    const text = spoil(exportShop(filled().read));
    expect(() => importShop(to.write, text, unused)).toThrow(words);
    expect([listBuilds(to.read), listDrafts(to.read)]).toEqual([[], []]);
  });

  it('goes out and comes in through the channels, and opens the build that was changed last', async () => {
    const [from, to] = [scratchSession({ samples: [] }), scratchSession({ samples: [] })];
    begin(from.store, 'a');
    const { text } = await tell(from, 'shop-export', {});
    const answer = await tell(to, 'build-import', { fileName: 'shop.json', text });
    expect(answer).toMatchObject({ opened: { id: 'a' } });
    const again = await tell(to, 'build-import', { fileName: 'shop.json', text });
    expect(again).toMatchObject({ faults: [{ found: 'no build that is not here already' }] });
  });
});

it('opens the copies through SQLite as they are, without a journal beside them', () => {
  const store = scratchStore();
  begin(store, 'a');
  const copy = keepCopyOfDay(store.read, store.dataDir, NOW)!;
  const database = new Database(copy, { readonly: true });
  expect(database.pragma('journal_mode', { simple: true })).toBe('delete');
  database.close();
});
