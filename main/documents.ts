/** What a document goes through before the store may have it. */
import type { Fault } from '../app/document/faults.ts';
import { freezeRows } from '../app/document/library.ts';
import { readDocument, type ReadBuild } from '../app/document/read.ts';
import type { Library } from '../app/document/schema.ts';
import { StoreRefusal } from './store/errors.ts';
import type { StoredDocument } from './store/rows.ts';

/** A read document under its id in the store, with a frozen copy of every row it uses. */
export function accept(
  read: Extract<ReadBuild, { ok: true }>,
  library: Library,
  id: string,
): StoredDocument {
  return { ...freezeRows(read.document, read.build, library), id } as StoredDocument;
}

/** Checks a document that came from a page. @throws StoreRefusal with every fault */
export function acceptFromPage(
  document: StoredDocument,
  library: Library,
  id: string,
): StoredDocument {
  const read = readDocument({ ...document, id }, library);
  if (!read.ok) throw new StoreRefusal('refused', refusalText(read.faults), read.faults);
  return accept(read, library, id);
}

function refusalText(faults: readonly Fault[]): string {
  const [first] = faults;
  const more = faults.length > 1 ? ` (and ${faults.length - 1} more)` : '';
  return `${first?.path}: found ${first?.found}, expected ${first?.expected}${more}`;
}
