/** Before the first mix of a cure: go or no-go, the plies to count, the batches to weigh ahead. */
import { cutList, type CutPly } from '../part/cuts.ts';
import type { CureSheetData, SheetData } from './sheetData.ts';
import { gelGoWords } from './gelWatch.ts';
import { circumstancesOf } from './hazards.ts';
import { batchRows } from './mixCard.ts';
import { notReleasedBox } from './notReleased.ts';
import { blank, blanks, cautionBox, row, sheetOf, table, ticks, type Sheet } from './parts.ts';
import { angleWords } from './plyDrawing.ts';
import { withheldSheet } from './withheld.ts';
import { h, type SheetNode } from './tree.ts';
import { clock, dayClock, dayClockOr, fixed, shortDay } from './words.ts';

export const goSheets = (facts: SheetData): Sheet[] =>
  facts.cures.map((cure) => goSheet(facts, cure));

function goSheet(facts: SheetData, cure: CureSheetData): Sheet {
  const first = cure.row?.firstMix ?? null;
  const [id, title] = [`go-${cure.id}`, `Before the first mix: ${cure.name}`];
  if (cure.withheld.length > 0) return withheldSheet(facts, 'go', id, title, cure.withheld);
  return sheetOf(
    facts,
    'go',
    id,
    title,
    `First mix ${dayClockOr(first, 'not placed')}. Every line ticked, or nobody mixes.`,
    notReleasedBox(facts, cure),
    checks(facts, cure),
    readings(facts, cure),
    plyTable(facts, cure),
    batchTable(facts, cure),
    cautionBox(['layup'], facts.hazards, circumstancesOf(facts.outcome, cure.id)),
    blanks(blank('Go, said by'), blank('Second initials'), blank('Time'), blank('No-go, why')),
  );
}

function checks(facts: SheetData, cure: CureSheetData): SheetNode {
  const pieces = pliesOf(facts, cure).length;
  const drop = facts.practice('leak-drop-mbar');
  const { bagBy = null } = cure.row ?? {};
  const isFirst = cure.layups[0]?.id === 'skin';
  const core = cure.layups.some((layup) => layup.hasCore);
  return h(
    'section',
    { class: 'checks' },
    h('h2', {}, 'Go or no-go'),
    ticks(
      [
        pieces > 0 &&
          `Plies counted: ${pieces === 1 ? '1 piece' : `${pieces} pieces`}, dry, in order, 0 line marked`,
        core && 'Core dry-fitted, numbered, drilled, chamfered',
        isFirst ? releaseTicks(facts) : surfaceTick(facts, cure),
        'Bag, breather, film and peel ply cut; tape on, backing still on',
        `Pump proved: no more than ${fixed(drop, 0)} mbar lost in 5 min; spare pump at hand`,
        `Resin weighed into ${cure.mixes.length === 1 ? '1 cup' : `${cure.mixes.length} cups`}; hardener not`,
        bagBy !== null &&
          `Bag goes down by ${clock(bagBy)} ${shortDay(bagBy)}: everyone knows the time`,
        ...[gelGoWords(facts, cure)].filter((line) => line !== null),
        circumstancesOf(facts.outcome, cure.id).alone
          ? 'Gloves, sleeves, goggles, eye wash, extraction; somebody within call looks in every half hour'
          : 'Gloves, sleeves, goggles, eye wash, extraction; nobody works alone',
        'No sanding, no release, no spraying in this room',
      ].filter((line) => line !== false),
    ),
  );
}

/** What lies under this cure: a skin with its peel ply, or bare core. */
function surfaceTick({ cures }: SheetData, cure: CureSheetData): string {
  const before = cures[cures.indexOf(cure) - 1];
  return before?.layups.at(-1)?.hasCore
    ? 'Bare core vacuumed, overlaps on the skin scuffed, wiped, dry'
    : 'Peel ply stripped, surface scuffed, vacuumed, wiped, dry';
}

function releaseTicks(facts: SheetData): string {
  const release = facts.detail.library.releases.find(
    (entry) => entry.id === facts.build.mould.release,
  );
  if (!release) return 'Release on, tape test passed';
  const coats = Array.from({ length: release.coats }, (_, i) => `${i + 1} ☐`).join('  ');
  return `${release.name}, coats: ${coats}  tape test ☐`;
}

function readings(facts: SheetData, { hardener }: CureSheetData): SheetNode {
  const blush = facts.practice('blush-above-rh-pct');
  const margin = facts.practice('dew-margin-c');
  const least = hardener?.minimumC ?? null;
  return blanks(
    blank('Room', '°C'),
    blank('Humidity', '%', `no-go above ${fixed(blush, 0)} %`),
    blank('Dew point', '°C'),
    blank(
      'Mould, coldest spot',
      '°C',
      [least === null ? '' : `${fixed(least, 0)} °C or more`, `${fixed(margin, 0)} over dew point`]
        .filter((text) => text !== '')
        .join(', '),
    ),
    blank('Resin', '°C'),
  );
}

/** The plies of a cure, with their numbers in the ply book. */
function pliesOf(facts: SheetData, cure: CureSheetData): CutPly[] {
  const layups = new Set(cure.layups.map((layup) => layup.id));
  return cutList(facts.build, facts.detail.library).filter((cut) => layups.has(cut.layup));
}

function plyTable(facts: SheetData, cure: CureSheetData): SheetNode | null {
  const plies = pliesOf(facts, cure);
  if (plies.length === 0) return null;
  const names = new Map(cure.layups.map((layup) => [layup.id, layup.name]));
  const overlap = facts.practice('ply-overlap-mm');
  const caption =
    'Plies by their numbers in the ply book: angles against the 0 line drawn on the mould' +
    `; joints overlap ${fixed(overlap, 0)} mm`;
  return table(
    'plies',
    caption,
    ['No', 'Layup', 'Zone', 'Cloth', 'Angle', 'Cut', 'Laid'],
    plies.map((ply) =>
      row(
        '',
        String(ply.number),
        names.get(ply.layup) ?? ply.layup,
        ply.zoneName,
        ply.cloth.name,
        angleWords(ply.angleDeg),
        '☐',
        '☐',
      ),
    ),
  );
}

function batchTable(facts: SheetData, cure: CureSheetData): SheetNode | null {
  if (cure.mixes.length === 0) return null;
  const last = cure.mixes[cure.mixes.length - 1]!;
  return table(
    'batches',
    `Batches, to weigh ahead${last.mixAt === null ? '' : `; last mix ${dayClock(last.mixAt)}`}`,
    ['Mix', 'At', 'Resin', 'After hardener', 'Goes on', 'Weighed'],
    batchRows(facts, cure),
  );
}
