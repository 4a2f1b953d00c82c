/** What stands on paper already: a short hash for each line, to print only what has changed since. */
import type { Build } from '../document/schema.ts';
import { wrapSheet, type Sheet } from './parts.ts';
import { changedWords } from './paperWords.ts';
import { h, textOf, type SheetChild, type SheetNode } from './tree.ts';

type PrintedSheets = NonNullable<NonNullable<Build['printed']>['sheets']>;

/** What a sheet says, line by line, as it is noted in the document when it is printed. */
export const printedSheet = (sheet: Sheet): PrintedSheets[number] => ({
  id: sheet.id,
  lines: [...new Set(linesOf(sheet).map(hashOf))],
});

/** All that is on paper now: what was just printed, and what was before and still holds its place. */
export function printedSheets(
  sheets: readonly Sheet[],
  before: PrintedSheets | undefined,
): PrintedSheets {
  const fresh = sheets.map(printedSheet);
  const ids = new Set(fresh.map(({ id }) => id));
  return [...(before ?? []).filter(({ id }) => !ids.has(id)), ...fresh];
}

const linesOf = ({ body }: Sheet): string[] => lineNodes(body).map(textOf);

/** Rows of tables and what stands outside of them; drawings say nothing that no line says. */
function lineNodes(node: SheetNode): SheetNode[] {
  if (node.tag === 'svg') return [];
  if (isLine(node)) return [node];
  return node.children.flatMap((child) => (typeof child === 'string' ? [] : lineNodes(child)));
}

const LINES: ReadonlySet<SheetNode['tag']> = new Set(['tr', 'p', 'li', 'h1', 'h2']);
const isLine = (node: SheetNode): boolean =>
  (LINES.has(node.tag) && !holdsLines(node)) ||
  node.children.some((child) => typeof child === 'string');

/** The days of a week stand in one row, each with lines of its own. */
const holdsLines = ({ children }: SheetNode): boolean =>
  children.some(
    (child) =>
      typeof child !== 'string' &&
      (String(child.attrs.class) === 'by-day-line' || holdsLines(child)),
  );

/**
 * The sheets that say something else than was printed, their new lines marked, and those never printed.
 * @param printed what the document noted; undefined or null: nothing
 * @param at when it was printed, in words
 */
export function changedSheets(
  sheets: readonly Sheet[],
  printed: PrintedSheets | null | undefined,
  at: string,
): Sheet[] {
  const before = new Map((printed ?? []).map(({ id, lines }) => [id, new Set(lines)]));
  return sheets.flatMap((sheet) => {
    const old = before.get(sheet.id);
    if (old === undefined) return [sheet];
    const now = new Set(linesOf(sheet).map(hashOf));
    const fresh = [...now].filter((line) => !old.has(line)).length;
    const gone = [...old].filter((line) => !now.has(line)).length;
    return fresh === 0 && gone === 0 ? [] : [marked(sheet, old, changedWords(at, fresh, gone))];
  });
}

function marked(sheet: Sheet, old: ReadonlySet<string>, note: string): Sheet {
  const blocks = [
    h('p', { class: 'changed-note' }, note),
    ...sheet.blocks.map((block) => markLines(block, old)),
  ];
  const head = markLines(sheet.head, old);
  const upright = sheet.upright && marked(sheet.upright, old, note);
  return { ...sheet, head, blocks, body: wrapSheet({ ...sheet, head }, blocks), upright };
}

function markLines(node: SheetNode, old: ReadonlySet<string>): SheetNode {
  if (node.tag === 'svg') return node;
  if (isLine(node)) {
    if (old.has(hashOf(textOf(node)))) return node;
    const className = `${String(node.attrs.class ?? '')} changed`.trim();
    return { ...node, attrs: { ...node.attrs, class: className } };
  }
  const children = node.children.map((child): SheetChild =>
    typeof child === 'string' ? child : markLines(child, old),
  );
  return { ...node, children };
}

/** FNV-1a of 32 bits, published by Fowler, Noll and Vo: enough to tell one line from another. */
function hashOf(text: string): string {
  let hash = 0x811c9dc5;
  for (let i = 0; i < text.length; i++) {
    hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193) >>> 0;
  }
  return hash.toString(36);
}
