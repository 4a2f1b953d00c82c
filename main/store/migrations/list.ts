/** Every step of the data file, oldest first. A shipped step is never edited, renamed or removed. */
import type { Database } from 'better-sqlite3';
import * as builds from './0010-builds.ts';
import * as library from './0020-library.ts';
import * as state from './0030-state.ts';
import * as drafts from './0040-drafts.ts';
import * as smallHistory from './0050-small-history.ts';
import * as versions from './0060-versions.ts';

export interface Migration {
  /** Written to `user_version`; in tens, so that a mend can slip between. */
  readonly number: number;
  readonly run: (database: Database) => void;
}

export const MIGRATIONS: readonly Migration[] = [
  builds,
  library,
  state,
  drafts,
  smallHistory,
  versions,
];
