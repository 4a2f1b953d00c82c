/** Pieces that several sheets share: heads, boxes to write in, ticks, cautions. */
import type { Hazard, StageKind } from '../document/schema.ts';
import { cautionsFor, DEFERRAL, type StageCircumstances } from '../messages/safety.ts';
import type { SheetData } from './sheetData.ts';
import { h, type Content, type SheetNode } from './tree.ts';
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

/** One sheet; `id` is unique in its set and stays the same from plan to plan. */
export interface Sheet {
  readonly id: string;
  readonly kind: SheetKind;
  readonly title: string;
  readonly body: SheetNode;
}

/** `printed from plan of Mon 19 Apr 2027 08:00 (Europe/Lisbon)` */
export function planStamp(facts: SheetData): string {
  const { now, build } = facts.result;
  return `Printed from the plan of ${shortDay(now)} ${now.slice(0, 4)} ${clock(now)}, times in ${build.zone}`;
}

/** A whole sheet: head with title and build, then the content. */
export function sheetOf(
  facts: SheetData,
  kind: SheetKind,
  id: string,
  title: string,
  subtitle: string,
  ...content: Content[]
): Sheet {
  const head = h(
    'header',
    { class: 'head' },
    h('h1', {}, title),
    h(
      'p',
      { class: 'head-build' },
      h('strong', {}, facts.result.build.name),
      h('small', {}, `Plan of ${shortDay(facts.result.now)} ${clock(facts.result.now)}`),
    ),
    subtitle !== '' && h('p', { class: 'head-sub' }, subtitle),
  );
  const body = h(
    'article',
    { class: `sheet sheet-${kind}`, id, 'aria-label': title },
    head,
    content,
  );
  return { id, kind, title, body };
}

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

/** Cautions of the given stages, each once, closed by the sentence that defers to the data sheets. */
export function cautionBox(
  kinds: readonly StageKind[],
  hazards: readonly Hazard[],
  how: StageCircumstances = {},
): SheetNode | null {
  const lines = [...new Set(kinds.flatMap((kind) => cautionsFor(kind, hazards, how)))];
  if (lines.length === 0) return null;
  return h(
    'section',
    { class: 'cautions' },
    h('h2', {}, 'Take care'),
    h(
      'ul',
      {},
      lines.map((line) => h('li', {}, line)),
    ),
    h('p', {}, DEFERRAL),
  );
}

/** A table whose head repeats on every page. Cells that are text become plain cells. */
export function table(
  className: string,
  caption: string,
  head: readonly string[],
  rows: readonly SheetNode[],
): SheetNode {
  return h(
    'table',
    { class: className },
    h('caption', {}, caption),
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
