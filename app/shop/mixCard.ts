/** A card for every batch: what the scale reads, when it is due, where it goes, who saw it. */
import type { MixResult } from '../document/schema.ts';
import { mixedC } from '../cure/pot.ts';
import { cautionsFor, DEFERRAL } from '../messages/safety.ts';
import { circumstancesOf } from './hazards.ts';
import type { CureSheetData, SheetData } from './sheetData.ts';
import { abortLine } from './bagTrouble.ts';
import { notReleasedBox } from './notReleased.ts';
import { cardTotals, scaleReadings, mixDestination, type CardTotals } from './mixes.ts';
import { blank, blanks, moment, moments, sheetOf, type Sheet } from './parts.ts';
import { h, type SheetNode } from './tree.ts';
import { withheldSheet } from './withheld.ts';
import { clock, dayClock, fixed } from './words.ts';
import { length } from '../time/words.ts';

export const mixCards = (facts: SheetData): Sheet[] =>
  facts.cures.flatMap((cure) =>
    cure.withheld.length > 0
      ? withheldMixes(facts, cure)
      : cure.mixes.map((mix, i) => mixCard(facts, cure, mix, i)),
  );

/** One card says it for all batches of the cure. */
function withheldMixes(facts: SheetData, { id, name, mixes, withheld }: CureSheetData): Sheet[] {
  const [first] = mixes;
  if (!first) return [];
  const title = mixes.length === 1 ? `Mix: ${name}` : `All ${mixes.length} mixes: ${name}`;
  return [withheldSheet(facts, 'mix', `mix-${id}-${first.batch}`, title, withheld)];
}

function mixCard(facts: SheetData, cure: CureSheetData, mix: MixResult, index: number): Sheet {
  const count = cure.mixes.length;
  const isLast = index === count - 1;
  return sheetOf(
    facts,
    'mix',
    `mix-${cure.id}-${mix.batch}`,
    `Mix ${index + 1} of ${count}${isLast ? ', the last' : ''}: ${cure.name}`,
    `Goes on: ${mixDestination(cure.layups, cure.mixes, index)}`,
    notReleasedBox(facts, cure),
    h('div', { class: 'mix-main' }, scale(facts, cure, mix), clockOf(facts, cure, mix)),
    blanks(
      blank('Resin, real', 'g'),
      blank('Scale after hardener, real', 'g'),
      blank('Resin lot'),
      blank('Hardener lot'),
    ),
    blanks(
      blank('First contact at'),
      blank('Cup temperature', '°C'),
      blank('Cup empty at'),
      blank('Mixed by'),
      blank('Seen by'),
    ),
    cautionLine(facts, cure),
    isLast && abortLine(cure),
  );
}

function scale(facts: SheetData, cure: CureSheetData, mix: MixResult): SheetNode {
  const tolerance = facts.practice('mix-tolerance-share');
  const read = scaleReadings(mix, tolerance);
  const grams = (value: number) => fixed(value, read.decimals);
  return h(
    'dl',
    { class: 'scale' },
    h('dt', {}, facts.resin?.name ?? 'Resin'),
    h('dd', {}, h('strong', {}, grams(read.resinG)), ' g'),
    h('dt', {}, `${cure.hardener?.name ?? 'Hardener'}, on top`),
    h('dd', {}, h('strong', {}, grams(read.hardenerG)), ` g ± ${grams(read.toleranceG)} g`),
    h('dt', { class: 'scale-sum' }, 'Scale reads after hardener'),
    h(
      'dd',
      { class: 'scale-sum' },
      h('strong', {}, grams(read.cumulativeG)),
      ' g',
      h('small', {}, `between ${grams(read.lowestG)} and ${grams(read.highestG)} g`),
    ),
  );
}

function clockOf(facts: SheetData, { hardener }: CureSheetData, mix: MixResult): SheetNode {
  const share = facts.practice('spread-share-of-pot-life');
  const notes: string[] = [];
  if (mix.potLifeMin !== null) {
    const mixed = fixed(mixedC(facts.detail.build.room.temperatureC.day, facts.practice), 0);
    notes.push(`Pot life ${length(mix.potLifeMin)} from first contact, mixed at ${mixed} °C.`);
    notes.push(`Spread within ${length(mix.potLifeMin * share)}.`);
  }
  if (mix.peakC !== null) notes.push(`Left in the cup it reaches ${fixed(mix.peakC, 0)} °C.`);
  if (hardener) notes.push(`${fixed(hardener.partsPer100ByMass, 1)} g to 100 g of resin.`);
  return h(
    'div',
    { class: 'mix-clock' },
    moments(moment('Mix at', mix.mixAt, 'no time'), moment('Use by', mix.useBy, 'see data sheet')),
    h(
      'ul',
      {},
      notes.map((note) => h('li', {}, note)),
      h('li', {}, 'Stir 2 to 3 min, scrape sides and bottom, change cup, stir again.'),
    ),
  );
}

const cautionLine = (facts: SheetData, cure: CureSheetData): SheetNode => {
  const how = circumstancesOf(facts.outcome, cure.id);
  const cautions = cautionsFor('layup', facts.hazards, how);
  return h('p', { class: 'caution-line' }, [...cautions, DEFERRAL].join(' '));
};

/** Short list of a cure's batches, to weigh the resin ahead. */
export function batchRows(facts: SheetData, cure: CureSheetData): SheetNode[] {
  const tolerance = facts.practice('mix-tolerance-share');
  const rows = cure.mixes.map((mix, i) => {
    const read = scaleReadings(mix, tolerance);
    return h(
      'tr',
      {},
      h('th', { scope: 'row' }, String(i + 1)),
      h('td', {}, mix.mixAt === null ? '–' : i === 0 ? dayClock(mix.mixAt) : clock(mix.mixAt)),
      h('td', { class: 'number' }, `${fixed(read.resinG, read.decimals)} g`),
      h('td', { class: 'number' }, `${fixed(read.cumulativeG, read.decimals)} g`),
      h('td', {}, mixDestination(cure.layups, cure.mixes, i)),
      h('td', { class: 'write' }),
    );
  });
  return rows.length < 2 ? rows : [...rows, togetherRow(cardTotals(cure.mixes, tolerance))];
}

const togetherRow = ({ decimals, resinG, cumulativeG }: CardTotals): SheetNode =>
  h(
    'tr',
    { class: 'together' },
    h('th', { scope: 'row', colspan: 2 }, 'Together'),
    h('td', { class: 'number' }, `${fixed(resinG, decimals)} g`),
    h('td', { class: 'number' }, `${fixed(cumulativeG, decimals)} g`),
    h('td', { colspan: 2 }),
  );
