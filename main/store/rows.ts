/** Rows and domain values, mapped in one place. */
import { isDeepStrictEqual } from 'node:util';
import { deflateRawSync, inflateRawSync } from 'node:zlib';
import { migrate } from '../../app/document/migrate/migrate.ts';
import type { BuildSummary } from '../../app/contract/channels.ts';

/** A Build as it is stored: checked by `readDocument` before it came here. */
export type StoredDocument = Readonly<Record<string, unknown>>;

export interface BuildRow {
  readonly id: string;
  readonly name: string;
  readonly unveiling: string;
  readonly sample: string | null;
  readonly changed_at_ms: number;
}

export interface RevisionRow {
  readonly number: number;
  readonly label: string;
  readonly position: number;
  readonly parent: number | null;
  readonly document: Buffer;
}

/** Far above any real build: a damaged blob may not fill the memory. */
const MAX_DOCUMENT_BYTES = 64_000_000;

export const packDocument = (document: StoredDocument): Buffer =>
  deflateRawSync(Buffer.from(JSON.stringify(document)));

/** The document in today's format, whatever program wrote the row. */
export function unpackDocument(blob: Buffer): StoredDocument {
  const text = inflateRawSync(blob, { maxOutputLength: MAX_DOCUMENT_BYTES }).toString();
  return migrate(JSON.parse(text) as Record<string, unknown>);
}

export const summaryOf = (row: BuildRow): BuildSummary => ({
  id: row.id,
  name: row.name,
  unveiling: row.unveiling,
  changedAt: new Date(row.changed_at_ms).toISOString(),
  sample: row.sample !== null,
});

export const recordsOf = (document: StoredDocument): readonly unknown[] =>
  Array.isArray(document['records']) ? document['records'] : [];

/** The document with other floor records; without the field when there are none. */
export function withRecords(document: StoredDocument, records: readonly unknown[]): StoredDocument {
  const copy: Record<string, unknown> = { ...document };
  delete copy['records'];
  if (records.length > 0) copy['records'] = records;
  return copy;
}

export const same = (a: unknown, b: unknown): boolean => isDeepStrictEqual(a, b);
