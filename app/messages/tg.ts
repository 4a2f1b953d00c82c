/** How hot something may get, in words: the only place that puts a Tg into a sentence. */
import { plain } from './words.ts';

/**
 * 'about 48 °C'. A Tg at or below the room says that the resin is hardly cured: no number then, as
 * nobody can act on it.
 * @param tgC null: not known
 * @param roomC the room by day
 */
export function tgWords(tgC: number | null, roomC: number): string {
  if (tgC === null) return 'not known';
  return tgC <= roomC ? 'not cured enough to tell' : `about ${plain(tgC, 0)} °C`;
}

/** 'will stand about 48 °C', 'is not cured enough to tell'. */
export function tgLimitText(tgC: number | null, roomC: number): string {
  return tgC !== null && tgC > roomC
    ? `will stand ${tgWords(tgC, roomC)}`
    : `is ${tgWords(tgC, roomC)}`;
}
