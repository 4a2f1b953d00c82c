/** Brings a data file up to date, all pending steps in one transaction. */
import type { Database } from 'better-sqlite3';
import { StoreUnavailable } from './errors.ts';
import type { Migration } from './migrations/list.ts';

/**
 * Runs the steps that the file has not seen.
 * @param keepCopy called before the first step of a file that already holds data; no step runs when it throws
 * @throws StoreUnavailable for a file of a newer program or of another one, and what `keepCopy` throws
 */
export function migrate(
  database: Database,
  steps: readonly Migration[],
  keepCopy: (version: number) => unknown,
): void {
  steps.forEach((step, i) => {
    if (i > 0 && step.number <= steps[i - 1]!.number) {
      throw new Error(`Migration ${step.number} does not follow ${steps[i - 1]!.number}`);
    }
  });
  const newest = steps.at(-1)?.number ?? 0;
  const version = versionOf(database);
  if (version > newest) {
    throw new StoreUnavailable(
      `The data file was written by a newer Backcure (step ${version}; this one knows ${newest}). ` +
        'It was left as it is: start the newer program, or name another folder with --data.',
    );
  }
  if (version === newest) return;
  if (version === 0 && holdsTables(database)) {
    throw new StoreUnavailable(
      'The data file belongs to another program. It was left as it is: name another folder with --data.',
    );
  }
  if (version > 0) keepCopy(version);
  database
    .transaction(() => {
      // Another process may have been first while this one waited for the lock.
      const from = versionOf(database);
      for (const step of steps) {
        if (step.number <= from) continue;
        step.run(database);
        database.pragma(`user_version = ${step.number}`);
      }
      const broken = database.pragma('foreign_key_check') as unknown[];
      if (broken.length > 0) throw new Error(`${broken.length} rows point at nothing`);
    })
    .immediate();
}

export const versionOf = (database: Database): number =>
  Number(database.pragma('user_version', { simple: true }));

const holdsTables = (database: Database): boolean =>
  database.prepare('SELECT 1 FROM sqlite_schema LIMIT 1').get() !== undefined;
