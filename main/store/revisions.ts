/**
 * Revisions of one build: reading them with their checksum, and appending. A damaged one is passed
 * over for the last sound one before it, so that a build opens whatever happened to its newest row.
 */
import { connection, type ReadHandle, type WriteHandle } from './handles.ts';
import { packed, unpacked, type Facts, type Whole } from './packing.ts';
import { readText, type StoredDocument } from './rows.ts';

export type RevisionKind = 'edit' | 'record' | 'undo' | 'redo';

interface Row extends Facts {
  readonly base: number | null;
  readonly document: Buffer;
  readonly checksum: Buffer;
}

export interface Revision {
  readonly number: number;
  readonly label: string;
  readonly position: number;
  readonly parent: number | null;
  readonly document: StoredDocument;
}

/** A build as it can be read: its last sound revision, and how many newer ones are damaged. */
export interface Newest extends Revision {
  /** Number of the newest row, sound or not: the next one follows it. */
  readonly last: number;
}

const SELECT = `SELECT build_id AS build, number, kind, label, position, parent, created_at_ms,
  base, document, checksum FROM revisions`;

const rowOf = (handle: ReadHandle, id: string, number: number): Row | undefined =>
  connection(handle)
    .prepare<[string, number], Row>(`${SELECT} WHERE build_id = ? AND number = ?`)
    .get(id, number);

/** The text as it was written, or null when the row is damaged or missing. */
export function textOf(handle: ReadHandle, id: string, number: number): string | null {
  try {
    const row = rowOf(handle, id, number);
    return row ? textOfRow(handle, row) : null;
  } catch {
    return null;
  }
}

/** @throws Error when the row, or the whole one it is a difference to, is damaged */
function textOfRow(handle: ReadHandle, row: Row): string {
  if (row.base === null) return unpacked(row, row, null);
  const whole = rowOf(handle, row.build, row.base);
  // A chain of differences is never written: whoever made one may have meant it not to end.
  if (!whole || whole.base !== null) throw new Error('The base is missing');
  return unpacked(row, row, unpacked(whole, whole, null));
}

/** A sound revision, or null. */
export function soundRevision(handle: ReadHandle, id: string, number: number): Revision | null {
  try {
    const row = rowOf(handle, id, number);
    if (!row) return null;
    const { label, position, parent } = row;
    return { number, label, position, parent, document: readText(textOfRow(handle, row)) };
  } catch {
    return null;
  }
}

/** The last sound revision of a build; null when there is none. */
export function newestSound(handle: ReadHandle, id: string): Newest | null {
  const last = connection(handle)
    .prepare<[string], number | null>('SELECT max(number) FROM revisions WHERE build_id = ?')
    .pluck()
    .get(id);
  if (last === undefined || last === null) return null;
  for (let number = last; number >= 1; number -= 1) {
    const sound = soundRevision(handle, id, number);
    if (sound) return { ...sound, last };
  }
  return null;
}

export interface NewRevision {
  readonly id: string;
  readonly number: number;
  readonly kind: RevisionKind;
  readonly label: string;
  readonly position: number;
  readonly parent: number | null;
  readonly nowMs: number;
  readonly document: StoredDocument;
}

/** Writes a revision behind the others. */
export function append(handle: WriteHandle, revision: NewRevision): void {
  const { id, number, kind, label, position, parent, nowMs, document } = revision;
  const facts: Facts = {
    build: id,
    number,
    kind,
    label,
    position,
    parent,
    created_at_ms: nowMs,
  };
  const next = packed(facts, JSON.stringify(document), wholeBefore(handle, id, number));
  const database = connection(handle);
  database
    .prepare(
      `INSERT INTO revisions (build_id, number, kind, label, position, parent, created_at_ms,
         document, base, checksum) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`,
    )
    .run(id, number, kind, label, position, parent, nowMs, next.document, next.base, next.checksum);
  database
    .prepare('UPDATE builds SET name = ?, unveiling = ?, changed_at_ms = ? WHERE id = ?')
    .run(String(document['name']), String(document['unveiling']), nowMs, id);
}

/** The whole revision that the one before is a difference from; null where it is not sound. */
function wholeBefore(handle: ReadHandle, id: string, number: number): Whole | null {
  const before = connection(handle)
    .prepare<[string, number], { number: number; base: number | null }>(
      'SELECT number, base FROM revisions WHERE build_id = ? AND number < ? ORDER BY number DESC LIMIT 1',
    )
    .get(id, number);
  if (!before) return null;
  const at = before.base ?? before.number;
  const text = textOf(handle, id, at);
  return text === null ? null : { number: at, text };
}
