/** An edit that was taken back, as the field it was typed into shows it. */
import type { Fault } from '../../app/document/faults.ts';
import { getIn } from '../../app/document/edit/path.ts';
import { faultWords } from '../../app/document/faultWords.ts';
import type { Refusal } from './saver.ts';
import { NEWS } from '../words/news.ts';

const MOST_SHOWN = 2;

/** The reasons in one line, the first ones in full. */
export function refusalWords(faults: readonly Fault[]): string {
  const shown = faults.slice(0, MOST_SHOWN).map(faultWords);
  const more = faults.length - shown.length;
  return [...shown, ...(more > 0 ? [NEWS.moreReasons(more)] : [])].join('; ');
}

/**
 * @param path of the field that asks
 * @returns the value that was typed there and why it was not taken; null for every other field
 */
export function refusedAt(
  refusal: Refusal | null,
  path: string,
): { readonly value: unknown; readonly fault: string } | null {
  if (refusal === null || refusal.change.field !== path) return null;
  const value = getIn(refusal.change.document, path);
  return { value, fault: NEWS.notTakenBecause(refusalWords(refusal.faults)) };
}
