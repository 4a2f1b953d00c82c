/** Builds and their append-only history. */
import type { BuildSummary, OpenBuild } from '../../app/contract/channels.ts';
import { StoreRefusal } from './errors.ts';
import { connection, write, type ReadHandle, type WriteHandle } from './handles.ts';
import {
  packDocument,
  recordsOf,
  same,
  summaryOf,
  unpackDocument,
  withRecords,
  type BuildRow,
  type RevisionRow,
  type StoredDocument,
} from './rows.ts';

/** Builds that were not removed, the last changed first. */
export function listBuilds(handle: ReadHandle): BuildSummary[] {
  return connection(handle)
    .prepare<[], BuildRow>(
      `SELECT id, name, unveiling, sample, changed_at_ms FROM builds
       WHERE removed_at_ms IS NULL ORDER BY changed_at_ms DESC, id`,
    )
    .all()
    .map(summaryOf);
}

/** Names of every sample that was ever put in, removed ones included. */
export function seededSamples(handle: ReadHandle): ReadonlySet<string> {
  const names = connection(handle)
    .prepare<[], string>('SELECT sample FROM builds WHERE sample IS NOT NULL')
    .pluck()
    .all();
  return new Set(names);
}

/** The sample that a build came from, or null. @throws StoreRefusal not-found */
export function sampleOf(handle: ReadHandle, id: string): string | null {
  return buildRow(handle, id).sample;
}

/** True for the id of any build that was ever stored, removed ones included. */
export function isTaken(handle: ReadHandle, id: string): boolean {
  return connection(handle).prepare('SELECT 1 FROM builds WHERE id = ?').get(id) !== undefined;
}

export interface NewBuild {
  readonly id: string;
  readonly document: StoredDocument;
  readonly label: string;
  /** File name of the sample, or null for the shop's own. */
  readonly sample: string | null;
  readonly nowMs: number;
}

/** Stores a build with its first revision. */
export function createBuild(handle: WriteHandle, build: NewBuild): OpenBuild {
  return write(handle, () => {
    connection(handle)
      .prepare(
        `INSERT INTO builds (id, name, unveiling, sample, created_at_ms, changed_at_ms)
         VALUES (?, ?, ?, ?, ?, ?)`,
      )
      .run(build.id, '', '', build.sample, build.nowMs, build.nowMs);
    append(handle, { ...build, number: 1, kind: 'edit', position: 1, parent: null });
    return openBuild(handle, build.id);
  });
}

/** A build at its newest revision. @throws StoreRefusal not-found */
export function openBuild(handle: ReadHandle, id: string): OpenBuild {
  buildRow(handle, id);
  const newest = newestRevision(handle, id);
  const shown = revision(handle, id, newest.position);
  const next = redoTarget(handle, id, newest.position);
  return {
    id,
    revision: newest.number,
    document: unpackDocument(newest.document),
    canUndo: shown.parent !== null,
    canRedo: next !== null,
    undoLabel: shown.parent === null ? null : shown.label,
    redoLabel: next === null ? null : next.label,
  };
}

export interface Gesture {
  readonly id: string;
  /** The revision that the change was made on. */
  readonly expects: number;
  readonly nowMs: number;
}

export interface Edit extends Gesture {
  readonly label: string;
  readonly document: StoredDocument;
  /** Puts the floor records back as well; for a sample that begins again. */
  readonly replacesRecords?: boolean;
}

/**
 * Appends one edit. A document that changes nothing appends nothing; one that adds floor records
 * alone is no step of the undo list and leaves redo as it is.
 * @throws StoreRefusal not-found, stale, refused
 */
export function saveEdit(handle: WriteHandle, edit: Edit): OpenBuild {
  return write(handle, () => {
    const newest = expected(handle, edit);
    const before = unpackDocument(newest.document);
    if (same(before, edit.document)) return openBuild(handle, edit.id);
    const kept = recordsOf(before);
    if (!edit.replacesRecords) refuseLostRecords(kept, recordsOf(edit.document));
    const number = newest.number + 1;
    const recordsOnly = same(withRecords(before, []), withRecords(edit.document, []));
    append(
      handle,
      recordsOnly
        ? { ...edit, number, kind: 'record', position: newest.position, parent: null }
        : { ...edit, number, kind: 'edit', position: number, parent: newest.position },
    );
    return openBuild(handle, edit.id);
  });
}

/**
 * Appends the state before the last edit that was not undone, with the newest floor records.
 * @throws StoreRefusal not-found, stale, refused when there is nothing to undo
 */
export function undo(handle: WriteHandle, gesture: Gesture): OpenBuild {
  return write(handle, () => {
    const newest = expected(handle, gesture);
    const shown = revision(handle, gesture.id, newest.position);
    if (shown.parent === null) throw new StoreRefusal('refused', 'There is nothing to undo.');
    step(handle, gesture, newest, { kind: 'undo', label: shown.label, position: shown.parent });
    return openBuild(handle, gesture.id);
  });
}

/**
 * Appends the state that the last undo took back, with the newest floor records.
 * @throws StoreRefusal not-found, stale, refused when there is nothing to redo
 */
export function redo(handle: WriteHandle, gesture: Gesture): OpenBuild {
  return write(handle, () => {
    const newest = expected(handle, gesture);
    const next = redoTarget(handle, gesture.id, newest.position);
    if (next === null) throw new StoreRefusal('refused', 'There is nothing to redo.');
    step(handle, gesture, newest, { kind: 'redo', label: next.label, position: next.number });
    return openBuild(handle, gesture.id);
  });
}

/** Takes a build off the list; its history stays in the file. @throws StoreRefusal not-found */
export function removeBuild(handle: WriteHandle, id: string, nowMs: number): void {
  write(handle, () => {
    buildRow(handle, id);
    connection(handle).prepare('UPDATE builds SET removed_at_ms = ? WHERE id = ?').run(nowMs, id);
  });
}

// ---------------------------------------------------------------------------------------------

function buildRow(handle: ReadHandle, id: string): BuildRow {
  const row = connection(handle)
    .prepare<[string], BuildRow>(
      `SELECT id, name, unveiling, sample, changed_at_ms FROM builds
       WHERE id = ? AND removed_at_ms IS NULL`,
    )
    .get(id);
  if (!row) throw new StoreRefusal('not-found', 'There is no such build any more.');
  return row;
}

const COLUMNS = 'number, label, position, parent, document';

function newestRevision(handle: ReadHandle, id: string): RevisionRow {
  return connection(handle)
    .prepare<[string], RevisionRow>(
      `SELECT ${COLUMNS} FROM revisions WHERE build_id = ? ORDER BY number DESC LIMIT 1`,
    )
    .get(id)!;
}

function revision(handle: ReadHandle, id: string, number: number): RevisionRow {
  return connection(handle)
    .prepare<[string, number], RevisionRow>(
      `SELECT ${COLUMNS} FROM revisions WHERE build_id = ? AND number = ?`,
    )
    .get(id, number)!;
}

/**
 * The edit that redo brings again: on the line from the last edit back to `position`.
 * CROSS JOIN holds the order: by its own choice SQLite went through the whole history at each step.
 */
function redoTarget(
  handle: ReadHandle,
  id: string,
  position: number,
): { number: number; label: string } | null {
  const row = connection(handle)
    .prepare<[{ id: string; position: number }], { number: number; label: string }>(
      `WITH RECURSIVE line (number, parent, label) AS (
         SELECT * FROM (
           SELECT number, parent, label FROM revisions
           WHERE build_id = @id AND kind = 'edit' ORDER BY number DESC LIMIT 1)
         UNION ALL
         SELECT r.number, r.parent, r.label
         FROM line CROSS JOIN revisions r ON r.number = line.parent
         WHERE r.build_id = @id AND line.parent > @position)
       SELECT number, label FROM line WHERE parent = @position`,
    )
    .get({ id, position });
  return row ?? null;
}

/** @throws StoreRefusal naming the first record that is missing or was changed */
function refuseLostRecords(kept: readonly unknown[], now: readonly unknown[]): void {
  const at = kept.findIndex((record, i) => !same(record, now[i]));
  if (at < 0) return;
  throw new StoreRefusal(
    'refused',
    'What the floor recorded stays: a correction is a later record.',
    [
      {
        path: `records[${at}]`,
        found: now.length <= at ? 'nothing' : 'another record',
        expected: 'the record as it was written: a correction is a later record',
      },
    ],
  );
}

function expected(handle: ReadHandle, { id, expects }: Gesture): RevisionRow {
  buildRow(handle, id);
  const newest = newestRevision(handle, id);
  if (newest.number !== expects) {
    throw new StoreRefusal('stale', 'The build was changed in another window.');
  }
  return newest;
}

function step(
  handle: WriteHandle,
  gesture: Gesture,
  newest: RevisionRow,
  to: { kind: 'undo' | 'redo'; label: string; position: number },
): void {
  const target = unpackDocument(revision(handle, gesture.id, to.position).document);
  const records = recordsOf(unpackDocument(newest.document));
  const document = withRecords(target, records);
  append(handle, { ...gesture, ...to, number: newest.number + 1, parent: null, document });
}

interface NewRevision {
  readonly id: string;
  readonly number: number;
  readonly kind: 'edit' | 'record' | 'undo' | 'redo';
  readonly label: string;
  readonly position: number;
  readonly parent: number | null;
  readonly nowMs: number;
  readonly document: StoredDocument;
}

function append(handle: WriteHandle, revision: NewRevision): void {
  const { id, number, kind, label, position, parent, nowMs, document } = revision;
  const database = connection(handle);
  database
    .prepare(
      `INSERT INTO revisions
         (build_id, number, kind, label, position, parent, created_at_ms, document)
       VALUES (?, ?, ?, ?, ?, ?, ?, ?)`,
    )
    .run(id, number, kind, label, position, parent, nowMs, packDocument(document));
  database
    .prepare('UPDATE builds SET name = ?, unveiling = ?, changed_at_ms = ? WHERE id = ?')
    .run(String(document['name']), String(document['unveiling']), nowMs, id);
}
