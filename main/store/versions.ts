/** The history of a build as people read it: its edits, the names given to some, and the way back to one. */
import type { HistoryEntry, OpenBuild } from '../../app/contract/channels.ts';
import { openBuild, saveEdit, type Gesture } from './builds.ts';
import { StoreRefusal } from './errors.ts';
import { connection, write, type ReadHandle, type WriteHandle } from './handles.ts';
import { soundRevision } from './revisions.ts';
import { recordsOf, withRecords, type StoredDocument } from './rows.ts';

/** As many entries as a screen lists; every named version is listed besides. */
const MOST_LISTED = 300;

interface Row {
  readonly number: number;
  readonly kind: HistoryEntry['kind'];
  readonly label: string;
  readonly created_at_ms: number;
  readonly name: string | null;
}

/**
 * The newest entries and every named one, the newest first.
 * @throws StoreRefusal not-found
 */
export function history(handle: ReadHandle, id: string): HistoryEntry[] {
  openBuild(handle, id);
  return connection(handle)
    .prepare<[{ id: string; most: number }], Row>(
      `SELECT r.number, r.kind, r.label, r.created_at_ms, v.name
       FROM revisions r LEFT JOIN versions v ON v.build_id = r.build_id AND v.number = r.number
       WHERE r.build_id = @id AND (v.name IS NOT NULL OR r.number >
         (SELECT max(number) - @most FROM revisions WHERE build_id = @id))
       ORDER BY r.number DESC`,
    )
    .all({ id, most: MOST_LISTED })
    .map(({ number, kind, label, created_at_ms, name }) => ({
      ...{ revision: number, kind, label, name },
      at: new Date(created_at_ms).toISOString(),
    }));
}

export interface Naming {
  readonly id: string;
  readonly revision: number;
  /** Null takes the name away; the state itself stays in the history. */
  readonly name: string | null;
  readonly nowMs: number;
}

/** @throws StoreRefusal not-found */
export function nameVersion(handle: WriteHandle, { id, revision, name, nowMs }: Naming): void {
  write(handle, () => {
    documentAt(handle, id, revision);
    const database = connection(handle);
    database.prepare('DELETE FROM versions WHERE build_id = ? AND number = ?').run(id, revision);
    if (name === null) return;
    database
      .prepare('INSERT INTO versions (build_id, number, name, created_at_ms) VALUES (?, ?, ?, ?)')
      .run(id, revision, name, nowMs);
  });
}

/** A build as it was at one revision. @throws StoreRefusal not-found, also for one that is damaged */
export function documentAt(handle: ReadHandle, id: string, revision: number): StoredDocument {
  openBuild(handle, id);
  const found = soundRevision(handle, id, revision);
  if (!found) throw new StoreRefusal('not-found', 'That state of the build cannot be read.');
  return found.document;
}

export interface Return extends Gesture {
  readonly revision: number;
}

/**
 * Appends an earlier state as one edit, which undo takes back. What the floor recorded since stays.
 * @throws StoreRefusal not-found, stale, refused
 */
export function returnTo(handle: WriteHandle, { revision, ...gesture }: Return): OpenBuild {
  return write(handle, () => {
    const then = documentAt(handle, gesture.id, revision);
    const now = openBuild(handle, gesture.id).document;
    const [entry] = history(handle, gesture.id).filter((one) => one.revision === revision);
    return saveEdit(handle, {
      ...gesture,
      label: `Back to ${entry?.name ?? entry?.label ?? `revision ${revision}`}`.slice(0, 120),
      document: withRecords(then, recordsOf(now)),
    });
  });
}
