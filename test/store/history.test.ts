import { describe, expect, it } from 'vitest';
import {
  createBuild,
  listBuilds,
  openBuild,
  redo,
  removeBuild,
  saveEdit,
  undo,
} from '../../main/store/builds.ts';
import { connection, type WriteHandle } from '../../main/store/handles.ts';
import { rememberOpenBuild } from '../../main/store/state.ts';
import { documentOf, NOW_MS, scratchFolder, scratchStore } from './fixtures.ts';

const ID = 'shell';

function begin(handle: WriteHandle) {
  const document = documentOf('A');
  return createBuild(handle, { id: ID, document, label: 'New build', sample: null, nowMs: NOW_MS });
}

/** One gesture after another, each on the newest revision. */
function editing(handle: WriteHandle) {
  const newest = () => openBuild(handle, ID).revision;
  return {
    save: (name: string, more: Record<string, unknown> = {}) =>
      saveEdit(handle, {
        id: ID,
        expects: newest(),
        label: `Name ${name}`,
        document: documentOf(name, more),
        nowMs: NOW_MS,
      }),
    undo: () => undo(handle, { id: ID, expects: newest(), nowMs: NOW_MS }),
    redo: () => redo(handle, { id: ID, expects: newest(), nowMs: NOW_MS }),
    revisions: () =>
      connection(handle)
        .prepare('SELECT kind FROM revisions WHERE build_id = ? ORDER BY number')
        .pluck()
        .all(ID),
  };
}

describe('undo and redo', () => {
  it('walk back over every edit and forward again, appending all the way', () => {
    const store = scratchStore();
    begin(store.write);
    const shop = editing(store.write);
    shop.save('B');
    shop.save('C');
    const names = [shop.undo(), shop.undo(), shop.redo(), shop.redo()].map(
      (b) => b.document['name'],
    );
    expect(names).toEqual(['B', 'A', 'B', 'C']);
    expect(shop.revisions()).toEqual(['edit', 'edit', 'edit', 'undo', 'undo', 'redo', 'redo']);
  });

  it('say in words what they would do', () => {
    const store = scratchStore();
    expect(begin(store.write)).toMatchObject({ canUndo: false, undoLabel: null, canRedo: false });
    const shop = editing(store.write);
    shop.save('B');
    shop.save('C');
    expect(shop.undo()).toMatchObject({
      canUndo: true,
      undoLabel: 'Name B',
      canRedo: true,
      redoLabel: 'Name C',
    });
  });

  it('are refused at either end, and append nothing then', () => {
    const store = scratchStore();
    begin(store.write);
    const shop = editing(store.write);
    expect(() => shop.undo()).toThrow('nothing to undo');
    expect(() => shop.redo()).toThrow('nothing to redo');
    expect(shop.revisions()).toEqual(['edit']);
  });

  it('survive a restart', () => {
    const folder = scratchFolder();
    const first = scratchStore(folder);
    begin(first.write);
    editing(first.write).save('B');
    editing(first.write).save('C');
    editing(first.write).undo();
    first.close();
    const second = scratchStore(folder);
    expect(openBuild(second.read, ID)).toMatchObject({ revision: 4, redoLabel: 'Name C' });
    expect(editing(second.write).undo().document['name']).toBe('A');
    expect(editing(second.write).redo().document['name']).toBe('B');
    expect(editing(second.write).redo().document['name']).toBe('C');
  });

  it('a new edit after undo closes the redo branch but deletes nothing', () => {
    const store = scratchStore();
    begin(store.write);
    const shop = editing(store.write);
    shop.save('B');
    shop.save('C');
    shop.undo();
    shop.undo();
    expect(shop.save('D')).toMatchObject({ canRedo: false, undoLabel: 'Name D' });
    expect(shop.revisions()).toHaveLength(6);
    expect(shop.undo().document['name']).toBe('A');
    expect(shop.redo().document['name']).toBe('D');
  });

  it('agree with two plain stacks over a long mixed run', () => {
    const store = scratchStore();
    begin(store.write);
    const shop = editing(store.write);
    const back: string[] = [];
    let forward: string[] = [];
    let now = 'A';
    let seed = 7;
    for (let i = 0; i < 120; i += 1) {
      seed = (seed * 1103515245 + 12345) % 2147483648;
      const act = Math.floor((seed / 2147483648) * 4);
      if (act === 0 && back.length > 0) {
        forward.push(now);
        now = back.pop()!;
        shop.undo();
      } else if (act === 1 && forward.length > 0) {
        back.push(now);
        now = forward.pop()!;
        shop.redo();
      } else {
        back.push(now);
        forward = [];
        now = `N${i}`;
        shop.save(now);
      }
      expect(openBuild(store.read, ID)).toMatchObject({
        document: { name: now },
        canUndo: back.length > 0,
        canRedo: forward.length > 0,
      });
    }
  });
});

describe('floor records', () => {
  const bagged = [{ stage: 'cure:skin', start: '2027-04-20T08:00' }];
  const demoulded = [...bagged, { stage: 'demould', start: '2027-04-21T08:00' }];

  it('stay through undo and redo', () => {
    const store = scratchStore();
    begin(store.write);
    const shop = editing(store.write);
    shop.save('B');
    shop.save('B', { records: bagged });
    expect(shop.undo().document).toMatchObject({ name: 'A', records: bagged });
    expect(shop.redo().document).toMatchObject({ name: 'B', records: bagged });
  });

  it('are no step of the undo list and leave redo as it is', () => {
    const store = scratchStore();
    begin(store.write);
    const shop = editing(store.write);
    shop.save('B');
    shop.undo();
    const recorded = shop.save('A', { records: bagged });
    expect(recorded).toMatchObject({ canUndo: false, canRedo: true, redoLabel: 'Name B' });
    expect(shop.redo().document).toMatchObject({ name: 'B', records: bagged });
  });

  it('made together with an edit stay when the edit is undone', () => {
    const store = scratchStore();
    begin(store.write);
    const shop = editing(store.write);
    shop.save('B', { records: bagged });
    expect(shop.undo().document).toMatchObject({ name: 'A', records: bagged });
  });

  it('are added to, never changed or taken away', () => {
    const store = scratchStore();
    begin(store.write);
    const shop = editing(store.write);
    shop.save('A', { records: bagged });
    expect(() => shop.save('A')).toThrow('a correction is a later record');
    expect(() => shop.save('A', { records: demoulded.toReversed() })).toThrow('later record');
    expect(shop.save('A', { records: demoulded }).document['records']).toEqual(demoulded);
  });
});

describe('a write', () => {
  it('that was made on an older revision is stale and changes nothing', () => {
    const store = scratchStore();
    const { revision } = begin(store.write);
    const shop = editing(store.write);
    shop.save('B');
    const late = { id: ID, expects: revision, nowMs: NOW_MS };
    const document = documentOf('lost');
    expect(() => saveEdit(store.write, { ...late, label: 'Name', document })).toThrow(
      expect.objectContaining({ code: 'stale' }),
    );
    expect(() => undo(store.write, late)).toThrow(expect.objectContaining({ code: 'stale' }));
    expect(() => redo(store.write, late)).toThrow(expect.objectContaining({ code: 'stale' }));
    expect(openBuild(store.read, ID)).toMatchObject({ revision: 2, document: { name: 'B' } });
  });

  it('by a second process is seen, and makes the first one stale', () => {
    const folder = scratchFolder();
    const one = scratchStore(folder);
    const { revision } = begin(one.write);
    const two = scratchStore(folder);
    const edit = { id: ID, expects: revision, label: 'Name', nowMs: NOW_MS };
    saveEdit(two.write, { ...edit, document: documentOf('two') });
    expect(() => saveEdit(one.write, { ...edit, document: documentOf('one') })).toThrow(
      expect.objectContaining({ code: 'stale' }),
    );
    expect(openBuild(one.read, ID).document['name']).toBe('two');
  });

  it('that changes nothing appends nothing', () => {
    const store = scratchStore();
    begin(store.write);
    const shop = editing(store.write);
    expect(shop.save('A')).toMatchObject({ revision: 1, canUndo: false });
  });
});

describe('the list of builds', () => {
  it('follows name and unveiling of the newest revision', () => {
    const store = scratchStore();
    begin(store.write);
    editing(store.write).save('B', { unveiling: '2027-06-01' });
    expect(listBuilds(store.read)).toEqual([
      {
        id: ID,
        name: 'B',
        unveiling: '2027-06-01',
        changedAt: '2027-04-19T06:00:00.000Z',
        sample: false,
      },
    ]);
  });

  it('begins with the build that was used last: opened or changed', () => {
    const store = scratchStore();
    const order = () => listBuilds(store.read).map(({ id }) => id);
    for (const [i, id] of ['a', 'b', 'c'].entries()) {
      const nowMs = NOW_MS + i;
      createBuild(store.write, { id, document: documentOf(id), label: 'New', sample: null, nowMs });
    }
    expect(order()).toEqual(['c', 'b', 'a']);
    rememberOpenBuild(store.write, 'a', NOW_MS + 10);
    expect(order()).toEqual(['a', 'c', 'b']);
    const document = documentOf('b, changed');
    saveEdit(store.write, { id: 'b', expects: 1, label: 'Name', document, nowMs: NOW_MS + 20 });
    expect(order()).toEqual(['b', 'a', 'c']);
    rememberOpenBuild(store.write, 'c', NOW_MS + 30);
    expect(order()).toEqual(['c', 'b', 'a']);
  });

  it('loses a removed build, whose history stays in the file', () => {
    const store = scratchStore();
    begin(store.write);
    removeBuild(store.write, ID, NOW_MS);
    expect(listBuilds(store.read)).toEqual([]);
    expect(() => openBuild(store.read, ID)).toThrow(expect.objectContaining({ code: 'not-found' }));
    expect(editing(store.write).revisions()).toEqual(['edit']);
  });
});

it('the file itself refuses to change or delete a revision', () => {
  const store = scratchStore();
  begin(store.write);
  const database = connection(store.write);
  expect(() => database.exec(`UPDATE revisions SET label = 'x'`)).toThrow('never changed');
  expect(() => database.exec('DELETE FROM revisions')).toThrow('never deleted');
});
