import {
  copyFileSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { describe, expect, it, onTestFinished } from 'vitest';
import { faultOfCopy } from '../../main/store/backup.ts';
import { createBuild, openBuild } from '../../main/store/builds.ts';
import { StoreUnavailable } from '../../main/store/errors.ts';
import { readHandle } from '../../main/store/handles.ts';
import { versionOf } from '../../main/store/migrate.ts';
import { MIGRATIONS, type Migration } from '../../main/store/migrations/list.ts';
import { FILE_NAME, openStore } from '../../main/store/open.ts';
import { documentOf, NOW, NOW_MS, scratchFolder } from './fixtures.ts';

const NEWEST = MIGRATIONS.at(-1)!.number;
const COPY = `backcure.before-step-${NEWEST}-20270419T060000Z.sqlite`;

/** The shipped steps and one that this program does not have yet. */
const withStep = (number: number): readonly Migration[] => [
  ...MIGRATIONS,
  {
    number,
    run: (database) => void database.exec(`CREATE TABLE step_${number} (x INTEGER) STRICT`),
  },
];

/** A folder whose data file holds some builds, closed. */
function folderWithBuilds(): string {
  const dataDir = scratchFolder();
  const store = openStore({ dataDir, now: () => NOW });
  for (let i = 0; i < 20; i += 1) {
    const document = documentOf(`Build ${i}`, { note: `${i}`.repeat(900) });
    createBuild(store.write, { id: `b${i}`, document, label: 'New', sample: null, nowMs: NOW_MS });
  }
  store.close();
  return dataDir;
}

function opened(path: string, readonly = true): Database.Database {
  const database = new Database(path, { readonly });
  onTestFinished(() => void database.close());
  return database;
}

/** Opens the folder with one step more than the program has. */
function migrateAt(dataDir: string, when: Date, number = NEWEST + 10): void {
  openStore({ dataDir, now: () => when, migrations: withStep(number) }).close();
}

const copiesIn = (dataDir: string): string[] =>
  readdirSync(dataDir)
    .filter((name) => name.includes('before-step'))
    .toSorted();

describe('the copy before a migration', () => {
  it('is named by step and time, and its builds open as they did', () => {
    const dataDir = folderWithBuilds();
    migrateAt(dataDir, NOW);
    expect(copiesIn(dataDir)).toEqual([COPY]);
    const copy = opened(join(dataDir, COPY));
    expect(versionOf(copy)).toBe(NEWEST);
    expect(openBuild(readHandle(copy), 'b7').document).toMatchObject({ name: 'Build 7' });
    expect(versionOf(opened(join(dataDir, FILE_NAME)))).toBe(NEWEST + 10);
  });

  it('takes what still lies in the write-ahead log along', () => {
    const dataDir = folderWithBuilds();
    const other = opened(join(dataDir, FILE_NAME), false);
    other.pragma('wal_autocheckpoint = 0');
    other.exec(`INSERT INTO builds VALUES ('late', 'Late', '2027-05-14', NULL, 1, 2, NULL)`);
    migrateAt(dataDir, NOW);
    const names = opened(join(dataDir, COPY)).prepare('SELECT name FROM builds').pluck().all();
    expect(names).toContain('Late');
  });

  it('is not made where nothing is pending', () => {
    const dataDir = folderWithBuilds();
    openStore({ dataDir, now: () => NOW }).close();
    expect(copiesIn(dataDir)).toEqual([]);
  });

  it('is one of at most five: the oldest go, whatever their step', () => {
    const dataDir = folderWithBuilds();
    const hour = 3_600_000;
    for (let i = 0; i < 7; i += 1) {
      migrateAt(dataDir, new Date(NOW_MS + i * hour), NEWEST + 10 * (i + 1));
      const database = opened(join(dataDir, FILE_NAME), false);
      database.pragma(`user_version = ${NEWEST + (i % 2)}`);
      database.exec(`DROP TABLE step_${NEWEST + 10 * (i + 1)}`);
    }
    const hours = copiesIn(dataDir).map((name) => /T(\d\d)/.exec(name)![1]);
    expect(hours.toSorted()).toEqual(['08', '09', '10', '11', '12']);
  });

  it('leaves other files of the folder alone', () => {
    const dataDir = folderWithBuilds();
    const others = ['backcure.damaged-20200101T000000Z.sqlite', 'backcure.before-step-x.sqlite'];
    for (const name of others) writeFileSync(join(dataDir, name), '');
    migrateAt(dataDir, NOW);
    expect(readdirSync(dataDir)).toEqual(expect.arrayContaining(others));
  });
});

/** Opens the folder, and answers with the message of the refusal. */
function refusal(dataDir: string): string {
  try {
    migrateAt(dataDir, NOW);
  } catch (error) {
    expect(error).toBeInstanceOf(StoreUnavailable);
    return (error as Error).message;
  }
  throw new Error('the migration ran');
}

describe('without a sound copy', () => {
  it('no step runs when the copy cannot be written, and one line says so', () => {
    const dataDir = folderWithBuilds();
    const inTheWay = `${COPY}.part`;
    mkdirSync(join(dataDir, inTheWay));
    const before = readFileSync(join(dataDir, FILE_NAME));
    const message = refusal(dataDir);
    expect(message).toMatch(/^The data file has to be brought up to date.*no sound copy/);
    expect(message).not.toContain('\n');
    expect(readFileSync(join(dataDir, FILE_NAME)).equals(before)).toBe(true);
    expect(copiesIn(dataDir)).toEqual([inTheWay]);
  });

  it('that has a damaged revision still is brought up to date: the copy has it as the file has it', () => {
    const dataDir = folderWithBuilds();
    const database = opened(join(dataDir, FILE_NAME), false);
    database.exec(`INSERT INTO builds VALUES ('bad', 'Bad', '2027-05-14', NULL, 1, 2, NULL)`);
    database.exec(
      `INSERT INTO revisions VALUES
         ('bad', 1, 'edit', 'New', 1, NULL, ${NOW_MS + 1}, x'00ff', NULL, x'')`,
    );
    migrateAt(dataDir, NOW);
    expect(versionOf(database)).toBe(NEWEST + 10);
    expect(copiesIn(dataDir)).toEqual([COPY]);
  });
});

describe('a copy that is compared with its file', () => {
  const pair = () => {
    const dataDir = folderWithBuilds();
    const original = join(dataDir, FILE_NAME);
    const copy = join(dataDir, 'copy.sqlite');
    copyFileSync(original, copy);
    return { original, copy };
  };

  it('is sound when it is whole', () => {
    const { original, copy } = pair();
    expect(faultOfCopy(copy, opened(original))).toBeNull();
  });

  it.each<[string, (copy: string) => void, string]>([
    ['cut short', (copy) => truncateSync(copy, 8192), 'copy'],
    ['empty', (copy) => truncateSync(copy, 0), 'another step'],
    ['noise', (copy) => writeFileSync(copy, 'noise '.repeat(5000)), 'cannot be read'],
    [
      'with another document',
      (copy) => {
        const database = new Database(copy);
        database.exec(`DROP TRIGGER revisions_stay; UPDATE revisions SET document = x'00ff'`);
        database.close();
      },
      'changed last cannot be read',
    ],
    [
      'without a row',
      (copy) => {
        const database = new Database(copy);
        database.exec(`DELETE FROM library_rows; PRAGMA foreign_keys = OFF;
          DELETE FROM builds WHERE id = 'b3'`);
        database.close();
      },
      'lacks rows of builds',
    ],
  ])('is refused when it is %s', (_, spoil, words) => {
    const { original, copy } = pair();
    spoil(copy);
    expect(faultOfCopy(copy, opened(original))).toContain(words);
  });
});
