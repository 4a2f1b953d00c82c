/** A disk that lets nothing be written, as the program's own ways out meet it. */
import fs, { mkdirSync } from 'node:fs';
import { syncBuiltinESMExports } from 'node:module';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { answer } from '../../../main/handlers/answer.ts';
import { connection } from '../../../main/store/handles.ts';
import { FILE_NAME, openStore } from '../../../main/store/open.ts';
import { NOW, scratchFolder, scratchSession } from './fixtures.ts';

// What a system says of a folder on a disk that is mounted for reading.
beforeEach(() => {
  vi.spyOn(fs, 'accessSync').mockImplementation(() => {
    throw Object.assign(new Error('read-only'), { code: 'EROFS' });
  });
  syncBuiltinESMExports();
});
afterEach(() => {
  vi.restoreAllMocks();
  syncBuiltinESMExports();
});

it('is named where an edit cannot be stored', async () => {
  const session = scratchSession({ samples: [] });
  connection(session.store.write).pragma('query_only = ON');
  const told = await answer(session, 'draft-create', { document: {} });
  expect(told).toMatchObject({ ok: false, code: 'disk' });
  expect(JSON.stringify(told)).toContain('read-only disk');
});

it('is named where the data file cannot be opened', () => {
  const dataDir = scratchFolder();
  mkdirSync(join(dataDir, FILE_NAME));
  expect(() => openStore({ dataDir, now: () => NOW })).toThrow('read-only disk');
});
