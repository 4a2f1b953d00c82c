/** What the store refuses or cannot do, in plain words. */
import type { ErrorCode } from '../../app/contract/channels.ts';
import type { Fault } from '../../app/document/faults.ts';

/** A request that the store turns down; nothing was written. */
export class StoreRefusal extends Error {
  readonly code: Extract<ErrorCode, 'not-found' | 'stale' | 'refused' | 'not-here'>;
  /** What was wrong with a document, field by field; none where it is no matter of a field. */
  readonly faults: readonly Fault[];
  constructor(code: StoreRefusal['code'], detail: string, faults: readonly Fault[] = []) {
    super(detail);
    this.faults = faults;
    this.name = 'StoreRefusal';
    this.code = code;
  }
}

/** The store cannot be opened at all. The message is for the person at the screen. */
export class StoreUnavailable extends Error {
  constructor(detail: string) {
    super(detail);
    this.name = 'StoreUnavailable';
  }
}

const codeOf = (error: unknown): string =>
  typeof error === 'object' && error !== null && 'code' in error ? String(error.code) : '';

/** True when SQLite says that the file is not, or no longer, a sound database. */
export function isDamage(error: unknown): boolean {
  const code = codeOf(error);
  return code.startsWith('SQLITE_CORRUPT') || code === 'SQLITE_NOTADB';
}

/** One sentence for trouble with disk, folder or file; null when the error is of another kind. */
export function diskTrouble(error: unknown): string | null {
  const code = codeOf(error);
  if (code === 'SQLITE_FULL' || code === 'ENOSPC' || code === 'EDQUOT') {
    return 'The disk is full. Nothing was changed: make room and try again.';
  }
  if (code.startsWith('SQLITE_BUSY') || code.startsWith('SQLITE_LOCKED')) {
    return 'Another program holds the data file. Nothing was changed: try again.';
  }
  if (code.startsWith('SQLITE_READONLY') || code === 'EACCES' || code === 'EPERM') {
    return 'The data folder may not be written to. Nothing was changed.';
  }
  if (code === 'EROFS') return 'The data folder lies on a read-only disk. Nothing was changed.';
  if (isDamage(error)) {
    return 'The data file is damaged. Close the planner and start it again: the file is kept aside.';
  }
  if (code.startsWith('SQLITE_IOERR') || code.startsWith('SQLITE_CANTOPEN') || code === 'EIO') {
    return 'The disk did not answer. Nothing was changed.';
  }
  if (code === 'ENOENT') return 'The data folder cannot be made there.';
  if (code === 'ENOTDIR' || code === 'EEXIST') {
    return 'The data folder cannot be made: a file of that name is in the way.';
  }
  return null;
}

/** What a failed opening is to be thrown as: plain words where there are any. */
export function unavailable(error: unknown, dataDir: string): unknown {
  const trouble = error instanceof StoreUnavailable ? null : diskTrouble(error);
  return trouble === null ? error : new StoreUnavailable(`${trouble} (${dataDir})`);
}
