/** Named states of a build, and the way back to one. */
import { describe, expect, it } from 'vitest';
import { createBuild, openBuild, saveEdit, undo } from '../../main/store/builds.ts';
import { exportShop, importShop } from '../../main/store/everything.ts';
import type { Store } from '../../main/store/open.ts';
import { documentAt, history, nameVersion, returnTo } from '../../main/store/versions.ts';
import { documentOf, NOW_MS, scratchFolder, scratchStore } from './fixtures.ts';

const ID = 'shell';
const nowMs = NOW_MS;

/** A, B named `as agreed`, C with a record of the floor. */
function filled(): Store {
  const store = scratchStore();
  createBuild(store.write, {
    id: ID,
    document: documentOf('A'),
    label: 'New',
    sample: null,
    nowMs,
  });
  const save = (name: string, more: Record<string, unknown> = {}) => {
    const { revision: expects } = openBuild(store.read, ID);
    const document = documentOf(name, more);
    saveEdit(store.write, { id: ID, expects, label: `Name ${name}`, document, nowMs });
  };
  save('B');
  nameVersion(store.write, { id: ID, revision: 2, name: 'as agreed', nowMs });
  save('C', { records: [{ stage: 'x', start: '2027-04-19T08:00', end: null }] });
  return store;
}
const names = (store: Store) => history(store.read, ID).map(({ label, name }) => [label, name]);

describe('the history', () => {
  it('lists every step, the newest first, with the names given', () => {
    expect(names(filled())).toEqual([
      ['Name C', null],
      ['Name B', 'as agreed'],
      ['New', null],
    ]);
  });

  it('lists a named version that lies further back than the rest', () => {
    const store = filled();
    for (let i = 0; i < 320; i += 1) {
      const { revision: expects } = openBuild(store.read, ID);
      const document = documentOf(`D${i}`, {
        records: openBuild(store.read, ID).document['records'],
      });
      saveEdit(store.write, { id: ID, expects, label: `Name D${i}`, document, nowMs });
    }
    const listed = names(store);
    expect(listed).toHaveLength(301);
    expect(listed.at(-1)).toEqual(['Name B', 'as agreed']);
  });

  it('takes a name away and gives another one', () => {
    const store = filled();
    nameVersion(store.write, { id: ID, revision: 2, name: 'signed', nowMs });
    expect(names(store)[1]).toEqual(['Name B', 'signed']);
    nameVersion(store.write, { id: ID, revision: 2, name: null, nowMs });
    expect(names(store)[1]).toEqual(['Name B', null]);
  });

  it('refuses what is not there', () => {
    const store = filled();
    expect(() => history(store.read, 'none')).toThrow('no such build');
    expect(() => documentAt(store.read, ID, 9)).toThrow('cannot be read');
    expect(() => nameVersion(store.write, { id: ID, revision: 9, name: 'x', nowMs })).toThrow(
      'cannot be read',
    );
  });
});

describe('going back to a version', () => {
  it('is one edit, keeps what the floor recorded, and is undone like any other', () => {
    const store = filled();
    const back = returnTo(store.write, { id: ID, expects: 3, revision: 2, nowMs });
    expect(back.document).toMatchObject({ name: 'B', records: [{ stage: 'x' }] });
    expect(back.undoLabel).toBe('Back to as agreed');
    const undone = undo(store.write, { id: ID, expects: 4, nowMs });
    expect(undone.document).toMatchObject({ name: 'C', records: [{ stage: 'x' }] });
  });

  it('is refused on top of an edit from another window', () => {
    const store = filled();
    expect(() => returnTo(store.write, { id: ID, expects: 2, revision: 1, nowMs })).toThrow(
      'changed in another window',
    );
    expect(openBuild(store.read, ID).document['name']).toBe('C');
  });
});

describe('the export of everything', () => {
  it('brings names along, and a file that names what it does not hold changes nothing else', () => {
    const text = exportShop(filled().read);
    const to = scratchStore(scratchFolder());
    expect(importShop(to.write, text, () => 'new')).toEqual([ID]);
    expect(names(to)).toContainEqual(['Name B', 'as agreed']);
    const odd = text.replace('"number":2,"name":"as agreed"', '"number":77,"name":"as agreed"');
    expect(odd).not.toBe(text);
    const third = scratchStore(scratchFolder());
    importShop(third.write, odd, () => 'new');
    expect(names(third).map(([, name]) => name)).toEqual([null, null, null]);
  });
});
