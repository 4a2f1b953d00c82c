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
 * 1 to 2: every new field (heat without somebody there, where a row's figure comes from, what a filler
 * stands) has a default that means what its absence meant, so nothing is written. The number is raised
 * because a program of version 1 refuses fields that it does not know. What names the one order of
 * everything stays written so: which orders it stands for hangs on the rows of the library, and is read
 * by `withSplitOrder` in `splitOrder.ts`.
 */
const STEPS: Readonly<Record<number, Step>> = { 1: (document) => document };

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
