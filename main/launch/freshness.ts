/** Whether out/ was built from the sources as they are now: a look at times, not at contents. */
import { readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';

const SOURCES = [
  'app',
  'main',
  'renderer',
  'electron.config.ts',
  'package.json',
  'package-lock.json',
];
const BUILT = [
  'out/main/index.js',
  'out/main/host.js',
  'out/preload/index.cjs',
  'out/renderer/index.html',
];

export type Freshness = 'fresh' | 'missing' | 'stale';

/** Folders count as well: their time changes when a file in them goes. */
export function freshness(root: string): Freshness {
  const built = BUILT.map((path) => timeOf(join(root, path)));
  if (built.some((time) => time === null)) return 'missing';
  const oldest = Math.min(...built.map(Number));
  const newest = Math.max(...SOURCES.map((path) => newestIn(join(root, path))));
  return newest > oldest ? 'stale' : 'fresh';
}

function timeOf(path: string): number | null {
  return statSync(path, { throwIfNoEntry: false })?.mtimeMs ?? null;
}

function newestIn(path: string): number {
  const stat = statSync(path, { throwIfNoEntry: false });
  if (!stat) return 0;
  if (!stat.isDirectory()) return stat.mtimeMs;
  return Math.max(stat.mtimeMs, ...readdirSync(path).map((name) => newestIn(join(path, name))));
}
