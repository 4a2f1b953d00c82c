/** Heights of a sheet's trees at a given width, from the one table of sizes. */
import type { SheetChild, SheetNode, SheetTag } from '../tree.ts';
import { BODY_LINE, BODY_PT, RULES, type Box, type Rule } from './boxes.ts';
import { MM_PER_POINT, textWidthMm } from './letters.ts';

interface Around {
  readonly pt: number;
  readonly line: number;
  readonly bold: boolean;
  /** Tags and classes of all that is around. */
  readonly classes: ReadonlySet<string>;
  readonly key: string;
}

const BODY: Around = { pt: BODY_PT, line: BODY_LINE, bold: false, classes: new Set(), key: '' };
/** Classes on which some rule hangs; the others are not carried along. */
const HOLDERS = new Set(RULES.flatMap(({ inside }) => inside ?? []));
const INLINE: ReadonlySet<SheetTag> = new Set(['strong', 'small', 's', 'span']);

/** Height of a tree with its margins, mm. */
export const heightMm = (node: SheetNode, widthMm: number): number => outerMm(node, widthMm, BODY);

const classesOf = (node: SheetNode): string[] => String(node.attrs.class ?? '').split(' ');

const boxes = new Map<string, Box>();

/** The same for every node of a tag and classes in the same surroundings: worked out once. */
function boxOf(node: SheetNode, around: Around): Box {
  const key = `${node.tag}.${String(node.attrs.class ?? '')}|${around.key}`;
  const known = boxes.get(key);
  if (known) return known;
  const box = reckonedBox(node, around);
  boxes.set(key, box);
  return box;
}

function reckonedBox(node: SheetNode, around: Around): Box {
  const own = classesOf(node);
  return RULES.filter((rule) => applies(rule, node.tag, own, around)).reduce<Box>(
    (box, rule) => ({ ...box, ...rule.box }),
    {},
  );
}

function applies({ what, inside }: Rule, tag: string, own: string[], around: Around): boolean {
  if (inside !== undefined && !around.classes.has(inside)) return false;
  const [name, className] = what.split('.');
  return (name === '' || name === tag) && (className === undefined || own.includes(className));
}

const isInline = (child: SheetChild): boolean =>
  typeof child === 'string' ||
  (INLINE.has(child.tag) &&
    !String(child.attrs.class ?? '').match(/^(blank|moment|reading|weigh)/));

function typeIn(node: SheetNode, box: Box, around: Around): Around {
  return {
    pt: box.pt ?? around.pt,
    line: box.line ?? around.line,
    bold: box.bold ?? around.bold,
    ...holdersIn(node, around),
  };
}

function holdersIn(node: SheetNode, { classes, key }: Around): Pick<Around, 'classes' | 'key'> {
  const fresh = [...classesOf(node), node.tag].filter(
    (name) => HOLDERS.has(name) && !classes.has(name),
  );
  if (fresh.length === 0) return { classes, key };
  return { classes: new Set([...classes, ...fresh]), key: [key, ...fresh].join(' ') };
}

function outerMm(node: SheetNode, widthMm: number, around: Around): number {
  const box = boxOf(node, around);
  return (box.above ?? 0) + innerMm(node, widthMm, around, box) + (box.below ?? 0);
}

function innerMm(node: SheetNode, widthMm: number, around: Around, box: Box): number {
  if (node.tag === 'svg') return drawingMm(node, widthMm);
  if (node.tag === 'table') return tableMm(node, widthMm, typeIn(node, box, around));
  const inside = typeIn(node, box, around);
  const border = box.border ?? 0;
  const pad = box.padX ?? 0;
  const width = widthMm - 2 * border - pad - (box.indent ?? pad);
  const content =
    box.children === 'on one line'
      ? acrossMm(node.children, Infinity, 0, inside)
      : box.children === 'across'
        ? acrossMm(node.children, width, box.gap ?? 0, inside)
        : box.children === 'two columns'
          ? columnsMm(node.children, width, box.gap ?? 0, inside)
          : downMm(node.children, width, inside);
  return Math.max(box.least ?? 0, content + 2 * (border + (box.padY ?? 0)));
}

/** A drawing says its height itself, in mm, or has that of its view at the whole width. */
function drawingMm(node: SheetNode, widthMm: number): number {
  const said = /^([\d.]+)mm$/.exec(String(node.attrs.height ?? ''));
  if (said) return Number(said[1]);
  const [, , width = 1, height = 1] = String(node.attrs.viewBox ?? '')
    .split(' ')
    .map(Number);
  return (widthMm * height) / width;
}

function downMm(children: readonly SheetChild[], widthMm: number, around: Around): number {
  let sum = 0;
  let line: SheetChild[] = [];
  const flush = () => {
    sum += linesMm(line, widthMm, around);
    line = [];
  };
  for (const child of children) {
    if (isInline(child)) line.push(child);
    else {
      flush();
      sum += outerMm(child as SheetNode, widthMm, around);
    }
  }
  flush();
  return sum;
}

interface Word {
  readonly text: string;
  readonly pt: number;
  readonly bold: boolean;
  /** A space stands before it. */
  readonly parted: boolean;
}

function wordsOf(child: SheetChild, around: Around): Word[] {
  if (typeof child !== 'string') {
    const inside = typeIn(child, boxOf(child, around), around);
    return child.children.flatMap((one) => wordsOf(one, inside));
  }
  return child
    .split(/(?<=\s)(?=\S)/)
    .filter((text) => text.trim() !== '')
    .map((text) => ({ text, pt: around.pt, bold: around.bold, parted: true }));
}

function linesMm(run: readonly SheetChild[], widthMm: number, around: Around): number {
  const words = run.flatMap((child) => wordsOf(child, around));
  if (words.length === 0) return 0;
  const heights: number[] = [];
  let used = 0;
  let tallest = around.pt;
  for (const { text, pt, bold } of words) {
    const width = textWidthMm(text.trimEnd(), { pt, bold });
    if (used > 0 && used + width > widthMm) {
      heights.push(tallest);
      used = 0;
      tallest = around.pt;
    }
    used += textWidthMm(text, { pt, bold });
    tallest = Math.max(tallest, pt);
    // A word that is wider than the line is broken.
    for (; used > widthMm && width > widthMm; used -= widthMm) heights.push(tallest);
  }
  heights.push(tallest);
  return heights.reduce((sum, pt) => sum + pt * around.line * MM_PER_POINT, 0);
}

function acrossMm(
  children: readonly SheetChild[],
  widthMm: number,
  gap: number,
  around: Around,
): number {
  const nodes = children.filter((child) => typeof child !== 'string');
  const each = (widthMm - gap * (nodes.length - 1)) / Math.max(1, nodes.length);
  return Math.max(0, ...nodes.map((node) => outerMm(node, each, around)));
}

/** Filled row by row, as the printer does it. */
function columnsMm(
  children: readonly SheetChild[],
  widthMm: number,
  gap: number,
  around: Around,
): number {
  const nodes = children.filter((child) => typeof child !== 'string');
  const heights = nodes.map((node) => outerMm(node, (widthMm - gap) / 2, around));
  let sum = 0;
  for (let i = 0; i < heights.length; i += 2) sum += Math.max(heights[i]!, heights[i + 1] ?? 0);
  return sum;
}

/** Shares of the columns; equal where the table does not say. */
function columnShares(table: SheetNode): number[] {
  const group = table.children.find(
    (child): child is SheetNode => typeof child !== 'string' && child.tag === 'colgroup',
  );
  const said = (group?.children ?? []).map((col) =>
    typeof col === 'string' ? 0 : Number.parseFloat(String(col.attrs.width)) / 100,
  );
  if (said.length > 0) return said;
  const count = Math.max(1, ...rowsOf(table).map((row) => row.children.length));
  return Array.from({ length: count }, () => 1 / count);
}

/** Rows of a table in order, those of the head first. */
export const rowsOf = (node: SheetNode): SheetNode[] =>
  node.children.flatMap((child) =>
    typeof child === 'string' ? [] : child.tag === 'tr' ? [child] : rowsOf(child),
  );

function tableMm(table: SheetNode, widthMm: number, around: Around): number {
  const shares = columnShares(table);
  return table.children.reduce((sum, child) => {
    if (typeof child === 'string' || child.tag === 'colgroup') return sum;
    if (child.tag === 'caption') return sum + outerMm(child, widthMm, around);
    const inside = typeIn(child, {}, around);
    return sum + rowsOf(child).reduce((all, row) => all + rowMm(row, widthMm, shares, inside), 0);
  }, 0);
}

/** Neighbouring rows share the line between them. */
const LINE_MM = 0.2;

function rowMm(row: SheetNode, widthMm: number, shares: readonly number[], around: Around): number {
  const inside = typeIn(row, boxOf(row, around), around);
  let column = 0;
  let tallest = 0;
  for (const cell of row.children) {
    if (typeof cell === 'string') continue;
    const span = Number(cell.attrs.colspan ?? 1);
    const share = shares.slice(column, column + span).reduce((sum, one) => sum + one, 0);
    column += span;
    tallest = Math.max(tallest, outerMm(cell, widthMm * share, inside));
  }
  return tallest - LINE_MM;
}

/** Heights of the pieces of a table that is broken between its rows: head and caption, then each row. */
export function tablePieces(
  table: SheetNode,
  widthMm: number,
): { readonly headMm: number; readonly rowsMm: readonly number[] } {
  const around = typeIn(table, boxOf(table, BODY), BODY);
  const shares = columnShares(table);
  const body = bodyRows(table);
  const inside = typeIn({ tag: 'tbody', attrs: {}, children: [] }, {}, around);
  const rowsMm = body.map((row) => rowMm(row, widthMm, shares, inside));
  const all = rowsMm.reduce((sum, one) => sum + one, 0);
  return { headMm: heightMm(table, widthMm) - all, rowsMm };
}

export const bodyRows = (table: SheetNode): SheetNode[] =>
  table.children.flatMap((child) =>
    typeof child !== 'string' && child.tag === 'tbody' ? rowsOf(child) : [],
  );
