/** What the painter must know, handed over with the part. */
import { handsFor } from '../part/lift.ts';
import { massInState } from '../part/weight.ts';
import { outsideStageId, stageId } from '../document/ids.ts';
import { practiceIf } from '../document/library.ts';
import { cautionsFor } from '../messages/safety.ts';
import { tgWords } from '../messages/tg.ts';
import { listed } from '../messages/words.ts';
import { greatestHeat } from './greatestHeat.ts';
import type { OutsideParty } from '../document/schema.ts';
import { isCarbonFree } from './hazards.ts';
import { notReleasedCard } from './notReleased.ts';
import { isWithheld, type SheetData } from './sheetData.ts';
import { lastGrit, surfaceRows } from './surfaceFacts.ts';
import { withheldSheet } from './withheld.ts';
import { blank, blanks, sheetOf, signatures, table, row, type Sheet } from './parts.ts';
import { h } from './tree.ts';
import { dayClock, dayClockOr, fixed } from './words.ts';

/** One sheet for every paint shop among the outside parties. */
export function painterSheets(facts: SheetData): Sheet[] {
  const painters = facts.build.outside.filter((party) => party.kind === 'paint');
  return painters.map((party) => {
    const id = outsideStageId(party.id);
    const job = facts.placed.find(({ stage }) => stage.id === id);
    const [sheet, title] = [`painter-${party.id}`, `For the painter: ${party.name}`];
    if (job && isWithheld(job.stage)) {
      return withheldSheet('painter', sheet, title, job.stage.withheld!);
    }
    return sheetOf(
      {
        kind: 'painter',
        id: sheet,
        title,
        subtitle: `In ${dayClockOr(job?.startIso ?? null, 'not placed')}, back ${dayClockOr(job?.endIso ?? null, 'not placed')}.`,
        ...(job && { days: [job.startIso.slice(0, 10), job.endIso.slice(0, 10)] as const }),
      },
      job !== undefined && notReleasedCard(facts, [job.stage], 'nobody hands it over'),
      substrate(facts, party),
      onTheWay(facts, party),
      h(
        'p',
        { class: 'abort' },
        h('strong', {}, 'No silicone near this part.'),
        ' ',
        bakeLine(facts),
      ),
      blanks(
        blank('Last grit, real', '', `planned ${lastGrit(facts) ?? '–'}`),
        blank('Filler lot'),
        blank('Primer lot'),
        blank('Guide coat'),
      ),
      blanks(blank('Colour'), blank('Sheen'), blank('Soft zones'), blank('Mask map')),
      blanks(
        blank('Hang points'),
        blank('Cradle and van size'),
        blank('Part weight', 'kg'),
        blank('Phone'),
      ),
      h(
        'p',
        { class: 'caution-line' },
        cautionsFor('prime', facts.hazards, { carbonFree: isCarbonFree(facts.outcome) }).join(' '),
      ),
      signatures('Handed over by', 'Taken over by', 'Day and time'),
    );
  });
}

function substrate(facts: SheetData, party: OutsideParty) {
  const { bakeC } = party;
  const { part } = facts.build;
  const { day } = facts.build.room.temperatureC;
  const { members = [], coats = [] } = facts.detail.tg ?? {};
  const tgs = members.map(({ name, withC }) => `${name}: ${tgWords(withC, day)}`);
  const fillers = coats.map(
    ({ name, standsC }) =>
      `${name}: ${standsC === null ? 'not known' : `to about ${fixed(standsC, 0)} °C`}`,
  );
  return table(
    'facts',
    'The part',
    ['What', 'Value'],
    [
      row('', 'Finish wanted', finishWords(facts.build)),
      row('', 'Area', `${fixed(facts.detail.part.areaM2, 2)} m²`),
      row('', 'Resin', `${facts.resin?.name ?? part.finish}, ${hardenerNames(facts)}`),
      row('', 'Glass transition, reckoned, weakest first', tgs.join('; ') || 'not known'),
      row('', 'Fillers and primers stand', fillers.join('; ') || 'none on the part'),
      row('', 'Bake asked for', bakeC === null ? 'none stated' : `${fixed(bakeC, 0)} °C`),
      row('', 'Hottest in service', `${fixed(part.serviceMaxC, 0)} °C`),
      ...surfaceRows(facts, party),
    ],
    [34, 66],
  );
}

/** Who carries, when, and what it takes; nothing where the build does not plan the way. */
function onTheWay(facts: SheetData, party: OutsideParty) {
  const stageOf = (what: 'drive' | 'drive-back') =>
    facts.placed.find(({ stage }) => stage.id === stageId({ what, party: party.id }));
  const [there, back] = [stageOf('drive'), stageOf('drive-back')];
  const { weight, library } = facts.detail;
  // Filler is on it, and primer, which is counted with the paint: the painted part is what they carry back.
  const [thereKg, backKg] = [massInState(weight, 'faired'), massInState(weight, 'painted')];
  const hands = handsFor(facts.build, backKg, library);
  const rows = [
    ...(party.carriedBy === 'party'
      ? [row('', 'Carried by', `${party.name}, there and back`)]
      : []),
    ...(there
      ? [
          row(
            '',
            'Carried by',
            `the shop: ${facts.shortNames(there.stage.people)}, van and cradle`,
          ),
          row('', 'Leaves the shop', dayClock(there.startIso)),
        ]
      : []),
    ...(back ? [row('', 'Fetched', dayClock(back.startIso))] : []),
  ];
  if (rows.length === 0) return false;
  const van = vanWords(facts);
  return table(
    'way',
    'There and back',
    ['What', 'Value'],
    [
      ...rows,
      row(
        '',
        'Lifted by',
        `${hands} ${hands === 1 ? 'person' : 'people'}: about ${fixed(thereKg, 1)} kg without primer, ` +
          `${fixed(backKg, 1)} kg painted`,
      ),
      ...(van === null ? [] : [row('', 'Room in the van, at least', van)]),
    ],
  );
}

/** Floor of the van for the largest zone whose size is known, with room to hold it clear. */
function vanWords({ build, detail }: SheetData): string | null {
  const roomM = practiceIf(detail.library, 'van-room-m');
  const sizes = build.part.zones.flatMap((zone) => (zone.sizeM ? [zone.sizeM] : []));
  if (roomM === null || sizes.length === 0) return null;
  const longM = Math.max(...sizes.map(([a, b]) => Math.max(a, b))) + roomM;
  const wideM = Math.max(...sizes.map(([a, b]) => Math.min(a, b))) + roomM;
  return `${fixed(longM, 1)} x ${fixed(wideM, 1)} m`;
}

/** The part's finish, then the zones that differ from it. */
function finishWords({ part }: SheetData['build']): string {
  const others = part.zones.filter((zone) => zone.finish !== null && zone.finish !== part.finish);
  return [part.finish, ...others.map((zone) => `${zone.name} ${zone.finish}`)].join('; ');
}

/** One figure for oven and sun. */
function bakeLine(facts: SheetData): string {
  const greatest = greatestHeat(facts);
  if (!greatest) return 'Ask before any bake: no proven temperature yet.';
  const { limitC, name } = greatest;
  return `Nothing hotter than ${fixed(limitC, 0)} °C, oven or sun: ${name.toLowerCase()} stands no more. Ask before any bake.`;
}

/** Every hardener of the part, once. */
const hardenerNames = ({ cures }: SheetData): string =>
  listed([...new Set(cures.flatMap(({ hardener }) => (hardener ? [hardener.name] : [])))]);
