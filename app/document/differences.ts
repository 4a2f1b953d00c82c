/** What differs between two states of a build, in the words of its fields. */
import { fieldWords, KEPT, valueWords } from './fields.ts';
import type { Draft } from './edit/path.ts';

export interface Difference {
  readonly path: string;
  readonly field: string;
  /** In few words; null where it was not there. */
  readonly before: string | null;
  readonly after: string | null;
}

/** No person changed these. */
const LEFT_OUT: ReadonlySet<string> = new Set(KEPT);
/** Longest value that is told in full. */
const LONGEST = 60;

/**
 * @param before an earlier state of the build
 * @param after a later one
 * @returns each field that differs, in the order of the document
 */
export function differences(before: Draft, after: Draft): readonly Difference[] {
  const keys = [...new Set([...Object.keys(before), ...Object.keys(after)])];
  return keys
    .filter((key) => !LEFT_OUT.has(key))
    .flatMap((key) => between(key, (before as Tree)[key], (after as Tree)[key]));
}

type Tree = Readonly<Record<string, unknown>>;

const isTree = (value: unknown): value is Tree =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

function between(path: string, before: unknown, after: unknown): Difference[] {
  if (JSON.stringify(before) === JSON.stringify(after)) return [];
  if (isTree(before) && isTree(after)) {
    const keys = [...new Set([...Object.keys(before), ...Object.keys(after)])];
    return keys.flatMap((key) => between(`${path}.${key}`, before[key], after[key]));
  }
  if (Array.isArray(before) && Array.isArray(after) && before.length === after.length) {
    return before.flatMap((item, i) => between(`${path}[${i}]`, item, after[i] as unknown));
  }
  return [{ path, field: wordsOf(path), before: said(before), after: said(after) }];
}

/** Of the field itself, or of the nearest one that it is part of. */
function wordsOf(path: string): string {
  const words = fieldWords(path);
  if (words !== path) return words;
  const cut = Math.max(path.lastIndexOf('.'), path.lastIndexOf('['));
  return cut <= 0 ? path : wordsOf(path.slice(0, cut));
}

function said(value: unknown): string | null {
  if (value === undefined) return null;
  const words = valueWords(value);
  if (words.length <= LONGEST) return words;
  return Array.isArray(value) ? `${value.length} entries` : `${words.slice(0, LONGEST - 1)}…`;
}
