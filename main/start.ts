/**
 * `npm start`: a window of its own where Electron is there, the browser where it is not.
 * Node's own modules only, so that its first line comes at once; the planner itself is the bundle.
 */
import { spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { electronBinary } from './launch/binary.ts';
import { fetchElectron, STALL_MS, type Fetched } from './launch/fetch.ts';
import { freshness } from './launch/freshness.ts';
import { progressLine } from './launch/progress.ts';
import { readOptions, USAGE } from './options.ts';
import { projectRoot } from './root.ts';

/** An Electron that fails this soon has not shown a window: no screen, or libraries missing. */
const EARLY_MS = 10_000;

const root = projectRoot();
const args = process.argv.slice(2);

/** Builds out/ where it is missing or older than the sources; false when that fails. */
async function build(): Promise<boolean> {
  const state = freshness(root);
  if (state === 'fresh') return true;
  const tool = join(root, 'node_modules', 'electron-vite', 'bin', 'electron-vite.js');
  if (!existsSync(tool)) {
    console.error('The packages are not installed: run npm ci first.');
    return false;
  }
  console.log(
    state === 'missing'
      ? 'Building once, about 20 s.'
      : 'The sources have changed: building again, about 20 s.',
  );
  const child = spawn(process.execPath, [tool, 'build', '-c', 'electron.config.ts'], {
    cwd: root,
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  let output = '';
  const keep = (chunk: Buffer): void => void (output += chunk.toString());
  child.stdout.on('data', keep);
  child.stderr.on('data', keep);
  const code = await new Promise<number | null>((resolve) => {
    child.on('error', () => resolve(null));
    child.on('close', resolve);
  });
  if (code === 0) return true;
  console.error(`${output}\nThe planner could not be built.`);
  return false;
}

/** Runs Electron to its end; false when it never came to show a window. */
async function inWindow(binary: string): Promise<boolean> {
  const began = Date.now();
  const child = spawn(binary, [root, ...args], { stdio: 'inherit' });
  const code = await new Promise<number | null>((resolve) => {
    child.on('error', () => resolve(null));
    child.on('close', resolve);
  });
  if (code !== 0 && Date.now() - began < EARLY_MS) return false;
  process.exitCode = code ?? 1;
  return true;
}

const FALLBACK_MESSAGES: Readonly<Record<Exclude<Fetched, 'fetched'>, string>> = {
  refused:
    "Electron's program file is not available here, so the planner is served to the browser.",
  stalled:
    `No byte of Electron's program file came for ${STALL_MS / 1000} seconds, so the planner is served ` +
    'to the browser; the next start asks again.',
};

/** Electron's program file, fetched once; null, and a sentence saying why, where it does not come. */
async function findElectron(): Promise<string | null> {
  const there = electronBinary(root);
  if (there !== null) return there;
  const line = progressLine("Fetching Electron's program file, once", process.stdout);
  const fetched = await fetchElectron({ root, onProgress: line.show });
  line.end();
  if (fetched === 'fetched') return electronBinary(root);
  console.log(FALLBACK_MESSAGES[fetched]);
  return null;
}

async function inBrowser(): Promise<void> {
  // The bundle reads the same arguments.
  await import(pathToFileURL(join(root, 'out', 'main', 'host.js')).href);
}

async function run(): Promise<void> {
  const read = readOptions(args);
  if (!read.ok) {
    console.error(`${read.fault}\n${USAGE}`);
    process.exitCode = 2;
    return;
  }
  const binary = read.options.browser ? null : await findElectron();
  if (!(await build())) {
    process.exitCode = 1;
    return;
  }
  if (binary !== null) {
    if (await inWindow(binary)) return;
    console.log('Electron could not open a window here, so the planner is served to the browser.');
  }
  await inBrowser();
}

await run();
