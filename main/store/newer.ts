/** The data file of a newer program, opened to be looked at. */
import { existsSync, statSync } from 'node:fs';
import Database from 'better-sqlite3';
import { listBuilds, openBuild } from './builds.ts';
import { listDrafts } from './drafts.ts';
import { isDamage } from './errors.ts';
import { readHandle, writeHandle } from './handles.ts';
import { versionOf } from './migrate.ts';
import type { Migration } from './migrations/list.ts';
import type { Store } from './open.ts';
import { newestSound } from './revisions.ts';

/** Null for a file that is not newer, or laid out so differently that nothing of it can be shown. */
export function openNewer(
  file: string,
  dataDir: string,
  migrations: readonly Migration[],
): Store | null {
  if (!existsSync(file) || statSync(file).size === 0) return null;
  const newest = migrations.at(-1)?.number ?? 0;
  let database: Database.Database;
  try {
    database = new Database(file, { readonly: true });
  } catch {
    return null;
  }
  try {
    const version = versionOf(database);
    if (version <= newest || !canBeRead(database)) {
      database.close();
      return null;
    }
    return {
      dataDir,
      read: readHandle(database),
      write: writeHandle(database),
      readOnly: true,
      notice: `${NEWER} (step ${version}; this one knows ${newest}).`,
      close: () => database.close(),
    };
  } catch (error) {
    database.close();
    if (isDamage(error)) return null;
    throw error;
  }
}

export const NEWER =
  'The data file was written by a newer Backcure, so that it can be looked at here and not changed';

/** Tries what the planner reads at its start. */
function canBeRead(database: Database.Database): boolean {
  const handle = readHandle(database);
  try {
    listDrafts(handle);
    const [first] = listBuilds(handle);
    if (first) openBuild(handle, first.id);
    newestSound(handle, '');
    database.prepare('SELECT table_name, id, origin, revision, body FROM library_rows').get();
    database.prepare('SELECT name, value FROM view_state').get();
    return true;
  } catch {
    return false;
  }
}
