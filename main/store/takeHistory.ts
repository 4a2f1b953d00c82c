/** The history of one build out of another data file. */
import { StoreRefusal } from './errors.ts';
import type { BuildOut, RevisionOut } from './everything.ts';
import { connection, type WriteHandle } from './handles.ts';
import { packed, unpacked, type Facts, type Whole } from './packing.ts';
import { newestSound } from './revisions.ts';

/**
 * Puts the revisions in that are not here yet, byte for byte.
 * @returns the id that they stand under, or null when all of them were here
 * @throws StoreRefusal when none of them can be read
 */
export function takeHistory(
  handle: WriteHandle,
  build: BuildOut,
  rows: readonly RevisionOut[],
  newId: () => string,
): string | null {
  const here = connection(handle)
    .prepare<[string], { number: number; checksum: Buffer }>(
      'SELECT number, checksum FROM revisions WHERE build_id = ? ORDER BY number',
    )
    .all(build.id);
  const sums = new Map(rows.map((row) => [row.number, row.checksum]));
  const both = here.filter(({ number }) => sums.has(number));
  const sameWay = both.every(
    ({ number, checksum }) => sums.get(number) === checksum.toString('base64'),
  );
  const fresh = rows.filter((row) => !both.some(({ number }) => number === row.number));
  if (here.length > 0 && sameWay && fresh.length === 0) return null;
  if (here.length === 0 || sameWay) {
    put(handle, build, fresh, here.length === 0);
    return check(handle, build.id);
  }
  const id = newId();
  put(handle, { ...build, id, sample: null }, underNewId(rows, id), true);
  return check(handle, id);
}

function put(
  handle: WriteHandle,
  build: BuildOut,
  rows: readonly RevisionOut[],
  isNew: boolean,
): void {
  const database = connection(handle);
  if (isNew) {
    const sample = database.prepare('SELECT 1 FROM builds WHERE sample = ?').get(build.sample);
    database
      .prepare(
        `INSERT INTO builds (id, name, unveiling, sample, created_at_ms, changed_at_ms, removed_at_ms)
         VALUES (@id, @name, @unveiling, @sample, @created_at_ms, @changed_at_ms, @removed_at_ms)`,
      )
      .run({ ...build, sample: sample ? null : build.sample });
  } else {
    database
      .prepare('UPDATE builds SET name = ?, unveiling = ?, changed_at_ms = ? WHERE id = ?')
      .run(build.name, build.unveiling, build.changed_at_ms, build.id);
  }
  const insert = database.prepare(
    `INSERT INTO revisions (build_id, number, kind, label, position, parent, created_at_ms, document,
       base, checksum)
     VALUES (@build, @number, @kind, @label, @position, @parent, @created_at_ms, @document, @base,
       @checksum)`,
  );
  for (const row of rows) insert.run({ ...row, ...bytesOf(row) });
}

const bytesOf = (row: RevisionOut): { document: Buffer; checksum: Buffer } => ({
  document: Buffer.from(row.document, 'base64'),
  checksum: Buffer.from(row.checksum, 'base64'),
});

/** The id is part of the checksum. A damaged revision comes along as it is, and stays damaged. */
function underNewId(rows: readonly RevisionOut[], id: string): RevisionOut[] {
  const byNumber = new Map(rows.map((row) => [row.number, row]));
  let whole: Whole | null = null;
  return rows.map((row) => {
    const text = textOf(row, byNumber);
    if (text === null) return { ...row, build: id };
    const next = packed({ ...(row as Facts), build: id }, text, whole);
    if (next.base === null) whole = { number: row.number, text };
    return {
      ...row,
      build: id,
      base: next.base,
      document: next.document.toString('base64'),
      checksum: next.checksum.toString('base64'),
    };
  });
}

function textOf(row: RevisionOut, all: ReadonlyMap<number, RevisionOut>): string | null {
  try {
    if (row.base === null) return unpacked(row, bytesOf(row), null);
    const whole = all.get(row.base);
    if (!whole || whole.base !== null) return null;
    return unpacked(row, bytesOf(row), unpacked(whole, bytesOf(whole), null));
  } catch {
    return null;
  }
}

function check(handle: WriteHandle, id: string): string {
  if (newestSound(handle, id)) return id;
  throw new StoreRefusal('refused', 'The file holds a build of which nothing can be read.');
}
