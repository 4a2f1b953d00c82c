/** A card for every cure: its clock, the way out, the bag, vacuum and temperature by the clock. */
import { tgWords } from '../messages/tg.ts';
import type { TgMember } from '../plan/glass.ts';
import { capital, listed } from '../messages/words.ts';
import { minuteToIso } from '../time/zone.ts';
import { bagTrouble, troubleElsewhere } from './bagTrouble.ts';
import { demouldCards } from './demouldCard.ts';
import { doneAt, allowedFromWords } from './allowedFrom.ts';
import { circumstancesOf } from './hazards.ts';
import { withheldSheet } from './withheld.ts';
import { cureLog, type LogLine } from './cureLog.ts';
import { firstMixed, mixCautions } from './mixCard.ts';
import { cardTotals } from './mixes.ts';
import type { CureSheetData, MomentKey, SheetData } from './sheetData.ts';
import { milestonesOf, minuteOf } from './sheetData.ts';
import { notReleasedBox } from './notReleased.ts';
import {
  blank,
  blanks,
  cautionBox,
  inHalves,
  moment,
  moments,
  row,
  sheetOf,
  table,
  type Sheet,
} from './parts.ts';
import { h, type SheetNode } from './tree.ts';
import { dayClock, fixed } from './words.ts';

/** One for every cure, and last the way out of the mould. */
export const cureCards = (facts: SheetData): Sheet[] => [
  ...facts.cures.map((cure) => cureCard(facts, cure)),
  ...demouldCards(facts),
];

function cureCard(facts: SheetData, cure: CureSheetData): Sheet {
  const [id, title] = [`cure-${cure.id}`, `Cure: ${cure.name}`];
  if (cure.withheld.length > 0) return withheldSheet('cure', id, title, cure.withheld);
  return sheetOf(
    {
      kind: 'cure',
      id,
      title,
      subtitle: [layupsOf(cure), chemistry(facts, cure)].filter((one) => one !== '').join(' '),
      ...daysOfCure(cure),
    },
    notReleasedBox(facts, cure),
    cure.row && moments(momentsOf(facts, cure)),
    h('p', { class: 'later' }, [...allowedSentences(facts, cure), ...later(facts, cure)].join(' ')),
    facts.cures[0] === cure ? bagTrouble() : troubleElsewhere(facts),
    logTable(facts, cure),
    witness(facts, cure),
    cautionBox(
      ['watched-vacuum', 'cure', 'bag-off'],
      facts.hazards,
      circumstancesOf(facts.outcome, cure.id),
      cautionsSaid(facts, cure),
    ),
  );
}

/** The mix card on which cautions of the wet stage stand. */
function cautionsSaid(facts: SheetData, cure: CureSheetData) {
  const first = firstMixed(facts);
  if (first === undefined || cure.mixes.length === 0) return null;
  const where = first === cure ? 'its mix card' : `the mix card “${first.name}”`;
  return { lines: mixCautions(facts, first), where };
}

/** What is in the bag; '' where the name of the cure says it. */
function layupsOf({ name, layups }: CureSheetData): string {
  const names = listed(layups.map((layup) => layup.name));
  return names.toLowerCase() === name.toLowerCase() ? '' : `${names}.`;
}

function chemistry(facts: SheetData, cure: CureSheetData): string {
  const parts: string[] = [];
  const { hardener, made } = cure;
  if (facts.resin && hardener) parts.push(`${facts.resin.name}, ${hardener.name}`);
  if (made?.heat) {
    const off = dayClock(minuteToIso(made.heat.end, facts.zone));
    parts.push(`tent or oven to ${fixed(made.heat.hottestC, 0)} °C until ${off}`);
  }
  const span = cure.row?.temperatureC;
  if (span) parts.push(`reckoned at ${fixed(span.min, 0)} to ${fixed(span.max, 0)} °C`);
  const member = facts.detail.tg?.members.find(({ id }) => id === cure.id);
  if (cure.row && member) parts.push(`Tg ${glassWords(facts, member)}`);
  return parts.length === 0 ? '' : `${parts.join('; ')}.`;
}

/** 'about 49 °C in this room, about 69 °C with the post-cure'. */
function glassWords({ build }: SheetData, { withoutC, withC }: TgMember): string {
  const { day } = build.room.temperatureC;
  const room = tgWords(withoutC, day);
  return withC === withoutC
    ? room
    : `${room} in this room, ${tgWords(withC, day)} with the post-cure`;
}

/** Moments given in words below the table: nobody has to act on them by the minute. */
const IN_WORDS: ReadonlySet<MomentKey> = new Set(['bondUntil', 'fullFrom']);

function momentsOf(facts: SheetData, cure: CureSheetData): SheetNode[] {
  const leaves = cure.id === facts.lastInMould;
  return milestonesOf(cure.row!)
    .filter(({ key }) => !IN_WORDS.has(key) && (leaves || key !== 'demouldFrom'))
    .map(({ key, label, at }) => {
      const off = key === 'debagFrom' ? doneAt(facts, cure, key) : null;
      // A box is for something that somebody does; from when it may be done stands below.
      return off === null ? moment(label, at) : moment('Bag taken off', off);
    });
}

/** From when bag, part and sanding are allowed, with when the plan has people do it. */
function allowedSentences(facts: SheetData, cure: CureSheetData): string[] {
  const leaves = cure.id === facts.lastInMould;
  return [
    allowedFromWords(facts, cure, 'debagFrom'),
    leaves && allowedFromWords(facts, cure, 'demouldFrom'),
    leaves && allowedFromWords(facts, cure, 'sandFrom'),
  ].flatMap((line) => (line ? [`${capital(line)}.`] : []));
}

function later(facts: SheetData, cure: CureSheetData): string[] {
  if (cure.row === null) return [];
  const { bondUntil = null, fullFrom = null } = cure.row ?? {};
  const parts: string[] = [];
  if (bondUntil !== null) parts.push(bareSurface(cure, bondUntil));
  parts.push(
    fullFrom === null ? 'Full cure is not reached in this room.' : fullWords(facts, cure, fullFrom),
  );
  return parts;
}

/** A bag that comes off late has used the window up. */
function bareSurface({ bagOffAt }: CureSheetData, bondUntil: string): string {
  return bagOffAt !== null && minuteOf(bagOffAt) >= minuteOf(bondUntil)
    ? 'Bare surface without peel ply: its time to bond is past when the bag comes off; abrade.'
    : `Bare surface without peel ply: bond before ${dayClock(bondUntil)}, or abrade.`;
}

/** Full cure is that of the room; a post-cure before it makes it sooner. */
function fullWords(facts: SheetData, { id }: CureSheetData, fullFrom: string): string {
  const member = facts.detail.tg?.members.find((one) => one.id === id);
  const heated = member !== undefined && member.withC !== member.withoutC;
  const heat = facts.placed.findLast(({ stage }) => stage.kind === 'post-cure');
  return heated && heat && heat.end < minuteOf(fullFrom)
    ? `Full cure with the post-cure; in the room alone from ${dayClock(fullFrom)}.`
    : `Full cure from ${dayClock(fullFrom)}.`;
}

function logTable(facts: SheetData, cure: CureSheetData): SheetNode | null {
  const lines = cureLog(facts, cure);
  if (lines.length === 0) return null;
  return h(
    'section',
    {},
    h(
      'h2',
      {},
      'Vacuum and temperature by the clock, mbar below atmosphere, °C planned and of the part',
    ),
    inHalves(lines, logHalf),
  );
}

const LOG_HEAD = ['Due', 'What', 'Plan', 'At', 'mbar', 'Part', 'By'];

const logHalf = (lines: readonly LogLine[]): SheetNode =>
  table(
    'log',
    '',
    LOG_HEAD,
    lines.map((line) =>
      line.alone
        ? h(
            'tr',
            { class: 'alone' },
            h('th', { scope: 'row' }, line.when),
            h('td', { colspan: LOG_HEAD.length - 1 }, line.what),
          )
        : row(
            line.strong ? 'strong' : '',
            line.when,
            line.what,
            line.expectedC === null ? '' : fixed(line.expectedC, 0),
            '',
            '',
            '',
            '',
          ),
    ),
    [19.5, 32, 9, 9.5, 11, 9.5, 9.5],
  );

/** An infusion is tested before its first mix; a wet bag once it is down. */
const leakWords = ({ practice }: SheetData, { row }: CureSheetData): string =>
  row?.infused
    ? `Drop test before the first mix: lose ${fixed(practice('drop-test-mbar'), 0)} mbar in 10 min at most`
    : `Leak check: lose ${fixed(practice('leak-drop-mbar'), 0)} mbar in 5 min at most`;

function witness(facts: SheetData, cure: CureSheetData): SheetNode {
  const mixed = cardTotals(cure.mixes, facts.practice('mix-tolerance-share'));
  const below = facts.practice('debag-below-c');
  return h(
    'section',
    { class: 'witness' },
    h(
      'h2',
      {},
      `${leakWords(facts, cure)}. Bag off below ${fixed(below, 0)} °C. Mixed: planned ${fixed(mixed.cumulativeG, mixed.decimals)} g`,
    ),
    blanks(
      blank('Gauge at'),
      blank('Thermocouple'),
      blank('Pump off at'),
      blank('Vacuum then', 'mbar'),
      blank(cure.row?.infused ? 'After 10 min' : 'After 5 min', 'mbar'),
      blank('Bag off by'),
      blank('Seen by'),
      blank('Peel ply off at'),
    ),
    blanks(
      blank('Smear strings no more'),
      blank('Smear snaps'),
      blank('Nail leaves no mark'),
      blank('Hardness', 'Shore D'),
      blank('Part at bag-off', '°C'),
      blank('Weight at bag-off', 'kg'),
      blank('Left in cups', 'g'),
      blank(cure.row?.infused ? 'In peel ply, mesh, lines' : 'In peel ply, breather', 'g'),
    ),
  );
}

function daysOfCure({ row: clock, sealed, bagOffAt }: CureSheetData) {
  const from = clock?.firstMix ?? sealed;
  const to = bagOffAt ?? clock?.debagFrom ?? from;
  if (from === null || from === undefined || to === null || to === undefined) return {};
  return { days: [from.slice(0, 10), to.slice(0, 10)] as const };
}
