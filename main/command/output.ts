/** Writes the files that were asked for: all of them, or none. */
import { rmSync } from 'node:fs';
import { readdir, rename, rm, stat, writeFile } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import type { PlanOutcome } from '../../app/plan/outcome.ts';
import { FILES } from '../../app/shop/files.ts';
import { sheetsHtml } from '../../app/shop/sheets.ts';
import { NoChromium } from '../pdf/chromium.ts';
import { printPdf } from '../pdf/print.ts';
import { OUTPUTS, type CommandArguments, type OutputKind } from './arguments.ts';
import { isProcess } from '../processes.ts';
import { reason } from './input.ts';

/** An output that could not be made; the message is one plain line. */
export class OutputFailed extends Error {}

/**
 * Makes every output first, writes each beside its place, and moves them there when all are written.
 * @throws OutputFailed, having left nothing behind
 */
export async function writeOutputs(
  outcome: PlanOutcome,
  outputs: CommandArguments['outputs'],
  nowMs: number,
): Promise<void> {
  const drafts: { readonly path: string; readonly draft: string }[] = [];
  const stopHearing = removeWhenEnded(() => drafts.map(({ draft }) => draft));
  try {
    for (const kind of OUTPUTS) {
      const path = outputs[kind];
      if (path === undefined) continue;
      if ((await stat(path).catch(() => null))?.isDirectory()) {
        throw new OutputFailed(`--${kind}: ${path} cannot be written: found a folder`);
      }
      const content = await contentOf(kind, outcome, nowMs);
      await removeRests(path);
      const draft = `${path}.${process.pid}.part`;
      drafts.push({ path, draft });
      await writeFile(draft, content).catch((error: unknown) => {
        throw new OutputFailed(`--${kind}: ${path} cannot be written: found ${reason(error)}`);
      });
    }
    for (const { path, draft } of drafts) {
      await rename(draft, path).catch((error: unknown) => {
        throw new OutputFailed(`${path} cannot be written: found ${reason(error)}`);
      });
    }
  } catch (error) {
    await Promise.all(drafts.map(({ draft }) => rm(draft, { force: true })));
    throw error;
  } finally {
    stopHearing();
  }
}

const ENDINGS = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;

/** A command that is told to end leaves nothing half made. @returns what ends the listening */
function removeWhenEnded(drafts: () => readonly string[]): () => void {
  const end = (signal: NodeJS.Signals): void => {
    for (const draft of drafts()) rmSync(draft, { force: true });
    for (const ending of ENDINGS) process.removeListener(ending, end);
    process.kill(process.pid, signal);
  };
  for (const ending of ENDINGS) process.on(ending, end);
  return () => {
    for (const ending of ENDINGS) process.removeListener(ending, end);
  };
}

/** What a killed command left half written: the process that its name says does not run. */
async function removeRests(path: string): Promise<void> {
  const start = `${basename(path)}.`;
  const names = await readdir(dirname(path)).catch(() => []);
  for (const name of names) {
    const pid = /^(\d+)\.part$/.exec(name.startsWith(start) ? name.slice(start.length) : '')?.[1];
    if (pid !== undefined && !isProcess(Number(pid))) {
      await rm(join(dirname(path), name), { force: true });
    }
  }
}

async function contentOf(
  kind: OutputKind,
  outcome: PlanOutcome,
  nowMs: number,
): Promise<string | Buffer> {
  switch (kind) {
    case 'html':
      return sheetsHtml(outcome);
    case 'pdf':
      return printPdf(sheetsHtml(outcome), nowMs).catch((error: unknown) => {
        if (error instanceof NoChromium) throw new OutputFailed(`--pdf: ${error.message}`);
        throw error;
      });
    default:
      return FILES[kind].text(outcome, {});
  }
}
