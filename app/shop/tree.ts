/**
 * A sheet of paper as data: one small tree that becomes HTML text for the printer and elements in
 * the planner's preview, so that both show the same thing.
 */

/** The elements a sheet may hold; anything else would not print the same everywhere. */
export const SHEET_TAGS = [
  'article',
  'section',
  'header',
  'h1',
  'h2',
  'p',
  'ul',
  'ol',
  'li',
  'dl',
  'dt',
  'dd',
  'div',
  'span',
  'strong',
  'small',
  's',
  'table',
  'caption',
  'colgroup',
  'col',
  'thead',
  'tbody',
  'tr',
  'th',
  'td',
  'svg',
  'title',
  'desc',
  'g',
  'rect',
  'line',
  'path',
  'text',
] as const;
export type SheetTag = (typeof SHEET_TAGS)[number];

/** Attribute names a sheet may carry; none of them can run anything. */
export type SheetAttribute =
  | 'id'
  | 'class'
  | 'lang'
  | 'scope'
  | 'colspan'
  | 'rowspan'
  | 'role'
  | 'aria-label'
  | 'aria-labelledby'
  | 'aria-hidden'
  | 'viewBox'
  | 'preserveAspectRatio'
  | 'width'
  | 'height'
  | 'x'
  | 'y'
  | 'x1'
  | 'x2'
  | 'y1'
  | 'y2'
  | 'd'
  | 'rx'
  | 'transform'
  | 'text-anchor'
  | 'font-size';
export type SheetAttributes = Readonly<Partial<Record<SheetAttribute, string | number>>>;

export interface SheetNode {
  readonly tag: SheetTag;
  readonly attrs: SheetAttributes;
  readonly children: readonly SheetChild[];
}
export type SheetChild = SheetNode | string;

/** What the builder takes as children: lists are flattened, null and false are left out. */
export type Content = SheetChild | null | false | readonly Content[];

/** One element of a sheet. */
export function h(tag: SheetTag, attrs: SheetAttributes, ...content: Content[]): SheetNode {
  return { tag, attrs, children: flatten(content) };
}

function flatten(content: readonly Content[]): SheetChild[] {
  const children: SheetChild[] = [];
  for (const item of content) {
    if (item === null || item === false || item === '') continue;
    if (isList(item)) children.push(...flatten(item));
    else children.push(item);
  }
  return children;
}

const isList = (item: Content): item is readonly Content[] => Array.isArray(item);

const EMPTY_TAGS: ReadonlySet<SheetTag> = new Set(['col', 'rect', 'line', 'path']);

/** The tree as HTML text, every text and attribute escaped. */
export function toHtml(node: SheetChild): string {
  if (typeof node === 'string') return escapeHtml(node);
  const attributes = Object.entries(node.attrs)
    .map(([name, value]) => ` ${name}="${escapeHtml(String(value))}"`)
    .join('');
  if (node.tag === 'col') return `<col${attributes}>`;
  if (EMPTY_TAGS.has(node.tag)) return `<${node.tag}${attributes}/>`;
  return `<${node.tag}${attributes}>${node.children.map(toHtml).join('')}</${node.tag}>`;
}

/** All text of a tree in reading order, pieces parted by spaces. */
export function textOf(node: SheetChild): string {
  if (typeof node === 'string') return node;
  return node.children
    .map((child) => textOf(child).trim())
    .filter((text) => text !== '')
    .join(' ');
}

const ESCAPES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

export function escapeHtml(text: string): string {
  return text.replace(/[&<>"']/g, (character) => ESCAPES[character]!);
}
