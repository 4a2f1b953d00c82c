import { describe, expect, it } from 'vitest';
import { librarySchema } from '../../app/document/schema.ts';
import { connection, type WriteHandle } from '../../main/store/handles.ts';
import { readLibrary, seedLibrary } from '../../main/store/library.ts';
import { NOW_MS, scratchStore } from './fixtures.ts';

const practice = (id: string, value: number, revision = 1, kind = 'common-practice') => ({
  id,
  revision,
  name: id,
  provenance: { kind, source: 'test' },
  value,
  unit: 'h',
});
const libraryOf = (...rows: ReturnType<typeof practice>[]) =>
  librarySchema.parse({ practice: rows });
const values = (handle: WriteHandle) =>
  readLibrary(handle).practice.map((row) => [row.id, row.value]);

/** A row as the shop would have put it in. */
function shopRow(handle: WriteHandle, row: ReturnType<typeof practice>): void {
  connection(handle)
    .prepare(
      `INSERT INTO library_rows (table_name, id, origin, revision, provenance_kind,
         provenance_source, demo, body, created_at_ms)
       VALUES ('practice', ?, 'shop', ?, 'measured', 'own cup', 0, ?, ?)`,
    )
    .run(row.id, row.revision, JSON.stringify(row), NOW_MS);
}

describe('seeding the library', () => {
  it('puts every row in once, in its order', () => {
    const { write } = scratchStore();
    const library = libraryOf(practice('b', 1), practice('a', 2));
    expect(seedLibrary(write, library, NOW_MS)).toBe(2);
    expect(seedLibrary(write, library, NOW_MS)).toBe(0);
    expect(values(write)).toEqual([
      ['b', 1],
      ['a', 2],
    ]);
  });

  it('marks demo data and keeps where a row came from', () => {
    const { write } = scratchStore();
    seedLibrary(write, libraryOf(practice('a', 1, 1, 'demo'), practice('b', 1)), NOW_MS);
    const rows = connection(write)
      .prepare('SELECT id, demo, provenance_kind, provenance_source FROM library_rows ORDER BY id')
      .raw()
      .all();
    expect(rows).toEqual([
      ['a', 1, 'demo', 'test'],
      ['b', 0, 'common-practice', 'test'],
    ]);
  });

  it('a newer shipped revision counts, the older one stays in the file', () => {
    const { write } = scratchStore();
    seedLibrary(write, libraryOf(practice('a', 1), practice('b', 5)), NOW_MS);
    expect(seedLibrary(write, libraryOf(practice('a', 2, 2), practice('b', 5)), NOW_MS)).toBe(1);
    expect(values(write)).toEqual([
      ['a', 2],
      ['b', 5],
    ]);
    expect(connection(write).prepare('SELECT count(*) FROM library_rows').pluck().get()).toBe(3);
  });

  it("never overrules a row of the shop's own, whatever the shipped revision", () => {
    const { write } = scratchStore();
    seedLibrary(write, libraryOf(practice('a', 1)), NOW_MS);
    shopRow(write, practice('a', 9));
    shopRow(write, practice('a', 10, 2));
    seedLibrary(write, libraryOf(practice('a', 2, 7)), NOW_MS);
    expect(values(write)).toEqual([['a', 10]]);
  });
});

it('a row that the schema cannot read is left out and the rest stays readable', () => {
  const { write } = scratchStore();
  seedLibrary(write, libraryOf(practice('a', 1)), NOW_MS);
  shopRow(write, { ...practice('bad', 1), unit: 7 } as never);
  expect(values(write)).toEqual([['a', 1]]);
});
