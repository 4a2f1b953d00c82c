/** One revision is damaged on the disk: the rest of the data goes on. */
import { describe, expect, it } from 'vitest';
import { createBuild, openBuild, saveEdit, undo } from '../../main/store/builds.ts';
import { connection } from '../../main/store/handles.ts';
import type { Store } from '../../main/store/open.ts';
import { tell, scratchSession } from '../unit/main/fixtures.ts';
import { documentOf, NOW_MS, scratchStore } from './fixtures.ts';

/** A document long enough that an edit is kept as a difference. */
const long = (name: string) =>
  documentOf(name, { areas: Array.from({ length: 300 }, (_, i) => i * 7.31) });

function withEdits(store: Store, id: string, edits: number): void {
  const document = long(`${id} 1`);
  createBuild(store.write, { id, document, label: 'New', sample: null, nowMs: NOW_MS });
  for (let n = 2; n <= edits; n += 1) {
    const edit = { id, expects: n - 1, label: `Edit ${n}`, document: long(`${id} ${n}`), nowMs: 0 };
    saveEdit(store.write, edit);
  }
}

/** Changes stored bytes behind the program's back. */
function damage(store: Store, id: string, number: number, set: string): void {
  const database = connection(store.write);
  database.exec('DROP TRIGGER IF EXISTS revisions_stay');
  database.prepare(`UPDATE revisions SET ${set} WHERE build_id = ? AND number = ?`).run(id, number);
}

describe('a build whose newest revision is damaged', () => {
  it.each([
    ['noise', `document = x'00ff'`],
    ['another document of the same build', `document = (SELECT document FROM revisions LIMIT 1)`],
    ['another label', `label = 'Something else'`],
    ['a base that is not there', 'base = 77'],
    ['itself as base', 'base = number'],
  ])('by %s opens at the last sound one and says so', (_what, set) => {
    const store = scratchStore();
    withEdits(store, 'a', 5);
    damage(store, 'a', 5, set);
    const open = openBuild(store.read, 'a');
    expect(open.document['name']).toBe('a 4');
    expect(open.notice).toContain('newest revision of this build is damaged');
    expect(open.revision).toBe(5);
  });

  it('takes the next edit, is sound again then, and goes back past the damage', () => {
    const store = scratchStore();
    withEdits(store, 'a', 5);
    damage(store, 'a', 5, `document = x'00ff'`);
    const edit = { id: 'a', expects: 5, label: 'On', document: long('on'), nowMs: 0 };
    const open = saveEdit(store.write, edit);
    expect(open).toMatchObject({ revision: 6, document: { name: 'on' }, canUndo: true });
    expect(open.notice).toBeUndefined();
    const back = undo(store.write, { id: 'a', expects: 6, nowMs: 0 });
    expect(back.document['name']).toBe('a 4');
  });

  it('is said where what it differs from is damaged too', () => {
    const store = scratchStore();
    withEdits(store, 'a', 70);
    const wholes = connection(store.read)
      .prepare<[], number>('SELECT number FROM revisions WHERE base IS NULL ORDER BY number')
      .pluck()
      .all();
    expect(wholes).toEqual([1, 66]);
    damage(store, 'a', 66, `document = x'00ff'`);
    const open = openBuild(store.read, 'a');
    expect(open.document['name']).toBe('a 65');
    expect(open.notice).toContain('newest 5 revisions');
  });
});

it('a state that is damaged cannot be undone to, which is said, and nothing is lost by it', () => {
  const store = scratchStore();
  withEdits(store, 'a', 3);
  damage(store, 'a', 2, `document = x'00ff'`);
  expect(() => undo(store.write, { id: 'a', expects: 3, nowMs: 0 })).toThrow('damaged');
  expect(openBuild(store.read, 'a')).toMatchObject({ revision: 3, document: { name: 'a 3' } });
});

it('a build without any sound revision keeps neither the program nor other builds from opening', async () => {
  const session = scratchSession({ samples: [] });
  const { store } = session;
  withEdits(store, 'bad', 2);
  withEdits(store, 'good', 2);
  connection(store.write).exec('DROP TRIGGER revisions_stay');
  damage(store, 'bad', 1, `document = x'00ff'`);
  damage(store, 'bad', 2, `document = x'00ff'`);
  connection(store.write).exec(`INSERT OR REPLACE INTO meta VALUES ('open-build', 'bad')`);
  const start = await tell(session, 'session-start', {});
  expect(start.builds.map(({ id }) => id).toSorted()).toEqual(['bad', 'good']);
  expect(start.open?.id).toBe('good');
  await expect(tell(session, 'build-open', { id: 'bad' })).rejects.toThrow('none of its revisions');
  expect(await tell(session, 'lessons-read', {})).toEqual([]);
});
