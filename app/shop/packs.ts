/** The three packs of paper, and what of them a person picks. */
import { cureCards } from './cureCard.ts';
import { daySheets } from './daySheet.ts';
import type { Paper } from './flow/paper.ts';
import { goSheets } from './goSheet.ts';
import { holdSheet } from './holdSheet.ts';
import { mixCards, type MixSize } from './mixCard.ts';
import { painterSheets } from './painterSheet.ts';
import type { Sheet, SheetKind } from './parts.ts';
import { PACK_WORDS } from './paperWords.ts';
import { bagSheets, plyBookSheets, shoppingSheets } from './plyBook.ts';
import { postCureCards } from './postCureCard.ts';
import type { SheetData } from './sheetData.ts';
import { weekSheets } from './weekSheet.ts';

export const PACKS = ['wall', 'bench', 'painter'] as const;
export type Pack = (typeof PACKS)[number];

/** What is picked; each null or left out: all. */
export interface Picked {
  readonly packs?: readonly Pack[] | null;
  readonly kind?: SheetKind | null;
  /** First and last day, YYYY-MM-DD: sheets that are used in between. */
  readonly days?: readonly [from: string, to: string] | null;
  /** Id of the one whose paper it is. */
  readonly person?: string | null;
  readonly mixes?: MixSize;
  /** Only what says something else than the last print. */
  readonly changedOnly?: boolean;
  /** Left out: that of the document, or of its place. */
  readonly paper?: Paper;
}

/** One kind of sheet: all that screen, command and paper know of it. */
export interface SheetSort {
  /** What the chooser calls all of its kind. */
  readonly name: string;
  readonly pack: Pack;
  readonly build: (facts: SheetData, picked: Picked) => readonly Sheet[];
  /** It says when to do what: a later plan that differs from the printed one must say so. */
  readonly tellsWhen: boolean;
}

export const SHEETS: Readonly<Record<SheetKind, SheetSort>> = {
  week: { name: 'Weeks', pack: 'wall', build: weekSheets, tellsWhen: true },
  holds: {
    name: 'Hold points',
    pack: 'wall',
    build: (facts) => [holdSheet(facts)],
    tellsWhen: false,
  },
  shopping: { name: 'Shopping list', pack: 'wall', build: shoppingSheets, tellsWhen: false },
  plies: { name: 'Ply book', pack: 'bench', build: plyBookSheets, tellsWhen: false },
  bags: { name: 'Bag stacks', pack: 'bench', build: bagSheets, tellsWhen: false },
  day: {
    name: 'Days',
    pack: 'bench',
    build: (facts, { person = null }) => daySheets(facts, person),
    tellsWhen: true,
  },
  go: { name: 'Go or no-go', pack: 'bench', build: goSheets, tellsWhen: false },
  mix: {
    name: 'Mix cards',
    pack: 'bench',
    build: (facts, { mixes }) => mixCards(facts, mixes),
    tellsWhen: false,
  },
  cure: {
    name: 'Cure cards',
    pack: 'bench',
    build: (facts) => [...cureCards(facts), ...postCureCards(facts)],
    tellsWhen: false,
  },
  painter: {
    name: 'Painter’s handover',
    pack: 'painter',
    build: painterSheets,
    tellsWhen: false,
  },
};

/** Kinds of a pack in printing order. */
export const kindsOf = (pack: Pack): SheetKind[] =>
  (Object.keys(SHEETS) as SheetKind[]).filter((kind) => SHEETS[kind].pack === pack);

export const packName = (pack: Pack): string => PACK_WORDS[pack].name;

/** The sheets of one pack that were picked, in printing order. */
export function pickedSheets(facts: SheetData, pack: Pack, picked: Picked): Sheet[] {
  const { packs = null, kind = null } = picked;
  if (packs !== null && !packs.includes(pack)) return [];
  const isTaken = (sheet: Sheet): boolean => packOf(sheet, picked) === pack;
  return (Object.keys(SHEETS) as SheetKind[])
    .filter((one) => SHEETS[one].pack === pack || (pack === 'wall' && one === 'painter'))
    .filter((one) => kind === null || one === kind)
    .flatMap((one) => SHEETS[one].build(facts, picked))
    .filter(isTaken)
    .filter((sheet) => isInDays(sheet, picked) && isOfPerson(sheet, picked));
}

/** A handover that only says why nothing is handed over is for the shop's own wall, not for the painter. */
function packOf({ kind, withheld }: Sheet, { packs = null, kind: asked = null }: Picked): Pack {
  const hangs = asked === null && (packs === null || packs.includes('wall'));
  return kind === 'painter' && withheld && hangs ? 'wall' : SHEETS[kind].pack;
}

/** A sheet of the whole build stays out where days are picked. */
function isInDays({ days }: Sheet, { days: asked = null }: Picked): boolean {
  if (asked === null) return true;
  return days !== null && days[0] <= asked[1] && days[1] >= asked[0];
}

const isOfPerson = ({ people }: Sheet, { person = null }: Picked): boolean =>
  person === null || (people !== null && people.includes(person));

/** True where some of the sheets say when to do what. */
export const tellsWhen = (sheets: readonly Sheet[]): boolean =>
  sheets.some(({ kind }) => SHEETS[kind].tellsWhen);
