/** What the store refuses or cannot do, in plain words. */
import { accessSync, constants } from 'node:fs';
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

/** The data file was taken away, or another one put in its place, while the program ran. */
export class StoreGone extends Error {
  /** @param kept where all that was saved lies now, or null when it could not be written anywhere */
  constructor(kept: string | null) {
    super(
      'The data file was taken away, or another put in its place, while the planner was running. ' +
        (kept === null
          ? 'What was saved could not be written again: leave this window open and put the folder back.'
          : `What was saved before was written to ${kept}: close the planner and start it again.`),
    );
    this.name = 'StoreGone';
  }
}

const codeOf = (error: unknown): string =>
  typeof error === 'object' && error !== null && 'code' in error ? String(error.code) : '';

/** True when SQLite says that the file is not, or no longer, a sound database. */
export function isDamage(error: unknown): boolean {
  const code = codeOf(error);
  return code.startsWith('SQLITE_CORRUPT') || code === 'SQLITE_NOTADB';
}

/** True when another process holds the file: the same request may do in a moment. */
export function isBusy(error: unknown): boolean {
  const code = codeOf(error);
  return code.startsWith('SQLITE_BUSY') || code.startsWith('SQLITE_LOCKED');
}

/** What the system says about writing to a folder. */
type Probe = (folder: string) => void;
const mayBeWritten: Probe = (folder) => accessSync(folder, constants.W_OK);

/**
 * One sentence for trouble with disk, folder or file; null when the error is of another kind.
 * @param folder asked about when SQLite only says that it may not write
 */
export function diskTrouble(
  error: unknown,
  folder: string | null = null,
  probe: Probe = mayBeWritten,
): string | null {
  if (error instanceof StoreGone) return error.message;
  const code = codeOf(error);
  if (folder !== null && /READONLY|CANTOPEN|EACCES|EPERM/.test(code) && onReadOnly(folder, probe)) {
    return READ_ONLY;
  }
  if (code === 'SQLITE_FULL' || code === 'ENOSPC' || code === 'EDQUOT') {
    return 'The disk is full. Nothing was changed: make room and try again.';
  }
  if (isBusy(error)) {
    return 'Another program holds the data file. Nothing was changed: try again.';
  }
  if (code.startsWith('SQLITE_READONLY') || code === 'EACCES' || code === 'EPERM') {
    return 'The data folder may not be written to. Nothing was changed.';
  }
  if (code === 'EROFS') return READ_ONLY;
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

const READ_ONLY = 'The data folder lies on a read-only disk. Nothing was changed.';

function onReadOnly(folder: string, probe: Probe): boolean {
  try {
    probe(folder);
    return false;
  } catch (error) {
    return codeOf(error) === 'EROFS';
  }
}

/** What a failed opening is to be thrown as: plain words where there are any. */
export function unavailable(error: unknown, dataDir: string): unknown {
  const trouble = error instanceof StoreUnavailable ? null : diskTrouble(error, dataDir);
  return trouble === null ? error : new StoreUnavailable(`${trouble} (${dataDir})`);
}
