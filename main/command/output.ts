/** Writes the files that were asked for: all of them, or none. */
import { rename, rm, stat, writeFile } from 'node:fs/promises';
import type { PlanOutcome } from '../../app/plan/outcome.ts';
import { calendarIcs } from '../../app/shop/calendar.ts';
import { stagesCsv } from '../../app/shop/csv.ts';
import { sheetsHtml } from '../../app/shop/sheets.ts';
import { NoChromium } from '../pdf/chromium.ts';
import { printPdf } from '../pdf/print.ts';
import { OUTPUTS, type CommandArguments, type OutputKind } from './arguments.ts';
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
  try {
    for (const kind of OUTPUTS) {
      const path = outputs[kind];
      if (path === undefined) continue;
      if ((await stat(path).catch(() => null))?.isDirectory()) {
        throw new OutputFailed(`--${kind}: ${path} cannot be written: found a folder`);
      }
      const content = await contentOf(kind, outcome, nowMs);
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
    case 'ics':
      return calendarIcs(outcome);
    case 'csv':
      return stagesCsv(outcome);
    case 'pdf':
      return printPdf(sheetsHtml(outcome), nowMs).catch((error: unknown) => {
        if (error instanceof NoChromium) throw new OutputFailed(`--pdf: ${error.message}`);
        throw error;
      });
  }
}
