/** Words that stand loose in the markup of a Svelte component, where a table should have them. */
import { parse, type AST } from 'svelte/compiler';

/** Attributes that people read or hear. */
const LABELS = new Set(['label', 'aria-label', 'title', 'placeholder', 'hint', 'alt']);
/** Signs of units and quantities, which are the same in every language. */
const SIGNS = new Set(
  'C K m m² m³ mm mm² mm⁴ g kg t h min s d N kN MPa GPa kPa Pa W V A Tg D x g/m² kg/m² N/mm'.split(
    ' ',
  ),
);

interface Branch {
  readonly type: string;
  readonly [key: string]: unknown;
}

const isBranch = (value: unknown): value is Branch =>
  typeof value === 'object' && value !== null && 'type' in value;

const hasWords = (text: string): boolean =>
  text.split(/[^\p{L}²³⁴/]+/u).some((word) => /\p{L}/u.test(word) && !SIGNS.has(word));

/** Words that an expression may come to: itself, a branch of a choice, a part of a template. */
function wordsOf(expression: unknown): string[] {
  if (!isBranch(expression)) return [];
  const { type, value, quasis, consequent, alternate, left, right, operator } = expression;
  if (type === 'Literal') return typeof value === 'string' && hasWords(value) ? [value] : [];
  if (type === 'TemplateLiteral') {
    return (quasis as { value: { raw: string } }[]).map((part) => part.value.raw).filter(hasWords);
  }
  if (type === 'ConditionalExpression') return [...wordsOf(consequent), ...wordsOf(alternate)];
  if (type === 'LogicalExpression') return [...wordsOf(left), ...wordsOf(right)];
  if (type === 'BinaryExpression' && operator === '+') return [...wordsOf(left), ...wordsOf(right)];
  return [];
}

/** Words in the value of an attribute. */
function inAttribute({ name, value }: AST.Attribute): string[] {
  if (!LABELS.has(name) || value === true) return [];
  const parts = Array.isArray(value) ? value : [value];
  return parts.flatMap((part) =>
    part.type === 'Text' ? (hasWords(part.data) ? [part.data] : []) : wordsOf(part.expression),
  );
}

/** @returns each piece of text in the markup that holds words; empty where tables hold all */
export function looseWords(source: string): string[] {
  const found: string[] = [];
  const look = (value: unknown): void => {
    if (Array.isArray(value)) value.forEach(look);
    if (!isBranch(value)) return;
    if (value.type === 'StyleDirective') return;
    if (value.type === 'Attribute') found.push(...inAttribute(value as unknown as AST.Attribute));
    else if (value.type === 'Text') {
      const text = (value['data'] as string).trim();
      if (hasWords(text)) found.push(text);
    } else if (value.type === 'ExpressionTag') found.push(...wordsOf(value['expression']));
    else Object.values(value).forEach(look);
  };
  look(parse(source, { modern: true }).fragment);
  return found;
}
