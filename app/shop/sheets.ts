/** The paper of a plan: every sheet as a tree, and all of them as one printable document. */
import type { PlanOutcome } from '../plan/outcome.ts';
import { cureCards } from './cureCard.ts';
import { daySheets } from './daySheet.ts';
import { sheetDataOf } from './sheetData.ts';
import { goSheets } from './goSheet.ts';
import { holdSheet } from './holdSheet.ts';
import { mixCards } from './mixCard.ts';
import { painterSheets } from './painterSheet.ts';
import { planStamp, sheetOf, type Sheet, type SheetKind } from './parts.ts';
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
  /** In printing order: weeks, shopping, hold points, ply book, bags, then day by day with the cards of its cures after. */
  readonly sheets: readonly Sheet[];
}

/**
 * All sheets of a plan, or those of one kind; one that says why when nothing could be placed.
 */
export function buildSheets(outcome: PlanOutcome, only: SheetKind | null = null): Sheets {
  const facts = sheetDataOf(outcome);
  const { name, zone } = outcome.result.build;
  const all =
    facts.placed.length === 0
      ? [sheetOf(facts, 'week', 'week-none', 'No plan to print', '', verdict(facts))]
      : [
          ...weekSheets(facts),
          ...shoppingSheets(facts),
          holdSheet(facts),
          ...plyBookSheets(facts),
          ...bagSheets(facts),
          ...daySheets(facts),
          ...goSheets(facts),
          ...mixCards(facts),
          ...cureCards(facts),
          ...painterSheets(facts),
        ];
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
