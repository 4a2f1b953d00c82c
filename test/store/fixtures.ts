/** A store in a folder of its own, and documents small enough to read. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';
import { DOCUMENT_VERSION } from '../../app/document/schema.ts';
import { openStore, type Store } from '../../main/store/open.ts';
import type { StoredDocument } from '../../main/store/rows.ts';

export const NOW = new Date('2027-04-19T06:00:00Z');
export const NOW_MS = NOW.getTime();

/** A folder that goes when the test ends. */
export function scratchFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'store-test-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

/** A store that closes when the test ends. */
export function scratchStore(dataDir = scratchFolder()): Store {
  const store = openStore({ dataDir, now: () => NOW });
  onTestFinished(() => store.close());
  return store;
}

export const documentOf = (name: string, more: Record<string, unknown> = {}): StoredDocument => ({
  formatVersion: DOCUMENT_VERSION,
  name,
  unveiling: '2027-05-14T18:00',
  ...more,
});
