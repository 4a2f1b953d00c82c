/** Boxes of the drawing, and words placed among them so that none covers another. */

export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** Width in px of a text as it will be drawn. */
export type Measure = (text: string, bold: boolean) => number;

export interface PlacedCaption extends Box {
  readonly text: string;
  /** It stands on its own shape. */
  readonly inside: boolean;
  readonly bold: boolean;
}

export const intersects = (a: Box, b: Box): boolean =>
  a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;

/** Something that wants words beside it. */
export interface Wanting {
  readonly id: string;
  /** What it is drawn as. */
  readonly shape: Box;
  /** How far to the right its drawing reaches, the tail of a cure included. */
  readonly reach: number;
  readonly texts: readonly string[];
  readonly worth: number;
  readonly bold: boolean;
  /** Where the words may stand, in order of liking. */
  readonly sides: readonly Side[];
  /** Where its sides are taken, the words may stand beyond what is in the way. */
  readonly slides?: boolean;
  /** Top and height of the line of words. */
  readonly line: { readonly y: number; readonly height: number };
}
export type Side = 'inside' | 'right' | 'left';

interface Room {
  readonly width: number;
  readonly gap: number;
  readonly measure: Measure;
}

/** Boxes by the columns of the drawing that they touch, so that a long row is not searched whole. */
class Crowd {
  readonly #columns = new Map<number, Box[]>();

  constructor(boxes: readonly Box[]) {
    for (const box of boxes) this.add(box);
  }

  add(box: Box): void {
    for (const column of columnsOf(box)) {
      const own = this.#columns.get(column);
      if (own) own.push(box);
      else this.#columns.set(column, [box]);
    }
  }

  /** A box that this one would cover, its own shape left out. */
  inTheWay(box: Box, own: Box): Box | undefined {
    for (const column of columnsOf(box)) {
      const found = this.#columns
        .get(column)
        ?.find((other) => other !== own && intersects(box, other));
      if (found) return found;
    }
    return undefined;
  }
}

const COLUMN_PX = 160;

function* columnsOf({ x, width }: Box): Iterable<number> {
  const last = Math.floor((x + width) / COLUMN_PX);
  for (let column = Math.floor(x / COLUMN_PX); column <= last; column++) yield column;
}

/**
 * Words for as many as there is room for, those of most worth first; each takes the fullest of its texts
 * that covers neither another text nor a shape that is not its own.
 */
export function placeCaptions(
  wanting: readonly Wanting[],
  shapes: readonly Box[],
  room: Room,
): Map<string, PlacedCaption> {
  const crowd = new Crowd(shapes);
  const placed = new Map<string, PlacedCaption>();
  const inOrder = [...wanting].sort((a, b) => b.worth - a.worth || a.shape.x - b.shape.x);
  for (const one of inOrder) {
    const caption = firstFree(one, crowd, room);
    if (!caption) continue;
    crowd.add(withGap(caption, room.gap));
    placed.set(one.id, caption);
  }
  return placed;
}

const withGap = (box: Box, gap: number): Box => ({
  ...box,
  x: box.x - gap / 2,
  width: box.width + gap,
});

function firstFree(one: Wanting, crowd: Crowd, room: Room): PlacedCaption | null {
  for (const text of one.texts) {
    const width = Math.ceil(room.measure(text, one.bold));
    const at = (x: number): Box => ({ x, y: one.line.y, width, height: one.line.height });
    for (const side of one.sides) {
      let x = xOf(one, side, width, room);
      while (x !== null && x >= 0 && x + width <= room.width) {
        const blocked = crowd.inTheWay(at(x), one.shape);
        if (!blocked) return { ...at(x), text, inside: side === 'inside', bold: one.bold };
        if (!one.slides || side === 'inside') break;
        x = side === 'right' ? blocked.x + blocked.width + room.gap : blocked.x - room.gap - width;
      }
    }
  }
  return null;
}

function xOf({ shape, reach }: Wanting, side: Side, width: number, { gap }: Room): number | null {
  switch (side) {
    case 'inside':
      return width + 2 * gap <= shape.width ? shape.x + gap : null;
    case 'right':
      return Math.max(reach, shape.x + shape.width) + gap;
    case 'left':
      return shape.x - gap - width;
  }
}

/** Where words inside a wide shape begin while its left end is out of the window. */
export function insideX(caption: PlacedCaption, shape: Box, edge: number): number {
  if (!caption.inside) return caption.x;
  const margin = caption.x - shape.x;
  const most = shape.x + shape.width - margin - caption.width;
  return Math.max(caption.x, Math.min(edge + margin, most));
}
