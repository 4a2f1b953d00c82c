/**
 * Pure migrations of the Build document, one step a format version. They know nothing of SQLite.
 * A step takes a document of its own version and returns one of the next; it never edits its input.
 */
import { DOCUMENT_VERSION } from '../schema.ts';

type Document = Readonly<Record<string, unknown>>;
type Step = (document: Document) => Document;

/**
 * `STEPS[n]` lifts version n to n + 1.
 *
 * 1 to 2: rows typed into the build said so in the words of their source only; they get the field
 * `typed`. Every other new field (heat without somebody there, what a filler stands) has a default that
 * means what its absence meant, so nothing is written. What names the one order of everything stays
 * written so: which orders it stands for depends on the rows of the library, and is read by
 * `withSplitOrder` in `splitOrder.ts`.
 */
const STEPS: Readonly<Record<number, Step>> = {
  1: (document) =>
    'library' in document ? { ...document, library: withTyped(document['library']) } : document,
};

/** The sources that version 1 wrote for figures typed into a build. */
const TYPED_SHEET = 'typed into this build';
const TYPED_POT_LIFE = 'typed into this build from one pot-life row';

/** The rows of a frozen library, each provenance that only its source calls typed with the field. */
function withTyped(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(withTyped);
  if (typeof value !== 'object' || value === null) return value;
  const entries = Object.entries(value).map(([key, inner]) => [key, withTyped(inner)] as const);
  const row = Object.fromEntries(entries);
  const { source } = row;
  if (typeof source !== 'string' || 'typed' in row || !source.startsWith(TYPED_SHEET)) return row;
  return { ...row, typed: source === TYPED_POT_LIFE ? 'pot-life' : 'sheet' };
}

/** Lifts a document to the current version. Newer and unreadable versions are left to the caller. */
export function migrate(document: Document): Document {
  let current = document;
  for (let version = versionOf(document); version < DOCUMENT_VERSION; version += 1) {
    const step = STEPS[version];
    if (!step) break;
    current = { ...step(current), formatVersion: version + 1 };
  }
  return current;
}

/** The document's version; 1 when none is written. NaN when it is not a number. */
export function versionOf(document: Document): number {
  const version = document['formatVersion'] ?? 1;
  return typeof version === 'number' ? version : Number.NaN;
}
