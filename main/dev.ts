/**
 * `npm run dev`: the planner, changed at once when renderer/ or app/ change, in a window of its own where
 * Electron's program file is there already, else in the browser. Vite
 * serves the page and hands every call on to the loopback host, whose guards hold as always.
 */
import { existsSync, realpathSync } from 'node:fs';
import { join } from 'node:path';
import { svelte } from '@sveltejs/vite-plugin-svelte';
import { createServer } from 'vite';
import { dataFolder } from './data-folder.ts';
import { ONCE_PATH } from './host/admission.ts';
import { openInBrowser } from './host/browser.ts';
import { startHost } from './host/start.ts';
import { electronBinary } from './launch/binary.ts';
import { inDevWindow } from './launch/devWindow.ts';
import { readOptions, USAGE } from './options.ts';
import { projectRoot } from './root.ts';

async function run(): Promise<void> {
  const read = readOptions(process.argv.slice(2));
  if (!read.ok) {
    console.error(`${read.fault}\n${USAGE}`);
    process.exitCode = 2;
    return;
  }
  const { browser, now, port, dataDir } = read.options;
  const root = projectRoot();
  const host = await startHost({ dataDir: dataFolder(dataDir), now, pageDir: null });
  const { origin, hash } = new URL(host.url);
  const packages = join(root, 'node_modules');
  const vite = await createServer({
    configFile: false,
    root: join(root, 'renderer'),
    plugins: [svelte({ configFile: false })],
    worker: { format: 'es' },
    server: {
      host: '127.0.0.1',
      ...(port === 0 ? {} : { port, strictPort: true }),
      // The packages may be a link to another folder.
      fs: { allow: [root, ...(existsSync(packages) ? [realpathSync(packages)] : [])] },
      // The host answers to its own address and origin alone.
      proxy: {
        '/api': { target: origin, changeOrigin: true, headers: { origin } },
        [ONCE_PATH]: { target: origin, changeOrigin: true },
      },
    },
  });
  await vite.listen();
  const page = vite.resolvedUrls?.local[0] ?? '';
  const url = `${page}${hash}`;
  console.log(`The planner is at ${url}`);
  console.log('A change in renderer/ or app/ shows at once; one in main/ takes a new start.');
  const stop = (): void => {
    void Promise.allSettled([vite.close(), host.close()]).finally(() => process.exit(0));
  };
  process.once('SIGINT', stop);
  process.once('SIGTERM', stop);
  // Other programs see the arguments of a process: the link that they hold is good once.
  const once = `${page.replace(/\/$/, '')}${host.linkPath()}`;
  const binary = browser ? null : electronBinary(root);
  if (binary !== null && (await inDevWindow(binary, root, once))) return stop();
  openInBrowser(once);
}

await run();
