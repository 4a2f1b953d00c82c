/** Runs the headless command as a person would: a process of its own, in an empty folder. */
import { execFile } from 'node:child_process';
import { existsSync } from 'node:fs';
import { mkdtemp, readdir, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { projectRoot } from '../../../main/root.ts';

const ROOT = projectRoot();
const PACKED_NODE = join(ROOT, 'node_modules/.bin/node');
export const NODE = existsSync(PACKED_NODE) ? PACKED_NODE : process.execPath;
export const NOW = '2027-04-12T06:00Z';
export const sample = (name: string): string => join(ROOT, 'samples', `${name}.build.json`);

export interface Ran {
  readonly status: number;
  readonly stdout: string;
  readonly stderr: string;
}

interface RunOptions {
  readonly cwd?: string;
  readonly zone?: string;
  readonly env?: Readonly<Record<string, string>>;
}

export const runPlan = (args: readonly string[], options: RunOptions = {}): Promise<Ran> =>
  runCommand('plan', args, options);

/** Starts a command of main/command; never rejects for an exit status. */
export function runCommand(
  name: 'plan' | 'why',
  args: readonly string[],
  options: RunOptions = {},
): Promise<Ran> {
  const env = { ...process.env, TZ: options.zone ?? 'UTC', ...options.env };
  return new Promise((done) => {
    execFile(
      NODE,
      [join(ROOT, `main/command/${name}.ts`), ...args],
      { env, cwd: options.cwd ?? ROOT, maxBuffer: 64 * 1024 * 1024, timeout: 60_000 },
      (error, stdout, stderr) => {
        const status = error ? (typeof error.code === 'number' ? error.code : -1) : 0;
        done({ status, stdout, stderr });
      },
    );
  });
}

/** An empty folder for the time of `use`; answers with what `use` does and the files left in it. */
export async function inFolder<T>(
  use: (folder: string) => Promise<T>,
): Promise<{ value: T; files: string[] }> {
  const folder = await mkdtemp(join(tmpdir(), 'backcure-command-'));
  try {
    const value = await use(folder);
    return { value, files: (await readdir(folder)).sort() };
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}
