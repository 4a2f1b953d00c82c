/** Which stage the keyboard goes to next. */
import type { TimelineItem, TimelineRow } from './items.ts';

const inTime = (row: TimelineRow): TimelineItem[] =>
  [...row.items].sort((a, b) => a.start - b.start || a.end - b.end);

/** The stage of a row that begins nearest to `at`; null when the row has none. */
export function nearestIn(row: TimelineRow, at: number): TimelineItem | null {
  let best: TimelineItem | null = null;
  for (const item of row.items) {
    if (best === null || Math.abs(item.start - at) < Math.abs(best.start - at)) best = item;
  }
  return best;
}

/**
 * The stage to focus after an arrow, Home or End; null when the key is none of these or there is
 * nothing further that way. Left and right go along the row, up and down to the nearest in time.
 */
export function nextItem(
  rows: readonly TimelineRow[],
  current: string | null,
  key: string,
  whole: boolean,
): TimelineItem | null {
  const full = rows.filter(({ items }) => items.length > 0);
  const at = full.findIndex((row) => row.items.some((item) => item.id === current));
  const row = full[Math.max(0, at)];
  if (!row) return null;
  const items = inTime(row);
  if (at < 0) return items[0] ?? null;
  const index = items.findIndex((item) => item.id === current);
  switch (key) {
    case 'ArrowLeft':
      return items[index - 1] ?? null;
    case 'ArrowRight':
      return items[index + 1] ?? null;
    case 'ArrowUp':
    case 'ArrowDown': {
      const next = full[at + (key === 'ArrowUp' ? -1 : 1)];
      return next ? nearestIn(next, items[index]!.start) : null;
    }
    case 'Home':
      return inTime(whole ? full[0]! : row)[0] ?? null;
    case 'End':
      return inTime(whole ? full.at(-1)! : row).at(-1) ?? null;
    default:
      return null;
  }
}
