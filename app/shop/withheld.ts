/** What a stop makes unsafe: its cards are not printed, and the sheets say so across their heads. */
import type { PlanResult, StageResult } from '../document/schema.ts';
import { sheetOf, type Sheet, type SheetKind } from './parts.ts';
import { isWithheld, reasonsOf, type SheetData } from './sheetData.ts';
import { h, type SheetNode } from './tree.ts';

export const NOT_TO_BE_BUILT = 'NOT TO BE BUILT';

/** Beside the name of a stage that is withheld. */
export const WITHHELD_MARK = '✕ ';

/**
 * A line for every reason, in the words that command, screen and paper share:
 * `from “Lay up core” on, 9 stages: …`.
 */
export function withheldLines(stages: readonly StageResult[]): string[] {
  return reasonsOf(stages).map((reason) => {
    const own = stages.filter((stage) => stage.withheld?.includes(reason));
    const count = own.length === 1 ? '1 stage' : `${own.length} stages`;
    return `from “${own[0]!.name}” on, ${count}: ${reason}`;
  });
}

/** The same, each with its heading, for a terminal. */
export const withheldWords = ({ stages }: PlanResult): string[] =>
  withheldLines(stages).map((line) => `${NOT_TO_BE_BUILT} ${line}`);

/** Across the head of a sheet on which some of the stages are withheld; null where none is. */
export function withheldBox(facts: SheetData, shown: readonly StageResult[]): SheetNode | null {
  const ids = new Set(shown.filter(isWithheld).map((stage) => stage.id));
  if (ids.size === 0) return null;
  const reasons = reasonsOf(facts.result.stages.filter((stage) => ids.has(stage.id)));
  const lines = withheldLines(facts.result.stages).filter((line) =>
    reasons.some((reason) => line.endsWith(reason)),
  );
  return box(`${NOT_TO_BE_BUILT}: what is marked ${WITHHELD_MARK.trim()}`, lines);
}

const box = (title: string, lines: readonly string[]): SheetNode =>
  h(
    'section',
    { class: 'verdict withheld' },
    h('h2', {}, `✕ ${title}`),
    h(
      'ul',
      {},
      lines.map((line) => h('li', {}, line)),
    ),
  );

/** In place of a card: its head, why it is withheld, and nothing to work by. */
export const withheldSheet = (
  kind: SheetKind,
  id: string,
  title: string,
  reasons: readonly string[],
): Sheet =>
  sheetOf(
    {
      kind,
      id,
      title,
      withheld: true,
      subtitle: 'This card is withheld: nobody works by it before the plan is mended.',
    },
    box(NOT_TO_BE_BUILT, reasons),
  );
