/** Stacks the stages of a row in tracks, so that no bar covers another one. */
import type { TimelineItem } from './items.ts';

export interface Track {
  readonly item: TimelineItem;
  readonly track: number;
  readonly x: number;
  readonly width: number;
}

interface PackOptions {
  readonly x: (minute: number) => number;
  /** Width of the whole drawing. */
  readonly width: number;
  readonly leastPx: number;
  /** Px beyond its bar that a stage would like for its words. */
  readonly wishPx: (item: TimelineItem) => number;
  /** Tracks that words may open; bars open as many as they need. */
  readonly most: number;
}

/** Bars may touch; a gap of one pixel keeps them apart to look at. */
const HAIR_PX = 1;

/**
 * In order of time each stage takes the first track where bar and words are free, then a new one while
 * there are few, then one where its bar alone is free.
 */
export function packRow(items: readonly TimelineItem[], options: PackOptions): Track[] {
  const { x, leastPx, most, wishPx } = options;
  const ends: { bar: number; words: number }[] = [];
  return [...items]
    .sort((a, b) => a.start - b.start || b.end - a.end)
    .map((item) => {
      const width = Math.max(leastPx, x(item.end) - x(item.start));
      const at = Math.max(0, Math.min(x(item.start), options.width - width));
      const free = ends.findIndex(({ words }) => words + HAIR_PX <= at);
      const bare = ends.findIndex(({ bar }) => bar + HAIR_PX <= at);
      const track = free >= 0 ? free : ends.length < most || bare < 0 ? ends.length : bare;
      const end = at + width;
      ends[track] = { bar: end, words: Math.max(end + wishPx(item), ends[track]?.words ?? 0) };
      return { item, track, x: at, width };
    });
}

export const tracksOf = (packed: readonly Track[]): number =>
  packed.reduce((most, { track }) => Math.max(most, track + 1), 0);
