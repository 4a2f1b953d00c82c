/** Taking the part out of the mould without breaking it: common practice, no source. */
import { massInState, roundedWeightRows } from '../part/weight.ts';
import { allowedFromWords } from './allowedFrom.ts';
import { blank, blanks, cautionBox, sheetOf, twoTicks, type Sheet } from './parts.ts';
import { notReleasedCard } from './notReleased.ts';
import { isWithheld, type SheetData } from './sheetData.ts';
import { h, type SheetNode } from './tree.ts';
import { withheldSheet } from './withheld.ts';
import { dayClock, fixed } from './words.ts';
import { capital, elapsed } from '../messages/words.ts';

const ID = 'demould';
const TITLE = 'Demould';

/** The card of the demould; none while the plan has no place for it. */
export function demouldCards(facts: SheetData): Sheet[] {
  const job = facts.placed.find(({ stage }) => stage.kind === 'demould');
  if (!job) return [];
  const { stage } = job;
  if (isWithheld(stage)) return [withheldSheet('cure', ID, TITLE, stage.withheld!)];
  const cure = facts.cures.find(({ id }) => id === facts.lastInMould);
  const allowed = cure ? allowedFromWords(facts, cure, 'demouldFrom') : null;
  const when = allowed === null ? `Demould ${dayClock(job.startIso)}` : capital(allowed);
  const who = stage.people.length > 0 ? `; ${facts.shortNames(stage.people)}` : '';
  return [
    sheetOf(
      {
        kind: 'cure',
        id: ID,
        title: TITLE,
        subtitle: `${when}${who}.`,
        days: [job.startIso.slice(0, 10), job.endIso.slice(0, 10)],
        people: stage.people,
      },
      notReleasedCard(facts, [stage], 'nobody demoulds'),
      goChecks(facts),
      wayOut(),
      afterwards(facts),
      cautionBox(['demould'], facts.hazards),
    ),
  ];
}

function goChecks(facts: SheetData): SheetNode {
  const below = facts.practice('debag-below-c');
  return h(
    'section',
    { class: 'checks' },
    h('h2', {}, 'Before the first wedge'),
    twoTicks([
      'Hard all round: witness smear snaps, a nail leaves no mark, edge and thick spots too',
      `Part and mould below ${fixed(below, 0)} °C`,
      'Bag, tape and peel ply on the flange off; nothing holds the part but the mould',
      `${handsWords(facts)} to lift, at both ends and the middle; a padded cradle stands ready`,
    ]),
    blanks(
      blank('Hardness', 'Shore D'),
      blank('Part', '°C'),
      blank('Hands counted'),
      blank('Start'),
    ),
  );
}

/** People and what they lift; without the rows for it nobody counts them. */
export function handsWords({ detail: { part } }: SheetData): string {
  const { hands, massKg } = part.lift;
  return hands > 1 ? `${hands} people (about ${fixed(massKg, 1)} kg)` : 'Enough hands';
}

/** Step by step; what is never done stands out. */
function wayOut(): SheetNode {
  return h(
    'section',
    { class: 'checks' },
    h('h2', {}, 'Out of the mould'),
    twoTicks([
      'Wedges under the waste flange alone, outside the trim line: short ones, of plastic',
      'All round the part, 2 to 3 mm at a time, once round before any goes deeper',
      'Then air, or water, under the flange where the mould allows it',
      'Press the middle of the part with flat hands and wait for the pop; go round again, do not hurry it',
      'When it is loose all round: lift evenly, every hand on one count',
      'The flange is trimmed off with what the wedges did to it',
    ]),
    h(
      'p',
      { class: 'abort' },
      h('strong', {}, 'Never:'),
      ' a long wedge under the part itself, it bends a thin skin and breaks the edge; nothing of steel; ' +
        'never bend an end up first; never a blow on the part.',
    ),
  );
}

/** Repair, where it is planned: what it is expected to take, and the way it is done. */
function repairChecks({ detail: { part } }: SheetData): string[] {
  const { repair } = part;
  if (!repair) return [];
  const { minutes, mostMinutes, cures } = repair;
  const most = mostMinutes > minutes ? `, ${elapsed(mostMinutes)} if all of it is there` : '';
  const patch = cures ? ' and a night for new plies under a small bag' : '';
  return [
    `Repair: ${elapsed(minutes)} expected${most}${patch}. Ground to 1:20 and more, at least 12 mm a ply; core filled`,
    'Marks dressed by hand inside and out: stop at the first fibre, a skin that is ground through takes new plies',
  ];
}

function afterwards(facts: SheetData): SheetNode {
  const closed = facts.detail.part.massKg.closeout > 0;
  const shellKg = massInState(roundedWeightRows(facts.detail.weight), 'shell');
  return h(
    'section',
    { class: 'weights' },
    h('h2', {}, 'Straight after'),
    twoTicks([
      'Tap test over the whole part: what sounds dull is marked, drilled and filled',
      'Face looked over in slanting light; pulled spots and pinholes marked for repair',
      ...repairChecks(facts),
      'Mould wiped, looked over, covered',
    ]),
    blanks(
      blank('Part, flange on', 'kg'),
      blank('Part, trimmed', 'kg', `${closed ? 'with edge' : 'shell'} ${fixed(shellKg, 2)} kg`),
      blank('Repairs marked'),
      blank('Release left on the part'),
      blank('Demoulded by'),
      blank('Seen by'),
    ),
  );
}
