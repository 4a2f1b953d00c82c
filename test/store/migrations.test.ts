import { readdirSync } from 'node:fs';
import { deflateRawSync } from 'node:zlib';
import Database from 'better-sqlite3';
import { describe, expect, it, onTestFinished } from 'vitest';
import { readHandle } from '../../main/store/handles.ts';
import { migrate, versionOf } from '../../main/store/migrate.ts';
import { MIGRATIONS, type Migration } from '../../main/store/migrations/list.ts';
import { FILE_NAME, openStore } from '../../main/store/open.ts';
import { textOf } from '../../main/store/revisions.ts';
import { NOW, scratchFolder } from './fixtures.ts';

const noCopy = () => {
  throw new Error('no copy was due');
};

function memory(): Database.Database {
  const database = new Database(':memory:');
  database.pragma('foreign_keys = ON');
  onTestFinished(() => void database.close());
  return database;
}

/** A database at the state before a step. */
function before(number: number): Database.Database {
  const database = memory();
  migrate(
    database,
    MIGRATIONS.filter((step) => step.number < number),
    noCopy,
  );
  return database;
}

/** Runs one step and tells every table, old and new, with its rows. */
function stepTo(number: number, database: Database.Database): Record<string, unknown[]> {
  migrate(
    database,
    MIGRATIONS.filter((step) => step.number <= number),
    () => {},
  );
  return tables(database);
}

function tables(database: Database.Database): Record<string, unknown[]> {
  const names = database
    .prepare<[], string>(`SELECT name FROM sqlite_schema WHERE type = 'table' ORDER BY name`)
    .pluck()
    .all();
  return Object.fromEntries(
    names.map((name) => [name, database.prepare(`SELECT * FROM ${name}`).all()]),
  );
}

const BUILD = `INSERT INTO builds VALUES ('a', 'A', '2027-05-14', NULL, 1, 2, NULL)`;
const REVISION = `INSERT INTO revisions VALUES ('a', 1, 'edit', 'New', 1, NULL, 1, x'00')`;
const ROW = `INSERT INTO library_rows
  VALUES (1, 'practice', 'p', 'shipped', 1, 'demo', 's', 1, '{}', 1)`;

describe('step 10, builds', () => {
  it('begins with two empty tables', () => {
    expect(stepTo(10, before(10))).toEqual({ builds: [], revisions: [] });
  });

  it('refuses a revision without its build, of an unknown kind, or on no position', () => {
    const database = before(20);
    expect(() => database.exec(REVISION)).toThrow('FOREIGN KEY');
    database.exec(BUILD);
    const odd = (values: string) => () => database.exec(`INSERT INTO revisions VALUES ${values}`);
    expect(odd(`('a', 1, 'guess', 'x', 1, NULL, 1, x'00')`)).toThrow('CHECK');
    expect(odd(`('a', 2, 'undo', 'x', 7, NULL, 1, x'00')`)).toThrow('FOREIGN KEY');
    expect(odd(`('a', 1, 'edit', 'x', 1, NULL, 1, 'text')`)).toThrow('cannot store TEXT');
  });
});

describe('step 20, library', () => {
  it('touches nothing else', () => {
    const database = before(20);
    database.exec(BUILD);
    database.exec(REVISION);
    const old = tables(database);
    expect(stepTo(20, database)).toEqual({ ...old, library_rows: [] });
  });

  it('takes one row of an origin and revision, and JSON only', () => {
    const database = before(30);
    database.exec(ROW);
    expect(() => database.exec(ROW.replace('VALUES (1,', 'VALUES (2,'))).toThrow('UNIQUE');
    expect(() => database.exec(ROW.replace('(1,', '(3,').replace(`'{}'`, `'{'`))).toThrow('CHECK');
  });
});

describe('step 30, state', () => {
  it('touches nothing else', () => {
    const database = before(30);
    database.exec(BUILD);
    database.exec(REVISION);
    database.exec(ROW);
    const old = tables(database);
    expect(stepTo(30, database)).toEqual({ ...old, meta: [], view_state: [] });
  });
});

describe('step 40, drafts', () => {
  const keep = (database: Database.Database, view: unknown) =>
    database
      .prepare(`INSERT INTO view_state VALUES ('planner', ?, 1807000000123)`)
      .run(JSON.stringify(view));
  const DRAFT = { formatVersion: 1, name: 'Half "a" boat', part: { zones: [{ areaM2: 0.45 }] } };

  it('touches nothing else', () => {
    const database = before(40);
    database.exec(BUILD);
    database.exec(REVISION);
    database.exec(ROW);
    keep(database, { panel: 'job' });
    const old = tables(database);
    expect(stepTo(40, database)).toEqual({ ...old, drafts: [] });
  });

  it('gives the draft of the window a row of its own, and it lies open as it did', () => {
    const database = before(40);
    keep(database, { panel: 'job', draft: DRAFT, drafting: true });
    const { drafts, view_state, meta } = stepTo(40, database);
    expect(drafts).toHaveLength(1);
    const row = drafts![0] as Record<string, unknown>;
    expect(JSON.parse(String(row['document']))).toEqual(DRAFT);
    // 48 bits of milliseconds, then the version.
    expect(Number.parseInt(String(row['id']).replace('-', '').slice(0, 12), 16)).toBe(
      1807000000123,
    );
    expect(row).toMatchObject({ revision: 1, changed_at_ms: 1807000000123, removed_at_ms: null });
    expect(meta).toEqual([{ name: 'open-draft', value: row['id'] }]);
    expect(JSON.parse(String((view_state![0] as { value: string }).value))).toEqual({
      panel: 'job',
    });
  });

  it.each([
    ['put aside', { draft: DRAFT, drafting: false }, 1],
    ['dropped', { draft: null, drafting: false }, 0],
  ])('opens none that was %s', (_what, view, count) => {
    const database = before(40);
    keep(database, view);
    const { drafts, meta } = stepTo(40, database);
    expect(drafts).toHaveLength(count);
    expect(meta).toEqual([]);
  });
});

describe('step 50, small history', () => {
  const text = (n: number) =>
    JSON.stringify({ name: 'Boat', areas: Array.from({ length: 400 }, (_, i) => i * 7.31), n });
  const insert = (database: Database.Database, n: number, document: Buffer) =>
    database
      .prepare(`INSERT INTO revisions VALUES ('a', ?, 'edit', 'Edit', ?, ?, 1, ?)`)
      .run(n, n, n > 1 ? n - 1 : null, document);

  it('keeps every text, most of them as differences, and touches nothing else', () => {
    const database = before(50);
    database.exec(BUILD);
    for (let n = 1; n <= 100; n += 1) insert(database, n, deflateRawSync(text(n)));
    const size = () =>
      Number(database.prepare('SELECT sum(length(document)) FROM revisions').pluck().get());
    const [old, oldSize] = [tables(database), size()];
    const next = stepTo(50, database);
    expect({ ...next, revisions: [] }).toEqual({ ...old, revisions: [] });
    for (let n = 1; n <= 100; n += 1) {
      expect(textOf(readHandle(database), 'a', n)).toBe(text(n));
    }
    expect(size()).toBeLessThan(oldSize / 10);
    expect(() => database.exec(`UPDATE revisions SET label = 'x'`)).toThrow('never changed');
  });

  it('leaves a revision that cannot be read as it is', () => {
    const database = before(50);
    database.exec(BUILD);
    insert(database, 1, deflateRawSync(text(1)));
    insert(database, 2, Buffer.from('00ff', 'hex'));
    insert(database, 3, deflateRawSync(text(3)));
    const rows = stepTo(50, database)['revisions'] as { document: Buffer; base: number | null }[];
    expect(rows[1]!.document.toString('hex')).toBe('00ff');
    expect([1, 2, 3].map((n) => textOf(readHandle(database), 'a', n))).toEqual([
      text(1),
      null,
      text(3),
    ]);
  });
});

describe('the runner', () => {
  const make = (number: number, sql: string): Migration => ({
    number,
    run: (database) => void database.exec(sql),
  });

  it('records the newest step and runs nothing twice', () => {
    const database = memory();
    migrate(database, MIGRATIONS, noCopy);
    migrate(database, MIGRATIONS, noCopy);
    expect(versionOf(database)).toBe(MIGRATIONS.at(-1)?.number);
  });

  it('undoes every pending step when one of them fails', () => {
    const database = memory();
    const steps = [make(10, 'CREATE TABLE one (x)'), make(20, 'no SQL')];
    expect(() => migrate(database, steps, noCopy)).toThrow('syntax error');
    expect(versionOf(database)).toBe(0);
    expect(tables(database)).toEqual({});
  });

  it('undoes a step that leaves rows pointing at nothing', () => {
    const database = memory();
    database.pragma('foreign_keys = OFF');
    const sql = `CREATE TABLE a (x PRIMARY KEY); CREATE TABLE b (y REFERENCES a (x));
      INSERT INTO b VALUES (1)`;
    expect(() => migrate(database, [make(10, sql)], noCopy)).toThrow('point at nothing');
    expect(tables(database)).toEqual({});
  });

  it('refuses a list whose numbers do not rise', () => {
    const steps = [make(20, ''), make(20, '')];
    expect(() => migrate(memory(), steps, noCopy)).toThrow('does not follow');
  });

  it('keeps no copy of a new file', () => {
    const dataDir = scratchFolder();
    openStore({ dataDir, now: () => NOW }).close();
    expect(readdirSync(dataDir).filter((name) => name.endsWith('.sqlite'))).toEqual([FILE_NAME]);
  });
});
