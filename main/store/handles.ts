/**
 * Two grades of access to one connection. A function that takes a ReadHandle cannot call one that
 * takes a WriteHandle: it does not compile. The connection itself is seen by main/store alone.
 */
import type { Database } from 'better-sqlite3';

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
 */
export function write<T>(handle: WriteHandle, work: () => T): T {
  return connection(handle).transaction(work).immediate();
}
