/**
 * Runs a command: in this process, which is quick, or as a person would, in a process of its own with
 * its own folder, zone and environment.
 */
import { execFile } from 'node:child_process';
import { existsSync } from 'node:fs';
import { mkdtemp, readdir, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { planCommand } from '../../../main/command/planCommand.ts';
import { whyCommand } from '../../../main/command/whyCommand.ts';
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

const COMMANDS = { plan: planCommand, why: whyCommand };
type CommandName = keyof typeof COMMANDS;

export const runPlan = (args: readonly string[]): Promise<Ran> => runCommand('plan', args);

/** Runs a command in this process; paths are to be absolute. */
export async function runCommand(name: CommandName, args: readonly string[]): Promise<Ran> {
  const written = { stdout: '', stderr: '' };
  const status = await COMMANDS[name](args, {
    out: (text) => void (written.stdout += text),
    err: (text) => void (written.stderr += text),
  });
  return { status, ...written };
}

/** Starts a command of main/command; never rejects for an exit status. */
export function startCommand(
  name: CommandName,
  args: readonly string[],
  options: RunOptions = {},
): Promise<Ran> {
  const env = { ...process.env, TZ: options.zone ?? 'UTC', ...options.env };
  return new Promise((done) => {
    execFile(
      NODE,
      [join(ROOT, `main/command/${name}.ts`), ...args],
      { env, cwd: options.cwd ?? ROOT, maxBuffer: 64 * 1024 * 1024, timeout: 120_000 },
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
