import { spawn } from 'node:child_process';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { openBuild, undo } from '../../main/store/builds.ts';
import { connection } from '../../main/store/handles.ts';
import { scratchFolder, scratchStore } from './fixtures.ts';

const WRITER = join(import.meta.dirname, 'writer.ts');

/** Kills the writer without warning after some acknowledged revisions; the last one told. */
function writeAndKill(dataDir: string, after: number): Promise<number> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [WRITER, dataDir], {
      stdio: ['ignore', 'pipe', 'inherit'],
    });
    let told = '';
    child.stdout.on('data', (chunk: Buffer) => {
      told += chunk.toString();
      if (told.split('\n').length > after) child.kill('SIGKILL');
    });
    child.on('error', reject);
    child.on('close', (_code, signal) => {
      if (signal !== 'SIGKILL') reject(new Error(`the writer ended by ${signal}`));
      resolve(told.split('\n').slice(0, -1).map(Number).at(-1)!);
    });
  });
}

it.each([1, 5, 40])(
  'a process killed after %i acknowledged revisions has lost none of them',
  async (after) => {
    const dataDir = scratchFolder();
    const acknowledged = await writeAndKill(dataDir, after);
    const store = scratchStore(dataDir);
    expect(store.notice).toBeNull();
    const open = openBuild(store.read, 'build');
    expect(open.revision).toBeGreaterThanOrEqual(acknowledged);
    const numbers = connection(store.read)
      .prepare('SELECT number FROM revisions ORDER BY number')
      .pluck()
      .all();
    expect(numbers).toEqual(Array.from({ length: open.revision }, (_, i) => i + 1));
    expect(open.document['name']).toBe(`Edit ${open.revision}`);
    if (open.revision > 1) {
      const back = undo(store.write, { id: 'build', expects: open.revision, nowMs: 0 });
      expect(back.document['name']).toBe(`Edit ${open.revision - 1}`);
    }
  },
);
