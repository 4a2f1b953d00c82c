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

/**
 * Checks a document that came from a page. What was wrong in the stored revision already, read by ranges
 * that have tightened since, stays until it is mended: only what an edit brings in is refused.
 * @param before the stored revision that the edit is made on; null for a new build
 * @throws StoreRefusal with every fault that the edit brings in
 */
export function acceptFromPage(
  document: StoredDocument,
  library: Library,
  id: string,
  before: StoredDocument | null = null,
): StoredDocument {
  const read = readDocument({ ...document, id }, library);
  if (read.ok) return accept(read, library, id);
  const known = before ? readDocument(before, library) : null;
  const old = new Set(known && !known.ok ? known.faults.map(kindOf) : []);
  const brought = read.faults.filter((fault) => !old.has(kindOf(fault)));
  if (brought.length > 0) throw new StoreRefusal('refused', refusalText(brought), brought);
  return { ...document, id };
}

/** A fault wherever in its list it stands: an entry before it may have been taken out. */
const kindOf = ({ path, found }: Fault): string => `${path.replace(/\[\d+\]/g, '[]')} ${found}`;

function refusalText(faults: readonly Fault[]): string {
  const [first] = faults;
  const more = faults.length > 1 ? ` (and ${faults.length - 1} more)` : '';
  return `${first?.path}: found ${first?.found}, expected ${first?.expected}${more}`;
}
