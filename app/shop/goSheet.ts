/** Before the first mix of a cure: go or no-go. */
import { sealedWords } from '../messages/sealed.ts';
import { plural } from '../units/words.ts';
import { layupStageId } from '../document/ids.ts';
import { cutList, type CutPly } from '../part/cuts.ts';
import type { CureSheetData, SheetData } from './sheetData.ts';
import { gelGoWords } from './gelWatch.ts';
import { circumstancesOf } from './hazards.ts';
import { notReleasedBox } from './notReleased.ts';
import { blank, blanks, sheetOf, twoTicks, type Sheet } from './parts.ts';
import { numberRuns } from './plyDrawing.ts';
import { withheldSheet } from './withheld.ts';
import { h, type SheetNode } from './tree.ts';
import { clock, dayClockOr, fixed, shortDay } from './words.ts';

export const goSheets = (facts: SheetData): Sheet[] =>
  facts.cures.map((cure) => goSheet(facts, cure));

function goSheet(facts: SheetData, cure: CureSheetData): Sheet {
  const first = cure.row?.firstMix ?? null;
  const [id, title] = [`go-${cure.id}`, `Before the first mix: ${cure.name}`];
  if (cure.withheld.length > 0) return withheldSheet('go', id, title, cure.withheld);
  return sheetOf(
    {
      kind: 'go',
      id,
      title,
      short: `Go: ${cure.name}`,
      subtitle: `First mix ${dayClockOr(first, 'not placed')}. All ticked, or nobody mixes.`,
      ...(first !== null && { days: [first.slice(0, 10), first.slice(0, 10)] as const }),
    },
    notReleasedBox(facts, cure),
    checks(facts, cure),
    readings(),
  );
}

function checks(facts: SheetData, cure: CureSheetData): SheetNode {
  const plies = pliesOf(facts, cure);
  const drop = facts.practice('leak-drop-mbar');
  const { bagBy = null, infused } = cure.row ?? {};
  const isFirst = cure.layups[0]?.id === 'skin';
  const core = cure.layups.some((layup) => layup.hasCore);
  return h(
    'section',
    { class: 'checks' },
    twoTicks(
      [
        plies.length > 0 && `Plies counted: ${pliesWords(plies)}; dry, in order, 0 line marked`,
        core && 'Core dry-fitted, numbered, drilled, chamfered',
        isFirst ? releaseTicks(facts) : surfaceTick(facts, cure),
        releasedAgainTick(facts, cure),
        edgeTick(facts, cure),
        ...(infused
          ? infusionTicks(facts)
          : ['Bag, breather, film and peel ply cut; tape on, backing still on']),
        !infused &&
          `Pump proved: no more than ${fixed(drop, 0)} mbar lost in 5 min; spare pump at hand`,
        `Resin weighed into ${plural(cure.mixes.length, infused ? 'bucket' : 'cup')}; hardener not`,
        bagBy !== null &&
          `${sealedWords(infused).go} ${clock(bagBy)} ${shortDay(bagBy)}: everyone knows the time`,
        ...[gelGoWords(facts, cure)].filter((line) => line !== null),
        circumstancesOf(facts.outcome, cure.id).alone
          ? 'Gloves, sleeves, goggles, eye wash, extraction; somebody within call looks in every half hour'
          : 'Gloves, sleeves, goggles, eye wash, extraction; nobody works alone',
        'No sanding, no release, no spraying in this room',
        airWords(facts, cure),
      ].filter((line) => line !== false),
    ),
  );
}

/** What an infusion must show before anybody mixes: common practice, no source. */
const infusionTicks = ({ practice }: SheetData): string[] => [
  'Mesh ends 30 to 50 mm short of the vacuum line; feed clamped, catch pot in the line',
  `Drop test at full vacuum: no more than ${fixed(practice('drop-test-mbar'), 0)} mbar lost in 10 min; spare pump at hand`,
  'Resin degassed 10 to 15 min; each bucket in water, the next one mixed while the last runs',
];

/** Tape on a filled edge: no tick where the plan has a stage that makes it so. */
function edgeTick({ build, detail }: SheetData, cure: CureSheetData): string | false {
  const closes = cure.layups.some(({ id }) => id === 'closeout');
  const hasCore = build.part.zones.some((zone) => zone.core && zone.closeout);
  const isPlanned = build.part.edge !== null && detail.part.workFor('edge-fill').personMinutes > 0;
  return (
    closes &&
    hasCore &&
    !isPlanned &&
    !build.part.edge?.rim &&
    'Filled edge: taped while wet or tacky, or hard after a night and sanded flush; at 3 to 4 h it is neither'
  );
}

/** What lies under this cure: a skin with its peel ply, or bare core; abraded again where it has gone stale. */
function surfaceTick({ cures, result }: SheetData, cure: CureSheetData): string {
  const before = cures[cures.indexOf(cure) - 1];
  const prepared = layupStageId('prepare', cure.layups[0]!.id);
  const stale = result.findings.some(
    ({ code, stage }) => code === 'bond-window-missed' && stage === prepared,
  );
  if (before?.layups.at(-1)?.hasCore) {
    return stale
      ? 'Bare core vacuumed again; overlaps on the skin abraded again, wiped, dry'
      : 'Bare core vacuumed, overlaps on the skin scuffed, wiped, dry';
  }
  return stale
    ? 'Peel ply stripped the day before: surface abraded again P80 to P120, washed, wiped, dry'
    : 'Peel ply stripped, surface scuffed, vacuumed, wiped, dry';
}

/** The bare mould of a later section, which lay open through the cure before. */
function releasedAgainTick({ result }: SheetData, cure: CureSheetData): string | false {
  const coat = layupStageId('release', cure.layups[0]!.id);
  if (!result.stages.some(({ id }) => id === coat)) return false;
  return 'Bare mould wiped, released again, tape test passed; no release on the joint, whose peel ply came off after it';
}

function releaseTicks(facts: SheetData): string {
  const release = facts.detail.library.releases.find(
    (entry) => entry.id === facts.build.mould.release,
  );
  if (!release) return 'Release on, tape test passed';
  const coats = Array.from({ length: release.coats }, (_, i) => `${i + 1} ☐`).join('  ');
  return `${release.name}, coats: ${coats}  tape test ☐`;
}

/** `Humidity under 68 %; mould 15 °C or more and 3 °C over the dew point` */
function airWords(facts: SheetData, { hardener }: CureSheetData): string {
  const least = hardener?.minimumC ?? null;
  const mould = least === null ? '' : `${fixed(least, 0)} °C or more and `;
  return (
    `Humidity under ${fixed(facts.practice('blush-above-rh-pct'), 0)} %; coldest spot of the mould ` +
    `${mould}${fixed(facts.practice('dew-margin-c'), 0)} °C over the dew point`
  );
}

const readings = (): SheetNode =>
  blanks(
    blank('Room', '°C'),
    blank('Humidity', '%'),
    blank('Dew point', '°C'),
    blank('Mould, coldest', '°C'),
    blank('Resin', '°C'),
    blank('Go, said by'),
    blank('Second initials'),
    blank('Time'),
  );

/** The plies of a cure, with their numbers in the ply book. */
function pliesOf(facts: SheetData, cure: CureSheetData): CutPly[] {
  const layups = new Set(cure.layups.map((layup) => layup.id));
  return cutList(facts.build, facts.detail.library).filter((cut) => layups.has(cut.layup));
}

/** `4 pieces, numbers 3 to 6 of the ply book` */
function pliesWords(plies: readonly CutPly[]): string {
  const numbers = numberRuns(plies.map(({ number }) => number));
  const pieces = plies.length === 1 ? '1 piece, number' : `${plies.length} pieces, numbers`;
  return `${pieces} ${numbers.join(', ')} of the ply book`;
}
