/** The paper of a plan: packs laid out on sides, and all of them as one printable document. */
import { DEFERRAL } from '../messages/safety.ts';
import type { PlanOutcome } from '../plan/outcome.ts';
import { paperOf, type Paper } from './flow/paper.ts';
import { sidesOf, type Side } from './flow/sides.ts';
import { planStamp, sheetOf, type Sheet } from './parts.ts';
import { PACKS, pickedSheets, type Pack, type Picked } from './packs.ts';
import { NOTHING_CHANGED, NOTHING_PICKED, PACK_WORDS, sideWords } from './paperWords.ts';
import { changedSheets } from './changedSheets.ts';
import { formatsOf, wordedAs } from '../units/formats.ts';
import { sheetDataOf, type SheetData } from './sheetData.ts';
import { sideHead } from './sideHead.ts';
import { pageStyle, sheetStyle } from './style.ts';
import { escapeHtml, h, toHtml, type SheetNode } from './tree.ts';
import { verdict } from './verdict.ts';
import { dayClock } from './words.ts';

export interface PaperPack {
  readonly pack: Pack;
  readonly sheets: readonly Sheet[];
  readonly sides: readonly Side[];
}

export interface Paperwork {
  readonly title: string;
  readonly buildName: string;
  readonly paper: Paper;
  /** `Plan of …` */
  readonly stamp: string;
  /** In printing order; packs without a sheet are left out. */
  readonly packs: readonly PaperPack[];
  /** Only what has changed was asked for. */
  readonly changedOnly: boolean;
  /** Number of sides that come out of the printer. */
  readonly sides: number;
}

/** All that was picked, laid out; one sheet that says why when nothing could be placed. */
export const paperwork = (outcome: PlanOutcome, picked: Picked = {}): Paperwork =>
  wordedAs(formatsOf(outcome.detail.build), () => laidOut(outcome, picked));

function laidOut(outcome: PlanOutcome, picked: Picked): Paperwork {
  const facts = sheetDataOf(outcome);
  const withWays = WITH_WAYS.map((told) => ({ ...facts, waysTold: told }));
  const { name, zone } = outcome.result.build;
  const { printed, paper: own } = facts.build;
  const paper = picked.paper ?? own ?? paperOf(zone);
  const nothing = facts.placed.length === 0;
  const changedOnly = (sheets: Sheet[]): Sheet[] =>
    picked.changedOnly && printed
      ? changedSheets(sheets, printed.sheets, dayClock(printed.at))
      : sheets;
  const packs = (nothing ? (['wall'] as const) : PACKS).flatMap((pack): PaperPack[] => {
    const packOf = (told: SheetData): PaperPack => {
      const sheets = nothing
        ? [sheetOf({ kind: 'week', id: 'week-none', title: 'No plan to print' }, verdict(told))]
        : changedOnly(pickedSheets(told, pack, picked));
      return { pack, sheets, sides: sidesOf(sheets, paper) };
    };
    const plain = packOf(facts);
    if (pack === 'wall') return fullestOf(plain, withWays, packOf);
    return plain.sheets.length === 0 ? [] : [plain];
  });
  return {
    title: `${name}: shop sheets`,
    buildName: name,
    paper,
    stamp: planStamp(facts),
    changedOnly: picked.changedOnly === true,
    packs,
    sides: packs.reduce((sum, { sides }) => sum + sides.length, 0),
  };
}

/** Ways out are told on the wall as far as they take no side more: of all findings, or of stops alone. */
const WITH_WAYS = ['all', 'stops'] as const;

function fullestOf(
  plain: PaperPack,
  withWays: readonly SheetData[],
  packOf: (told: SheetData) => PaperPack,
): PaperPack[] {
  for (const told of withWays.filter(hasWays)) {
    const pack = packOf(told);
    if (pack.sheets.length > 0 && pack.sides.length <= plain.sides.length) return [pack];
  }
  return plain.sheets.length === 0 ? [] : [plain];
}

const hasWays = ({ result, stops, waysTold }: SheetData): boolean =>
  (waysTold === 'stops' ? stops : result.findings).some(({ levers }) => levers.length > 0);

/** Every side as it is printed, in order. */
export function sideNodes(work: Paperwork): SheetNode[] {
  if (work.packs.length === 0) {
    return [
      h(
        'div',
        { class: 'side upright' },
        h('p', {}, work.changedOnly ? NOTHING_CHANGED : NOTHING_PICKED),
      ),
    ];
  }
  return work.packs.flatMap(({ pack, sides }) =>
    sides.map((side, i) =>
      h(
        'div',
        { class: `side ${side.landscape ? 'level' : 'upright'}` },
        sideHead(work, side, sideWords(PACK_WORDS[pack].short, i + 1, sides.length)),
        side.pieces,
        h('div', { class: 'side-foot' }, DEFERRAL),
      ),
    ),
  );
}

/** The style of the whole paper. */
export const paperStyle = ({ paper }: Paperwork): string => pageStyle(paper) + sheetStyle();

/**
 * The sides as one self-contained HTML document in light colours, for the printer and for PDF. Holds
 * no script and loads nothing.
 */
export function sheetsHtml(outcome: PlanOutcome, picked: Picked = {}): string {
  const work = paperwork(outcome, picked);
  return [
    '<!doctype html>',
    '<html lang="en">',
    '<head>',
    '<meta charset="utf-8">',
    '<meta name="viewport" content="width=device-width, initial-scale=1">',
    `<title>${escapeHtml(work.title)}</title>`,
    `<style>\nbody { margin: 0; }\n${paperStyle(work)}</style>`,
    '</head>',
    '<body>',
    toHtml(h('div', { class: 'shop-sheets' }, sideNodes(work))),
    '</body>',
    '</html>',
    '',
  ].join('\n');
}
