/** Words along one or more lines, over the moments they belong to. */
import type { Measure } from './boxes.ts';

export interface LineWish {
  readonly id: string;
  readonly x: number;
  readonly texts: readonly string[];
  readonly worth: number;
  readonly bold: boolean;
}

export interface InLine {
  readonly id: string;
  readonly text: string;
  readonly x: number;
  readonly width: number;
  readonly line: number;
  readonly bold: boolean;
}

interface LineRoom {
  readonly width: number;
  readonly lines: number;
  readonly gap: number;
  readonly measure: Measure;
}

/**
 * Those of most worth first: right of their moment, else left of it, on the first line with room; the
 * fullest text that fits. Words never cover each other nor reach out of the width.
 */
export function placeInLines(wishes: readonly LineWish[], room: LineRoom): InLine[] {
  const placed: InLine[] = [];
  const inOrder = [...wishes].sort((a, b) => b.worth - a.worth || a.x - b.x);
  for (const wish of inOrder) {
    const spot = spotFor(wish, placed, room);
    if (spot) placed.push(spot);
  }
  return placed;
}

function spotFor(wish: LineWish, placed: readonly InLine[], room: LineRoom): InLine | null {
  const { gap, measure } = room;
  for (const text of wish.texts) {
    const width = Math.ceil(measure(text, wish.bold));
    for (const x of [wish.x + gap, wish.x - gap - width]) {
      if (x < 0 || x + width > room.width) continue;
      for (let line = 0; line < room.lines; line++) {
        const isFree = placed.every(
          (other) =>
            other.line !== line || x >= other.x + other.width + gap || other.x >= x + width + gap,
        );
        if (isFree) return { id: wish.id, text, x, width, line, bold: wish.bold };
      }
    }
  }
  return null;
}
