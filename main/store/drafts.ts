/** Builds that are not complete yet: one document each, without a history. */
import { migrate } from '../../app/document/migrate/migrate.ts';
import type { DraftSummary, OpenDraft } from '../../app/contract/channels.ts';
import { StoreRefusal } from './errors.ts';
import { connection, write, type ReadHandle, type WriteHandle } from './handles.ts';
import type { StoredDocument } from './rows.ts';

interface DraftRow {
  readonly id: string;
  readonly revision: number;
  readonly document: string;
  readonly changed_at_ms: number;
}

const COLUMNS = 'id, revision, document, changed_at_ms';

/** Drafts that were not removed, the last changed first. */
export function listDrafts(handle: ReadHandle): DraftSummary[] {
  return connection(handle)
    .prepare<[], DraftRow>(
      `SELECT ${COLUMNS} FROM drafts WHERE removed_at_ms IS NULL ORDER BY changed_at_ms DESC, id`,
    )
    .all()
    .map((row) => {
      const { name } = documentOf(row);
      return {
        id: row.id,
        name: typeof name === 'string' ? name : null,
        changedAt: new Date(row.changed_at_ms).toISOString(),
      };
    });
}

/** @throws StoreRefusal not-found */
export function openDraft(handle: ReadHandle, id: string): OpenDraft {
  const row = draftRow(handle, id);
  return { id, revision: row.revision, document: documentOf(row) };
}

export interface DraftWrite {
  readonly id: string;
  /** The revision that the change was made on. */
  readonly expects: number;
  readonly nowMs: number;
}

/** Stores a draft at its first revision. */
export function createDraft(
  handle: WriteHandle,
  draft: { readonly id: string; readonly document: StoredDocument; readonly nowMs: number },
): OpenDraft {
  return write(handle, () => {
    connection(handle)
      .prepare(
        `INSERT INTO drafts (id, revision, document, created_at_ms, changed_at_ms)
         VALUES (?, 1, ?, ?, ?)`,
      )
      .run(draft.id, JSON.stringify(draft.document), draft.nowMs, draft.nowMs);
    return openDraft(handle, draft.id);
  });
}

/** @throws StoreRefusal not-found, stale */
export function saveDraft(
  handle: WriteHandle,
  { id, expects, document, nowMs }: DraftWrite & { readonly document: StoredDocument },
): OpenDraft {
  return write(handle, () => {
    expected(handle, id, expects);
    connection(handle)
      .prepare('UPDATE drafts SET revision = ?, document = ?, changed_at_ms = ? WHERE id = ?')
      .run(expects + 1, JSON.stringify(document), nowMs, id);
    return openDraft(handle, id);
  });
}

/**
 * Takes a draft off the list; its row stays in the file.
 * @param removal without `expects` it goes at whatever revision it is
 * @throws StoreRefusal not-found, stale
 */
export function removeDraft(
  handle: WriteHandle,
  { id, expects, nowMs }: Omit<DraftWrite, 'expects'> & { readonly expects?: number },
): void {
  write(handle, () => {
    expected(handle, id, expects);
    connection(handle).prepare('UPDATE drafts SET removed_at_ms = ? WHERE id = ?').run(nowMs, id);
  });
}

function expected(handle: ReadHandle, id: string, expects: number | undefined): void {
  const { revision } = draftRow(handle, id);
  if (expects === undefined || expects === revision) return;
  throw new StoreRefusal('stale', 'This new build was changed in another window.');
}

function draftRow(handle: ReadHandle, id: string): DraftRow {
  const row = connection(handle)
    .prepare<[string], DraftRow>(
      `SELECT ${COLUMNS} FROM drafts WHERE id = ? AND removed_at_ms IS NULL`,
    )
    .get(id);
  if (!row) throw new StoreRefusal('not-found', 'There is no such unfinished build any more.');
  return row;
}

/** The document in today's format, whatever program wrote the row. */
const documentOf = (row: DraftRow): StoredDocument =>
  migrate(JSON.parse(row.document) as Record<string, unknown>);
