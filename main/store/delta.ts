/**
 * A text as its difference to another one: pieces copied from the base, and texts between them.
 * The bytes of the text come back exactly, so that a checksum over it still holds.
 */

/** A piece of the base by offset and length, or a text of its own. */
export type Piece = string | readonly [offset: number, length: number];

/** Shorter matches cost more than the text they stand for. */
const BLOCK = 24;

/** The pieces that make `text` out of `base`. Grows with the length of both, never with their product. */
export function difference(base: string, text: string): Piece[] {
  const head = commonHead(base, text);
  const tail = commonTail(base, text, head);
  const pieces: Piece[] = [];
  if (head > 0) pieces.push([0, head]);
  between(base, text, head, text.length - tail, pieces);
  if (tail > 0) pieces.push([base.length - tail, tail]);
  return pieces;
}

/** @throws RangeError when the pieces do not belong to this base */
export function applied(base: string, pieces: readonly Piece[]): string {
  let text = '';
  for (const piece of pieces) {
    if (typeof piece === 'string') {
      text += piece;
      continue;
    }
    const [offset, length] = piece;
    if (offset < 0 || length < 0 || offset + length > base.length) {
      throw new RangeError('A piece lies outside of its base');
    }
    text += base.slice(offset, offset + length);
  }
  return text;
}

/** Pieces of the part from `at` to `end`: blocks of the base found by their text, and what lies between. */
function between(base: string, text: string, at: number, end: number, pieces: Piece[]): void {
  if (at >= end) return;
  const blocks = new Map<string, number>();
  for (let offset = base.length - BLOCK; offset >= 0; offset -= BLOCK) {
    blocks.set(base.slice(offset, offset + BLOCK), offset);
  }
  let own = at;
  let i = at;
  while (i + BLOCK <= end) {
    const found = blocks.get(text.slice(i, i + BLOCK));
    if (found === undefined) {
      i += 1;
      continue;
    }
    let [from, start, length] = [found, i, BLOCK];
    while (start > own && from > 0 && base[from - 1] === text[start - 1]) {
      from -= 1;
      start -= 1;
      length += 1;
    }
    while (start + length < end && base[from + length] === text[start + length]) length += 1;
    if (start > own) pieces.push(text.slice(own, start));
    pieces.push([from, length]);
    own = i = start + length;
  }
  if (own < end) pieces.push(text.slice(own, end));
}

function commonHead(a: string, b: string): number {
  const most = Math.min(a.length, b.length);
  let n = 0;
  while (n < most && a[n] === b[n]) n += 1;
  return n;
}

function commonTail(a: string, b: string, head: number): number {
  const most = Math.min(a.length, b.length) - head;
  let n = 0;
  while (n < most && a[a.length - 1 - n] === b[b.length - 1 - n]) n += 1;
  return n;
}
