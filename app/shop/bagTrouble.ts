/** What to do when something goes wrong at the bag: common practice, no source. */
import { sealedWords } from '../messages/sealed.ts';
import type { CureSheetData, SheetData } from './sheetData.ts';
import { h, type SheetNode } from './tree.ts';
import { clock, shortDay } from './words.ts';

/** When the bag does not come down in time; null while no limit is known. */
export function abortLine(cure: CureSheetData): SheetNode | null {
  const bagBy = cure.row?.bagBy ?? null;
  if (bagBy === null) return null;
  const infused = cure.row?.infused;
  const hasCore = cure.layups.some((layup) => layup.hasCore);
  return h(
    'p',
    { class: 'abort' },
    h('strong', {}, `${sealedWords(infused).late} ${clock(bagBy)} (${shortDay(bagBy)}):`),
    infused ? NOT_FULL : ' no more resin. ',
    !infused && hasCore && 'A core that is not seated stays out. ',
    !infused && NOT_DOWN,
  );
}

const NOT_DOWN =
  'Peel ply over what is wet, bag that and pull; if the film already strings, leave it under peel ' +
  'ply without vacuum. What is missing becomes a cure of its own: plan again.';

const NOT_FULL =
  ' clamp the feed, mix nothing more, keep the vacuum until it has gelled. Mark every dry spot: it is a stop ' +
  'and a repair, planned anew.';

const BAG_PROBLEMS: readonly (readonly [title: string, what: string])[] = [
  [
    'The pump fails:',
    'clamp the hose at the bag at once, put the spare pump on, open the clamp when the new gauge ' +
      'reads what the old one did. No spare: the bag stays clamped and shut, read the gauge every ' +
      '5 min, fetch a pump. Before gel nothing is lost while the gauge holds.',
  ],
  [
    'A leak will not close:',
    'listen round the tape with the pump valved off, corners, pleats and ports first; then clamp off ' +
      'zone by zone with a strip of tape and read which one drops. Press the tape, patch the film. ' +
      'If it still leaks: a second bag over the first, breather between, its own port.',
  ],
  [
    'It starts to gel before its vacuum is there:',
    'leave it alone, do not lift the bag. Write down gauge and time; look for dry and thick spots at ' +
      'bag-off before anything is laid on it.',
  ],
];

/** Where what to do stands already: on the card of the first bag. */
export const troubleElsewhere = ({ cures }: SheetData): SheetNode =>
  h(
    'p',
    { class: 'trouble' },
    h('strong', {}, 'When it goes wrong: '),
    `pump, leak, gel without vacuum: the card “${cures[0]?.name ?? ''}”. Hose clamp and spare pump lie at the bag.`,
  );

/** Pump, leak, gel without vacuum: on the card of the first bag, once. */
export const bagTrouble = (): SheetNode =>
  h(
    'section',
    { class: 'trouble' },
    h('h2', {}, 'When it goes wrong'),
    h(
      'ul',
      {},
      BAG_PROBLEMS.map(([title, what]) => h('li', {}, h('strong', {}, title), ` ${what}`)),
      h('li', {}, 'Spare cloth and resin for one repair lie ready before the first mix.'),
    ),
  );
