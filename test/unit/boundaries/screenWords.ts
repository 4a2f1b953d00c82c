/** Words that stand loose in components and code of the screen, where a table should have them. */
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

/** Two words in a row, which no name, key or selector has. */
const SENTENCE = /\p{L}{2,},? \p{L}{2,}/u;
/** Lists of fonts, and style for paper. */
const STYLE = /sans-serif|!important|^[a-z, ]+\[/;
/** Faults of the program are for its makers; types and imports are never shown. */
const NEVER_SHOWN = new Set(['ThrowStatement', 'ImportDeclaration', 'TSLiteralType']);

/** @param source of a component, whose script is read, or of a module */
export function looseSentences(source: string, isModule: boolean): string[] {
  const found: string[] = [];
  const take = (text: string): void => {
    if (SENTENCE.test(text) && !STYLE.test(text)) found.push(text);
  };
  const look = (value: unknown): void => {
    if (Array.isArray(value)) value.forEach(look);
    if (!isBranch(value) || NEVER_SHOWN.has(value.type)) return;
    if (value.type === 'Literal') take(String(value['value']));
    else if (value.type === 'TemplateElement') take((value['value'] as { raw: string }).raw);
    else Object.values(value).forEach(look);
  };
  const script = isModule ? `<script lang="ts">${source}</script>` : source;
  look(parse(script, { modern: true }).instance?.content);
  return found;
}
