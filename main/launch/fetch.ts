/**
 * Lets Electron's own installer fetch its program file, for as long as bytes come. The installer is
 * given a folder of its own for what is half made: its growth shows that something comes, and
 * nothing of a fetch that ended early is left.
 */
import { spawn, type ChildProcess } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { electronBinary } from './binary.ts';

/** fetched: there now; refused: not to be had; stalled: ended, since no byte came for too long. */
export type Fetched = 'fetched' | 'refused' | 'stalled';

export interface FetchProgress {
  readonly bytes: number;
  /** What the server announced, or null when it announced nothing. */
  readonly totalBytes: number | null;
}

export interface FetchOptions {
  /** Project folder, with node_modules/electron. */
  readonly root: string;
  /** A fetch is ended after this time without a byte. */
  readonly stallMs?: number;
  readonly lookEveryMs?: number;
  readonly env?: NodeJS.ProcessEnv;
  readonly onProgress?: (progress: FetchProgress) => void;
}

export const STALL_MS = 10_000;

/**
 * Runs the installer that comes with the package. ELECTRON_SKIP_BINARY_DOWNLOAD=1 asks for no
 * attempt. The mirror, cache and proxy variables of the installer hold as they always do.
 */
export async function fetchElectron(options: FetchOptions): Promise<Fetched> {
  const { root, env = process.env } = options;
  const installer = join(root, 'node_modules', 'electron', 'install.js');
  if (env['ELECTRON_SKIP_BINARY_DOWNLOAD'] || !existsSync(installer)) return 'refused';
  const folder = mkdtempSync(join(tmpdir(), 'backcure-electron-'));
  const reporter = new URL('./announced.ts', import.meta.url).href;
  const child = spawn(process.execPath, ['--import', reporter, installer], {
    stdio: ['ignore', 'ignore', 'ignore', 'ipc'],
    env: { ...env, TMPDIR: folder, TMP: folder, TEMP: folder, ELECTRON_GET_NO_PROGRESS: '1' },
  });
  const tidyUp = (): void => {
    child.kill('SIGKILL');
    rmSync(folder, { recursive: true, force: true });
    dropHalfMade(root);
  };
  const interrupted = (): never => process.exit(130);
  process.once('exit', tidyUp);
  process.once('SIGINT', interrupted);
  process.once('SIGTERM', interrupted);
  try {
    return await watch(child, folder, options);
  } finally {
    process.off('exit', tidyUp);
    process.off('SIGINT', interrupted);
    process.off('SIGTERM', interrupted);
    tidyUp();
  }
}

/** Waits until the installer ends or no byte came for too long; then it is ended. */
async function watch(child: ChildProcess, folder: string, options: FetchOptions): Promise<Fetched> {
  const { root, stallMs = STALL_MS, lookEveryMs = 250, onProgress } = options;
  const unpacked = join(root, 'node_modules', 'electron', 'dist');
  let totalBytes: number | null = null;
  child.on('message', (message) => {
    if (typeof message === 'number') totalBytes = Math.max(message, totalBytes ?? 0);
  });
  const ended = new Promise<Fetched>((resolve) => {
    child.on('error', () => resolve('refused'));
    child.on('close', (code) => resolve(code === 0 ? 'fetched' : 'refused'));
  });
  let stalled = false;
  let [came, seen, lastMs] = [0, 0, performance.now()];
  onProgress?.({ bytes: 0, totalBytes });
  const timer = setInterval(() => {
    const bytes = bytesIn(folder);
    // While the archive is unpacked no bytes come; that is not a stall.
    const now = bytes + bytesIn(unpacked);
    if (now !== seen) [seen, lastMs] = [now, performance.now()];
    if (bytes > came) {
      came = bytes;
      // The installer's list of checksums lies beside the archive and is no part of what comes.
      onProgress?.({ bytes: Math.min(bytes, totalBytes ?? bytes), totalBytes });
    }
    if (performance.now() - lastMs < stallMs) return;
    stalled = true;
    child.kill('SIGKILL');
  }, lookEveryMs);
  const outcome = await ended;
  clearInterval(timer);
  // The last bytes may have come between two looks.
  if (outcome === 'fetched' && totalBytes !== null) onProgress?.({ bytes: totalBytes, totalBytes });
  return stalled ? 'stalled' : outcome;
}

/** Unpacked files without the installer's note that all of them are there are of no use. */
function dropHalfMade(root: string): void {
  if (electronBinary(root) !== null) return;
  rmSync(join(root, 'node_modules', 'electron', 'dist'), { recursive: true, force: true });
}

/** Sum of the sizes of all files below a folder; 0 where there is none. */
function bytesIn(path: string): number {
  const stat = statSync(path, { throwIfNoEntry: false });
  if (!stat?.isDirectory()) return stat?.size ?? 0;
  try {
    return readdirSync(path).reduce((sum, name) => sum + bytesIn(join(path, name)), 0);
  } catch {
    // The installer removed the folder between the two looks.
    return 0;
  }
}
