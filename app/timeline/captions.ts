/** What is written beside a stage at each grain, longest first, and how much it is worth there. */
import { sealedWords } from '../messages/sealed.ts';
import type { StageKind } from '../document/schema.ts';
import { withoutLength } from '../messages/stages.ts';
import { type PlacedStage, type SheetData } from '../shop/sheetData.ts';
import { clockAt, dayAt, shortAt } from './clockWords.ts';
import type { CureShape } from './cureShape.ts';
import type { ItemType } from './items.ts';
import type { RowId } from './rows.ts';

/** How close one looks: days, named stages, clock times. */
export const GRAINS = ['whole', 'week', 'day'] as const;
export type Grain = (typeof GRAINS)[number];

export interface Caption {
  /** From the fullest words to the fewest; empty: nothing is written at this grain. */
  readonly texts: readonly string[];
  /** Those worth less give way. */
  readonly worth: number;
}
export type Captions = Readonly<Record<Grain, Caption>>;

interface Subject {
  readonly placed: PlacedStage;
  readonly type: ItemType;
  readonly shape: CureShape | null;
  /** It ends its row: what the row delivers. */
  readonly isLast: boolean;
  readonly pinned: boolean;
  readonly row: RowId;
}

const NOTHING: Caption = { texts: [], worth: 0 };

export function captionsOf(facts: SheetData, subject: Subject): Captions {
  if (subject.shape) {
    const cure = cureCaption(facts, subject.shape);
    return { whole: cure, week: cure, day: cure };
  }
  return {
    whole: wholeCaption(facts, subject),
    week: nearCaption(facts, subject, 'week'),
    day: nearCaption(facts, subject, 'day'),
  };
}

/** What the floor needs first: mix at, bag by, off from. */
function cureCaption({ zone }: SheetData, { open, bagBy, off, infused }: CureShape): Caption {
  const mix = `mix ${clockAt(open.start, zone)}`;
  const bag = bagBy === null ? '' : `, ${sealedWords(infused).shortBy} ${clockAt(bagBy, zone)}`;
  const from = `off ${shortAt(off, zone)}`;
  return { texts: [`${mix}${bag}, ${from}`, from], worth: 100 };
}

function wholeCaption(facts: SheetData, subject: Subject): Caption {
  const { placed, type, isLast, pinned, row } = subject;
  const { stage, start, end } = placed;
  const { zone } = facts;
  if (pinned) return { texts: [`fixed ${shortAt(start, zone)}`], worth: 95 };
  if (type === 'outside') return { texts: [withoutLength(stage.name)], worth: 85 };
  if (stage.kind === 'demould') return { texts: [`demould ${shortAt(start, zone)}`], worth: 88 };
  const isPostCure = stage.kind === 'post-cure';
  if (isPostCure) return { texts: [`${stage.name}, ${hoursWords(end - start)}`], worth: 70 };
  const done = DELIVERS[row];
  if (!isLast || done === undefined) return NOTHING;
  return { texts: [`${done} ${shortAt(end, zone)}`], worth: 80 };
}

/** What a row that is no layup hands on when its last stage ends. */
const DELIVERS: Partial<Readonly<Record<RowId, string>>> = {
  ready: 'all ready',
  mould: 'mould ready',
  fair: 'surface ready',
  'hand-over': 'handed over',
  own: 'done',
};

const hoursWords = (minutes: number): string => `${Math.round(minutes / 60)} h`;

function nearCaption(facts: SheetData, subject: Subject, grain: 'week' | 'day'): Caption {
  const { placed, type, pinned } = subject;
  const { stage, start, end } = placed;
  const { zone } = facts;
  const name = type === 'outside' ? withoutLength(stage.name) : stage.name;
  const who = stage.people.length > 0 ? `, ${facts.shortNames(stage.people)}` : '';
  const from = clockAt(start, zone);
  const sameDay = dayAt(start, zone) === dayAt(end, zone);
  const until = sameDay ? clockAt(end, zone) : shortAt(end, zone);
  const when = grain === 'week' ? from : `${sameDay ? from : shortAt(start, zone)}–${until}`;
  const fixed = pinned ? ', fixed' : '';
  const texts = [`${when} ${name}${who}${fixed}`, `${from} ${name}`, name];
  return { texts, worth: worthNear(stage.kind, type, stage.critical || pinned) };
}

function worthNear(kind: StageKind, type: ItemType, isSharp: boolean): number {
  if (kind === 'layup') return 90;
  const base = type === 'wait' ? 20 : type === 'work' ? 50 : 60;
  const attends = kind === 'watched-vacuum' || kind === 'bag-off' ? -10 : 0;
  return base + attends + (isSharp ? 15 : 0);
}

/** Less than this before its latest start, a stage says so. */
const SHORT_MINUTES = 1440;

/** The words of a selected stage: what it is, and how long it may still wait. */
export function selectedWords(
  name: string,
  { start, latestStart }: { readonly start: number; readonly latestStart: number | null },
  zone: string,
): string {
  if (latestStart === null || latestStart < start) return name;
  return `${name}, at the latest ${dayAt(latestStart, zone)} ${clockAt(latestStart, zone)}`;
}

export const isShort = (start: number, latestStart: number | null): boolean =>
  latestStart !== null && latestStart - start < SHORT_MINUTES;
