/** The paper of a plan: every sheet as a tree, and all of them as one printable document. */
import type { PlanOutcome } from '../plan/outcome.ts';
import { cureCards } from './cureCard.ts';
import { daySheets } from './daySheet.ts';
import { sheetDataOf, type SheetData } from './sheetData.ts';
import { goSheets } from './goSheet.ts';
import { holdSheet } from './holdSheet.ts';
import { mixCards } from './mixCard.ts';
import { painterSheets } from './painterSheet.ts';
import { postCureCards } from './postCureCard.ts';
import { planStamp, SHEET_KINDS, sheetOf, type Sheet, type SheetKind } from './parts.ts';
import { bagSheets, plyBookSheets, shoppingSheets } from './plyBook.ts';
import { pageStyle, sheetStyle } from './style.ts';
import { escapeHtml, h, toHtml } from './tree.ts';
import { verdict, weekSheets } from './weekSheet.ts';

export interface Sheets {
  readonly title: string;
  readonly buildName: string;
  readonly zone: string;
  /** `Printed from the plan of …` */
  readonly stamp: string;
  /** In printing order. */
  readonly sheets: readonly Sheet[];
}

/** One kind of sheet: all that screen, command and paper know of it. */
export interface SheetSort {
  /** What the chooser calls all of its kind. */
  readonly name: string;
  readonly build: (facts: SheetData) => readonly Sheet[];
  /** It says when to do what: a later plan that differs from the printed one must say so. */
  readonly tellsWhen: boolean;
}

export const SHEETS: Readonly<Record<SheetKind, SheetSort>> = {
  week: { name: 'Weeks', build: weekSheets, tellsWhen: true },
  shopping: { name: 'Shopping list', build: shoppingSheets, tellsWhen: false },
  holds: { name: 'Hold points', build: (facts) => [holdSheet(facts)], tellsWhen: false },
  plies: { name: 'Ply book', build: plyBookSheets, tellsWhen: false },
  bags: { name: 'Bag stacks', build: bagSheets, tellsWhen: false },
  day: { name: 'Days', build: daySheets, tellsWhen: true },
  go: { name: 'Go or no-go', build: goSheets, tellsWhen: false },
  mix: { name: 'Mix cards', build: mixCards, tellsWhen: false },
  cure: {
    name: 'Cure cards',
    build: (facts) => [...cureCards(facts), ...postCureCards(facts)],
    tellsWhen: false,
  },
  painter: { name: 'Painter’s handover', build: painterSheets, tellsWhen: false },
};

/**
 * All sheets of a plan, or those of one kind; one that says why when nothing could be placed.
 */
export function buildSheets(outcome: PlanOutcome, only: SheetKind | null = null): Sheets {
  const facts = sheetDataOf(outcome);
  const { name, zone } = outcome.result.build;
  const all =
    facts.placed.length === 0
      ? [sheetOf(facts, 'week', 'week-none', 'No plan to print', '', verdict(facts))]
      : SHEET_KINDS.flatMap((kind) => SHEETS[kind].build(facts));
  const some = only === null ? all : all.filter((sheet) => sheet.kind === only);
  const sheets = some.length > 0 ? some : all.slice(0, 1);
  return { title: `${name}: shop sheets`, buildName: name, zone, stamp: planStamp(facts), sheets };
}

/**
 * The sheets as one self-contained HTML document in light colours, for the browser's print dialog
 * and for PDF. Holds no script and loads nothing.
 */
export function sheetsHtml(outcome: PlanOutcome, only: SheetKind | null = null): string {
  const sheets = buildSheets(outcome, only);
  return [
    '<!doctype html>',
    '<html lang="en">',
    '<head>',
    '<meta charset="utf-8">',
    '<meta name="viewport" content="width=device-width, initial-scale=1">',
    `<title>${escapeHtml(sheets.title)}</title>`,
    `<style>\n${pageStyle(sheets.buildName, sheets.stamp)}${sheetStyle()}</style>`,
    '</head>',
    '<body>',
    toHtml(
      h(
        'div',
        { class: 'shop-sheets' },
        sheets.sheets.map((sheet) => sheet.body),
      ),
    ),
    '</body>',
    '</html>',
    '',
  ].join('\n');
}
