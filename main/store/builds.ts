/** Builds and their append-only history. */
import type { BuildSummary, OpenBuild } from '../../app/contract/channels.ts';
import { StoreRefusal } from './errors.ts';
import { connection, write, type ReadHandle, type WriteHandle } from './handles.ts';
import { USED } from './state.ts';
import { append, newestSound, soundRevision, type Newest, type Revision } from './revisions.ts';
import {
  recordsOf,
  same,
  summaryOf,
  withRecords,
  type BuildRow,
  type StoredDocument,
} from './rows.ts';

/** Builds that were not removed, the last used first: opened or changed. */
export function listBuilds(handle: ReadHandle): BuildSummary[] {
  return connection(handle)
    .prepare<[], BuildRow>(
      `SELECT id, builds.name, unveiling, sample, changed_at_ms FROM builds
       LEFT JOIN meta ON meta.name = '${USED}' || id
       WHERE removed_at_ms IS NULL
       ORDER BY MAX(changed_at_ms, CAST(COALESCE(value, '0') AS INTEGER)) DESC, id`,
    )
    .all()
    .map(summaryOf);
}

/** Builds that were removed, the last one first. */
export function listRemoved(handle: ReadHandle): BuildSummary[] {
  return connection(handle)
    .prepare<[], BuildRow>(
      `SELECT id, name, unveiling, sample, changed_at_ms FROM builds
       WHERE removed_at_ms IS NOT NULL ORDER BY removed_at_ms DESC, id`,
    )
    .all()
    .map(summaryOf);
}

/** Puts a removed build back on the list, with its whole history. @throws StoreRefusal not-found */
export function bringBack(handle: WriteHandle, id: string): OpenBuild {
  return write(handle, () => {
    connection(handle).prepare('UPDATE builds SET removed_at_ms = NULL WHERE id = ?').run(id);
    return openBuild(handle, id);
  });
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

/**
 * A build at its newest revision, or at the last sound one when that is damaged, which it says.
 * @throws StoreRefusal not-found, refused when none of its revisions can be read
 */
export function openBuild(handle: ReadHandle, id: string): OpenBuild {
  buildRow(handle, id);
  const newest = newestOf(handle, id);
  const shown = placeOf(handle, id, newest.position);
  const next = redoTarget(handle, id, newest.position);
  const lost = newest.last - newest.number;
  return {
    id,
    revision: newest.last,
    document: newest.document,
    ...(lost > 0 ? { notice: damagedWords(lost) } : {}),
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
    const before = newest.document;
    if (same(before, edit.document)) return openBuild(handle, edit.id);
    const kept = recordsOf(before);
    if (!edit.replacesRecords) refuseLostRecords(kept, recordsOf(edit.document));
    const number = newest.last + 1;
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
    const shown = placeOf(handle, gesture.id, newest.position);
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

/** @throws StoreRefusal when no revision of the build can be read */
function newestOf(handle: ReadHandle, id: string): Newest {
  const newest = newestSound(handle, id);
  if (newest) return newest;
  throw new StoreRefusal(
    'refused',
    'This build is damaged in the data file: none of its revisions can be read. A kept copy of the data may still hold it.',
  );
}

/** Where a revision stands in the undo list; what is damaged is only its document. */
function placeOf(
  handle: ReadHandle,
  id: string,
  number: number,
): { readonly label: string; readonly parent: number | null } {
  const row = connection(handle)
    .prepare<[string, number], { label: string; parent: number | null }>(
      'SELECT label, parent FROM revisions WHERE build_id = ? AND number = ?',
    )
    .get(id, number);
  return row ?? { label: '', parent: null };
}

const damagedWords = (lost: number): string =>
  (lost === 1
    ? 'The newest revision of this build is damaged in the data file.'
    : `The newest ${lost} revisions of this build are damaged in the data file.`) +
  ' The build stands at the last sound one before. A kept copy of the data may hold the rest.';

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

function expected(handle: ReadHandle, { id, expects }: Gesture): Newest {
  buildRow(handle, id);
  const newest = newestOf(handle, id);
  if (newest.last !== expects) {
    throw new StoreRefusal('stale', 'The build was changed in another window.');
  }
  return newest;
}

function step(
  handle: WriteHandle,
  gesture: Gesture,
  newest: Newest,
  to: { kind: 'undo' | 'redo'; label: string; position: number },
): void {
  const target: Revision | null = soundRevision(handle, gesture.id, to.position);
  if (!target) {
    throw new StoreRefusal(
      'refused',
      'That state of the build is damaged in the data file and cannot be brought back.',
    );
  }
  const document = withRecords(target.document, recordsOf(newest.document));
  append(handle, { ...gesture, ...to, number: newest.last + 1, parent: null, document });
}
