/** One document at the end of its ranges: planned, told in every way, and looked through for what is no answer. */
import { plan } from '../../../app/answer/plan.ts';
import { readDocument } from '../../../app/document/read.ts';
import type { Build } from '../../../app/document/schema.ts';
import { FIRST_ANSWER, FULL_ANSWER, type PlanOutcome } from '../../../app/plan/outcome.ts';
import { calendarIcs } from '../../../app/shop/calendar.ts';
import { stagesCsv } from '../../../app/shop/csv.ts';
import { sheetsHtml } from '../../../app/shop/sheets.ts';
import { summaryOf } from '../../../main/command/summary.ts';
import { jsonText } from '../../../main/command/terminal.ts';
import { LIBRARY, NOW } from '../../unit/judge/builds.ts';

export interface Trial {
  /** The reader refused it, for what two of its fields say of each other. */
  readonly refused: boolean;
  readonly readMs: number;
  readonly firstMs: number;
  /** 0 when it was not asked for. */
  readonly fullMs: number;
  readonly tellMs: number;
  readonly faults: readonly string[];
}

/** @param scope how far it is planned */
export function trial(document: Build, scope: 'first' | 'full'): Trial {
  let [readMs, firstMs, fullMs, tellMs] = [0, 0, 0, 0];
  const faults: string[] = [];
  try {
    let read: ReturnType<typeof readDocument> | null = null;
    readMs = timed(() => (read = readDocument(document, LIBRARY)));
    if (read === null || !(read as ReturnType<typeof readDocument>).ok) {
      return { refused: true, readMs, firstMs, fullMs, tellMs, faults };
    }
    let outcome: PlanOutcome | null = null;
    firstMs = timed(() => (outcome = plan(structuredClone(document), LIBRARY, NOW, FIRST_ANSWER)));
    if (scope === 'full') {
      fullMs = timed(() => (outcome = plan(structuredClone(document), LIBRARY, NOW, FULL_ANSWER)));
    }
    if (outcome !== null) tellMs = timed(() => faults.push(...faultsOf(outcome!)));
  } catch (error) {
    faults.push(error instanceof Error ? (error.stack ?? error.message).slice(0, 600) : 'thrown');
  }
  return { refused: false, readMs, firstMs, fullMs, tellMs, faults };
}

/** Milliseconds of the processor: what else runs on the machine does not count. */
function timed(run: () => unknown): number {
  const began = process.threadCpuUsage();
  run();
  const { user, system } = process.threadCpuUsage(began);
  return (user + system) / 1000;
}

/** What no reader of an output should ever meet. */
const NO_ANSWER = /\bNaN\b|\bInfinity\b|\bundefined\b|\[object |\n\s+at .+:\d+:\d+/;

function faultsOf(outcome: PlanOutcome): string[] {
  const told = {
    json: jsonText(outcome.result),
    summary: summaryOf(outcome.result),
    html: sheetsHtml(outcome),
    csv: stagesCsv(outcome),
    ics: calendarIcs(outcome),
  };
  const inText = Object.entries(told).flatMap(([kind, text]) => {
    const found = NO_ANSWER.exec(text);
    return found ? [`${kind}: ${text.slice(Math.max(0, found.index - 60), found.index + 60)}`] : [];
  });
  return [...unfit(outcome.result), ...inText];
}

/** Places of figures that are no finite numbers. */
export function unfit(value: unknown, path = ''): string[] {
  if (typeof value === 'number') return Number.isFinite(value) ? [] : [path];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) => unfit(inner, `${path}.${key}`));
}
