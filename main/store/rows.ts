/** Rows and domain values, mapped in one place. */
import { isDeepStrictEqual } from 'node:util';
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

/** The document in today's format, whatever program wrote the row. */
export const readText = (text: string): StoredDocument =>
  migrate(JSON.parse(text) as Record<string, unknown>);

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
