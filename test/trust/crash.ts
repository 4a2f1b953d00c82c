/** Kills a process in the middle of storing edits, again and again, and counts what is lost. */
import { spawn } from 'node:child_process';
import { join } from 'node:path';
import { seededRandom } from '../../app/schedule/random.ts';
import { openBuild } from '../../main/store/builds.ts';
import { connection } from '../../main/store/handles.ts';
import { openStore } from '../../main/store/open.ts';
import { textOf } from '../../main/store/revisions.ts';

const WRITER = join(import.meta.dirname, '..', 'store', 'writer.ts');

export interface CrashCount {
  readonly kills: number;
  /** Revisions that the store had answered for before the kill. */
  readonly acknowledged: number;
  readonly lost: number;
  /** Revisions whose text cannot be read, or is not what was written. */
  readonly damaged: number;
  /** Starts that had something to say of the data file. */
  readonly notices: number;
}

/** @param seed of the moments at which the process is killed */
export async function crash(dataDir: string, kills: number, seed: number): Promise<CrashCount> {
  const random = seededRandom(seed);
  let [acknowledged, lost, damaged, notices] = [0, 0, 0, 0];
  for (let kill = 0; kill < kills; kill += 1) {
    const told = await writeAndKill(dataDir, random.below(12), random.below(9));
    const store = openStore({ dataDir, now: () => new Date(0) });
    try {
      if (store.notice !== null) notices += 1;
      const { revision } = openBuild(store.read, 'build');
      lost += Math.max(0, told - revision);
      acknowledged = Math.max(acknowledged, told);
      // The whole history is read at the end; after each kill its end, where the kill struck.
      const from = kill === kills - 1 ? 1 : Math.max(1, revision - 20);
      for (let number = from; number <= revision; number += 1) {
        const text = textOf(store.read, 'build', number);
        if (text === null || !text.includes(`"Edit ${number}"`)) damaged += 1;
      }
      const broken = connection(store.read).pragma('integrity_check(1)', { simple: true });
      if (broken !== 'ok') damaged += 1;
    } finally {
      store.close();
    }
  }
  return { kills, acknowledged, lost, damaged, notices };
}

/** @returns the last revision that the writer told of */
function writeAndKill(dataDir: string, after: number, laterMs: number): Promise<number> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [WRITER, dataDir], {
      stdio: ['ignore', 'pipe', 'inherit'],
    });
    let told = '';
    let struck = false;
    child.stdout.on('data', (chunk: Buffer) => {
      told += chunk.toString();
      if (struck || told.split('\n').length <= after + 1) return;
      struck = true;
      setTimeout(() => child.kill('SIGKILL'), laterMs);
    });
    child.on('error', reject);
    child.on('close', (_code, signal) => {
      if (signal !== 'SIGKILL') reject(new Error(`the writer ended by ${signal}`));
      resolve(Number(told.split('\n').slice(0, -1).at(-1)));
    });
  });
}
