/** Bundles the window of `npm run dev` into a folder of its own and runs Electron on it. */
import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build } from 'vite';

const NAME = 'window.mjs';

/** One file that Electron can run; `electron` itself is not bundled. */
export async function bundleDevWindow(root: string, folder: string): Promise<string> {
  await build({
    configFile: false,
    logLevel: 'warn',
    root,
    build: {
      ssr: join(root, 'main', 'electron', 'devWindow.ts'),
      outDir: folder,
      emptyOutDir: false,
      rolldownOptions: { external: ['electron'], output: { entryFileNames: NAME } },
    },
  });
  return join(folder, NAME);
}

/**
 * Shows the dev server in a window until that is closed.
 * @returns false when Electron could not show one
 */
export async function inDevWindow(binary: string, root: string, url: string): Promise<boolean> {
  const folder = mkdtempSync(join(tmpdir(), 'backcure-dev-'));
  try {
    const file = await bundleDevWindow(root, folder);
    const child = spawn(binary, [file, url, join(folder, 'window')], { stdio: 'inherit' });
    return await new Promise<boolean>((resolve) => {
      child.on('error', () => resolve(false));
      child.on('close', (code) => resolve(code === 0));
    });
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
