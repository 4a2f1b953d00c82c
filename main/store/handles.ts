/**
 * Two grades of access to one connection. A function that takes a ReadHandle cannot call one that
 * takes a WriteHandle: it does not compile. The connection itself is seen by main/store alone.
 */
import type { Database } from 'better-sqlite3';
import { watchOf } from './watch.ts';
import { countChange } from './fileNote.ts';

declare const readable: unique symbol;
declare const writable: unique symbol;

export interface ReadHandle {
  readonly [readable]: true;
}
export interface WriteHandle extends ReadHandle {
  readonly [writable]: true;
}

export const readHandle = (database: Database): ReadHandle => database as unknown as ReadHandle;
export const writeHandle = (database: Database): WriteHandle => database as unknown as WriteHandle;

/** The connection behind a handle; for main/store and its tests. */
export const connection = (handle: ReadHandle): Database => handle as unknown as Database;

/**
 * Runs `work` in one transaction that holds the write lock from its start, so that what it reads is
 * still true when it writes. Rolls back when `work` throws.
 * @throws StoreGone when the data file is not in its place any more; nothing was done then
 */
export function write<T>(handle: WriteHandle, work: () => T): T {
  const database = connection(handle);
  if (database.inTransaction) return database.transaction(work).immediate();
  const watch = watchOf(database);
  watch.before();
  const result = database
    .transaction(() => {
      const done = work();
      countChange(database);
      return done;
    })
    .immediate();
  watch.after();
  return result;
}

/** A file that another process holds is an error at once, not a wait in which nothing else is answered. */
export const waitForNobody = (handle: WriteHandle): unknown =>
  connection(handle).pragma('busy_timeout = 0');
