/** Pieces that several sheets share: heads, boxes to write in, ticks, cautions. */
import type { Hazard, StageKind } from '../document/schema.ts';
import { textWidthMm } from './flow/letters.ts';
import { heightMm } from './flow/measure.ts';
import { cautionsFor, type StageCircumstances } from '../messages/safety.ts';
import type { SheetData } from './sheetData.ts';
import { h, type Content, type SheetNode } from './tree.ts';
import { GOES_ON } from './paperWords.ts';
import { clock, shortDay } from './words.ts';

/** In printing order. What each is stands in the table of sheets.ts. */
export const SHEET_KINDS = [
  'week',
  'shopping',
  'holds',
  'plies',
  'bags',
  'day',
  'go',
  'mix',
  'cure',
  'painter',
] as const;
export type SheetKind = (typeof SHEET_KINDS)[number];

/** What a sheet is about, for its head, for the side it stands on and for picking it. */
export interface SheetAbout {
  readonly kind: SheetKind;
  /** Unique in its set; stays the same from plan to plan. */
  readonly id: string;
  readonly title: string;
  readonly subtitle?: string;
  /** Short, for the head of the side; the title where it is left out. */
  readonly short?: string;
  /** First and last day on which it is used, YYYY-MM-DD; left out: the whole build. */
  readonly days?: readonly [from: string, to: string];
  /** Ids of those who work by it; left out: everybody. */
  readonly people?: readonly string[];
  /** Its first block is its head as well. */
  readonly bare?: boolean;
  /** Printed on paper turned level. */
  readonly landscape?: boolean;
  /** It only says why nobody works by it. */
  readonly withheld?: boolean;
}

/** One sheet: what is kept together, or broken between its blocks where it is longer than a side. */
export interface Sheet extends Required<Omit<SheetAbout, 'days' | 'people' | 'subtitle'>> {
  readonly days: readonly [from: string, to: string] | null;
  readonly people: readonly string[] | null;
  readonly head: SheetNode;
  readonly blocks: readonly SheetNode[];
  /** All of it. */
  readonly body: SheetNode;
  /** The same on upright paper, for a level sheet that finds no room under another. */
  readonly upright: Sheet | null;
}

/** `Plan of Mon 19 Apr 2027 08:00 (Europe/Lisbon)` */
export function planStamp(facts: Pick<SheetData, 'result'>): string {
  const { now, build } = facts.result;
  return `Plan of ${shortDay(now)} ${now.slice(0, 4)} ${clock(now)}, times in ${build.zone}`;
}

/** A whole sheet: head with its title, then the content. */
export function sheetOf(about: SheetAbout, ...content: Content[]): Sheet {
  const { kind, id, title, subtitle = '', short = title, landscape = false, bare = false } = about;
  const { withheld = false } = about;
  const head = headOf(title, subtitle, landscape);
  const blocks = h('div', {}, content).children.filter((child) => typeof child !== 'string');
  const sheet = { kind, id, title, short, landscape, bare, withheld, head, blocks };
  return {
    ...sheet,
    days: about.days ?? null,
    people: about.people ?? null,
    upright: null,
    body: wrapSheet(sheet, blocks),
  };
}

const headOf = (title: string, subtitle: string, landscape: boolean): SheetNode =>
  h(
    'header',
    {
      class: fitsOnLine(title, subtitle, landscape ? LEVEL_MM : UPRIGHT_MM)
        ? 'head head-line'
        : 'head',
    },
    h('h1', {}, title),
    subtitle !== '' && h('p', { class: 'head-sub' }, subtitle),
  );

/** Room for words side by side on the narrower paper, upright and level, and half of it. */
const UPRIGHT_MM = 186;
const LEVEL_MM = 255;
const HALF_MM = 90;
const fitsOnLine = (title: string, subtitle: string, wholeMm: number): boolean =>
  subtitle !== '' &&
  textWidthMm(title, { pt: 13, bold: true }) + textWidthMm(subtitle, { pt: 9.5, bold: false }) <
    wholeMm;

type Wrapped = Pick<Sheet, 'kind' | 'id' | 'title' | 'head' | 'bare'>;

/** Head and some of the blocks of a sheet. */
export const wrapSheet = ({ kind, id, title, head, bare }: Wrapped, blocks: readonly SheetNode[]) =>
  h('article', { class: `sheet sheet-${kind}`, id, 'aria-label': title }, !bare && head, blocks);

/** What goes on from the side before. */
export const restOfSheet = ({ kind, title }: Wrapped, blocks: readonly SheetNode[]): SheetNode =>
  h(
    'article',
    { class: `sheet sheet-${kind}`, 'aria-label': `${title}, ${GOES_ON}` },
    h('header', { class: 'head' }, h('h1', {}, title, h('small', {}, `, ${GOES_ON}`))),
    blocks,
  );

/** A labelled line to write on; `planned` is printed small above it. */
export function blank(label: string, unit = '', planned = ''): SheetNode {
  return h(
    'div',
    { class: 'blank' },
    h('span', { class: 'blank-label' }, label),
    planned !== '' && h('span', { class: 'blank-planned' }, planned),
    h('span', { class: 'blank-line' }, unit !== '' && h('span', { class: 'blank-unit' }, unit)),
  );
}

export const blanks = (...items: Content[]): SheetNode => h('div', { class: 'blanks' }, items);

/** Lines to tick, each with its box. */
export function ticks(items: readonly Content[]): SheetNode {
  return h(
    'ul',
    { class: 'ticks' },
    items.map((item) => h('li', {}, h('span', { class: 'box', 'aria-hidden': 'true' }), item)),
  );
}

/** As `ticks`, in two columns of like height, read down. */
export const twoTicks = (items: readonly Content[]): SheetNode => inHalves(items, ticks);

/** A list in two columns, broken where the taller of them is lowest. */
export function inHalves<T>(
  items: readonly T[],
  draw: (some: readonly T[]) => SheetNode,
  halfMm = HALF_MM,
): SheetNode {
  const tall = (some: readonly T[]): number => heightMm(draw(some), halfMm);
  const isLeftTaller = (count: number): boolean =>
    tall(items.slice(0, count)) >= tall(items.slice(count));
  let [less, more] = [0, items.length];
  while (more - less > 1) {
    const middle = Math.floor((less + more) / 2);
    if (isLeftTaller(middle)) more = middle;
    else less = middle;
  }
  const isLess = less > 0 && tall(items.slice(less)) < tall(items.slice(0, more));
  const count = isLess ? less : more;
  const rest = items.slice(count);
  return sideBySide(draw(items.slice(0, count)), rest.length > 0 && draw(rest));
}

export const sideBySide = (...items: Content[]): SheetNode =>
  h('div', { class: 'side-by-side' }, items);

/** A moment big enough to read from the mould, with room for the real one. */
export function moment(label: string, at: string | null, missing = 'not reached'): SheetNode {
  return h(
    'div',
    { class: at === null ? 'moment moment-missing' : 'moment' },
    h('span', { class: 'moment-label' }, label),
    h('span', { class: 'moment-time' }, at === null ? missing : clock(at)),
    h('span', { class: 'moment-day' }, at === null ? '' : shortDay(at)),
    h('span', { class: 'moment-actual' }, 'real'),
  );
}

/**
 * Cautions of the given stages, each once; every side defers to the data sheets at its foot.
 * @param said those that stand on another card of the same work, and its name
 */
export function cautionBox(
  kinds: readonly StageKind[],
  hazards: readonly Hazard[],
  how: StageCircumstances = {},
  said: { readonly lines: readonly string[]; readonly where: string } | null = null,
): SheetNode | null {
  const all = [...new Set(kinds.flatMap((kind) => cautionsFor(kind, hazards, how)))];
  const lines = all.filter((line) => !said?.lines.includes(line));
  if (all.length === 0) return null;
  const lead = lines.length < all.length ? `Take care, as on ${said!.where}. ` : 'Take care. ';
  return h('section', { class: 'cautions' }, h('p', {}, h('strong', {}, lead), lines.join(' ')));
}

/** Widths of the columns in hundredths, so that heights can be worked out before anything is drawn. */
export const columns = (widths: readonly number[]): SheetNode =>
  h(
    'colgroup',
    {},
    widths.map((width) => h('col', { width: `${width}%` })),
  );

/** A table; `widths` are hundredths of the whole, equal where they are left out. */
export function table(
  className: string,
  caption: string,
  head: readonly string[],
  rows: readonly SheetNode[],
  widths: readonly number[] = head.map(() => 100 / head.length),
): SheetNode {
  return h(
    'table',
    { class: className },
    columns(widths),
    caption !== '' && h('caption', {}, caption),
    h(
      'thead',
      {},
      h(
        'tr',
        {},
        head.map((name) => h('th', { scope: 'col' }, name)),
      ),
    ),
    h('tbody', {}, rows),
  );
}

/** A row of a table; the first cell is its head. */
export function row(className: string, ...cells: Content[]): SheetNode {
  return h(
    'tr',
    className === '' ? {} : { class: className },
    cells.map((cell, i) => (i === 0 ? h('th', { scope: 'row' }, cell) : h('td', {}, cell))),
  );
}

/** Two boxes for the initials of the one who did it and the one who saw it. */
export const signatures = (...labels: string[]): SheetNode =>
  h(
    'div',
    { class: 'blanks signatures' },
    labels.map((label) => blank(label)),
  );

export const moments = (...items: Content[]): SheetNode => h('div', { class: 'moments' }, items);
