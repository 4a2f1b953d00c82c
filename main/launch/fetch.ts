/** Lets Electron's own installer fetch its program file, without making anybody wait for it. */
import { spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { join } from 'node:path';

/** fetched: there now; failed: not to be had; fetching: still on its way, for the next start. */
export type Fetched = 'fetched' | 'failed' | 'fetching';

/**
 * Starts the installer that comes with the package and watches it for `withinMs`. One that is still
 * at it goes on by itself. ELECTRON_SKIP_BINARY_DOWNLOAD=1 asks for no attempt.
 */
export async function fetchElectron(root: string, withinMs: number): Promise<Fetched> {
  const installer = join(root, 'node_modules', 'electron', 'install.js');
  if (process.env['ELECTRON_SKIP_BINARY_DOWNLOAD'] || !existsSync(installer)) return 'failed';
  const child = spawn(process.execPath, [installer], { stdio: 'ignore', detached: true });
  const ended = new Promise<Fetched>((resolve) => {
    child.on('error', () => resolve('failed'));
    child.on('exit', (code) => resolve(code === 0 ? 'fetched' : 'failed'));
  });
  let timer: NodeJS.Timeout | undefined;
  const waited = new Promise<Fetched>((resolve) => {
    timer = setTimeout(() => resolve('fetching'), withinMs);
  });
  const outcome = await Promise.race([ended, waited]);
  clearTimeout(timer);
  child.unref();
  return outcome;
}
