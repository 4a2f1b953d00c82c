/** One card for the mixes of a cure: what the scale reads, when each is due, where it goes, who saw it. */
import type { MixResult } from '../document/schema.ts';
import { mixedC } from '../cure/pot.ts';
import { sealedWords } from '../messages/sealed.ts';
import { plural } from '../units/words.ts';
import { cautionsFor } from '../messages/safety.ts';
import { circumstancesOf } from './hazards.ts';
import type { CureSheetData, SheetData } from './sheetData.ts';
import { abortLine } from './bagTrouble.ts';
import { notReleasedBox } from './notReleased.ts';
import { cardTotals, mixDestination, scaleReadings, type CardTotals } from './mixes.ts';
import { blank, blanks, columns, sheetOf, table, type Sheet } from './parts.ts';
import { h, type SheetNode } from './tree.ts';
import { asOnCard } from './paperWords.ts';
import { withheldSheet } from './withheld.ts';
import { clock, dayClockOr, fixed } from './words.ts';
import { length } from '../time/words.ts';

/** A line for each mix on one card, or four small cards to a side, to hang one at every cup. */
export type MixSize = 'lines' | 'small';

export const mixCards = (facts: SheetData, size: MixSize = 'lines'): Sheet[] =>
  facts.cures.flatMap((cure) => {
    if (cure.mixes.length === 0) return [];
    const title = `Mixes: ${cure.name}`;
    if (cure.withheld.length > 0) {
      return [withheldSheet('mix', `mix-${cure.id}`, title, cure.withheld)];
    }
    return [size === 'lines' ? mixCard(facts, cure, title) : smallCards(facts, cure, title)];
  });

/** Resin for the hand is mixed in cups, for an infusion in buckets. */
const cupWord = ({ row }: CureSheetData): string => (row?.infused ? 'bucket' : 'cup');

const aboutOf = (cure: CureSheetData, title: string) => {
  const day = cure.mixes[0]?.mixAt?.slice(0, 10);
  const count = cure.mixes.length;
  return {
    kind: 'mix',
    id: `mix-${cure.id}`,
    title,
    short: title,
    subtitle: `First mix ${dayClockOr(cure.mixes[0]?.mixAt ?? null, 'not placed')}, ${count === 1 ? `one ${cupWord(cure)}` : plural(count, cupWord(cure))}.`,
    ...(day !== undefined && { days: [day, day] as const }),
  } as const;
};

function ratioWords(facts: SheetData, { hardener }: CureSheetData): string {
  if (!facts.resin || !hardener) return '';
  return `${fixed(hardener.partsPer100ByMass, 1)} g of ${hardener.name} to 100 g of ${facts.resin.name}.`;
}

const LINE_HEAD = [
  'Mix',
  'Mix at',
  'Use by',
  'Resin, goes on',
  'Scale reads after hardener',
  'Between',
  'Done',
];
const LINE_WIDTHS = [6, 13, 13, 19, 28, 11, 10];

function mixCard(facts: SheetData, cure: CureSheetData, title: string): Sheet {
  return sheetOf(
    aboutOf(cure, title),
    notReleasedBox(facts, cure),
    table('scales', '', LINE_HEAD, lineRows(facts, cure), LINE_WIDTHS),
    howTo(facts, cure),
    blanks(
      blank('Resin lot'),
      blank('Hardener lot'),
      blank('Cup temperature', '°C'),
      blank('Mixed by'),
      blank('Seen by'),
    ),
    abortLine(cure),
    cautionLine(facts, cure),
  );
}

/** Cautions of mixing and laying, on the mix card of every cure. */
export const mixCautions = (facts: SheetData, { id }: CureSheetData): readonly string[] =>
  cautionsFor('layup', facts.hazards, circumstancesOf(facts.outcome, id));

/** The first mix card that is handed out says them, the others what is new and where the rest stands. */
function cautionLine(facts: SheetData, cure: CureSheetData): SheetNode {
  const lines = mixCautions(facts, cure);
  const first = firstMixed(facts);
  if (first === undefined || first === cure)
    return h('p', { class: 'caution-line' }, lines.join(' '));
  const said = new Set(mixCautions(facts, first));
  const fresh = lines.filter((line) => !said.has(line));
  return h('p', { class: 'caution-line' }, [asOnCard(first.name), ...fresh].join(' '));
}

/** The cure whose mix card carries the cautions of mixing: the first of those that may be built. */
export const firstMixed = ({ cures }: SheetData): CureSheetData | undefined =>
  cures.find(({ mixes, withheld }) => mixes.length > 0 && withheld.length === 0);

function lineRows(facts: SheetData, cure: CureSheetData): SheetNode[] {
  const tolerance = facts.practice('mix-tolerance-share');
  const rows = cure.mixes.map((mix, i) => {
    const read = scaleReadings(mix, tolerance);
    const grams = (value: number) => fixed(value, read.decimals);
    return h(
      'tr',
      { id: mixId(cure, mix) },
      h('th', { scope: 'row' }, String(i + 1)),
      h('td', {}, h('span', { class: 'weigh' }, mix.mixAt === null ? '–' : clock(mix.mixAt))),
      h('td', {}, h('span', { class: 'weigh' }, mix.useBy === null ? '–' : clock(mix.useBy))),
      h(
        'td',
        {},
        h('span', { class: 'weigh' }, `${grams(read.resinG)} g`),
        h('small', {}, mixDestination(cure.layups, cure.mixes, i)),
      ),
      h('td', {}, h('span', { class: 'reading' }, grams(read.cumulativeG))),
      h('td', {}, h('small', {}, `${grams(read.lowestG)} and ${grams(read.highestG)}\u00a0g`)),
      h('td', { class: 'write' }),
    );
  });
  return rows.length < 2 ? rows : [...rows, togetherRow(cardTotals(cure.mixes, tolerance))];
}

const mixId = ({ id }: CureSheetData, { batch }: MixResult): string => `mix-${id}-${batch}`;

const togetherRow = ({ decimals, resinG, cumulativeG }: CardTotals): SheetNode =>
  h(
    'tr',
    { class: 'together brief' },
    h('th', { scope: 'row', colspan: 3 }, 'Together'),
    h('td', {}, `${fixed(resinG, decimals)} g`),
    h('td', { colspan: 3 }, `${fixed(cumulativeG, decimals)} g`),
  );

function howTo(facts: SheetData, cure: CureSheetData): SheetNode {
  const { mixes, row } = cure;
  const cup = cupWord(cure);
  const notes = [ratioWords(facts, cure)].filter((words) => words !== '');
  const lives = mixes.flatMap(({ potLifeMin }) => potLifeMin ?? []);
  if (lives.length > 0) {
    const share = facts.practice('spread-share-of-pot-life');
    const mixed = fixed(mixedC(facts.detail.build.room.temperatureC.day, facts.practice), 0);
    const shortest = Math.min(...lives);
    notes.push(
      `Pot life ${length(shortest)} from first contact, mixed at ${mixed} °C: ${row?.infused ? 'drawn in' : 'spread'} within ${length(shortest * share)}.`,
    );
  }
  if (row?.bagBy && mixes.some(({ useBy }) => useBy === row.bagBy)) {
    notes.push(
      `No ${cup} is used after ${clock(row.bagBy)}, when ${sealedWords(row.infused).must}.`,
    );
  }
  const peaks = mixes.flatMap(({ peakC }) => peakC ?? []);
  if (peaks.length > 0) {
    notes.push(`A ${cup} left standing reaches ${fixed(Math.max(...peaks), 0)} °C.`);
  }
  notes.push(`Stir 2 to 3 min, scrape sides and bottom, change ${cup}, stir again.`);
  if (row?.infused) notes.push('Bucket in water; the feed never draws air: a little stays in it.');
  return h('p', { class: 'how-to' }, notes.join(' '));
}

/** Small cards two by two; only the last carries what to do when the bag is late. */
function smallCards(facts: SheetData, cure: CureSheetData, title: string): Sheet {
  const cards = cure.mixes.map((mix, i) => smallCard(facts, cure, mix, i));
  const pairs = cards.flatMap((_, i) => (i % 2 === 0 ? [cards.slice(i, i + 2)] : []));
  return sheetOf(
    aboutOf(cure, title),
    notReleasedBox(facts, cure),
    h('p', { class: 'how-to' }, ratioWords(facts, cure)),
    pairs.map((pair) => h('div', { class: 'two' }, pair)),
    abortLine(cure),
    cautionLine(facts, cure),
  );
}

function smallCard(
  facts: SheetData,
  cure: CureSheetData,
  mix: MixResult,
  index: number,
): SheetNode {
  const read = scaleReadings(mix, facts.practice('mix-tolerance-share'));
  const grams = (value: number) => fixed(value, read.decimals);
  const count = cure.mixes.length;
  const line = (label: string, value: string, className: string): SheetNode =>
    h(
      'tr',
      {},
      h('th', { scope: 'row' }, label),
      h('td', {}, h('span', { class: className }, value)),
    );
  return h(
    'section',
    { class: 'cup', id: mixId(cure, mix) },
    h(
      'h2',
      {},
      `Mix ${index + 1} of ${count}${index === count - 1 ? ', the last' : ''}: ${cure.name}`,
    ),
    h(
      'table',
      { class: 'scales' },
      columns([38, 62]),
      h(
        'tbody',
        {},
        line(
          'Mix \u2192 use',
          [mix.mixAt, mix.useBy].map((at) => (at === null ? '–' : clock(at))).join(' \u2192 '),
          'weigh',
        ),
        line('Resin', `${grams(read.resinG)} g`, 'weigh'),
        line('Then to', grams(read.cumulativeG), 'reading'),
      ),
    ),
    h(
      'p',
      {},
      `g with hardener, ${grams(read.lowestG)} to ${grams(read.highestG)}. On: ${mixDestination(cure.layups, cure.mixes, index)}`,
    ),
    blanks(blank('Mixed by'), blank('Seen by'), blank('Empty at')),
  );
}
