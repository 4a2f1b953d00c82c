/** Lines of a text that comes in pieces, as bytes, and the words and numbers in them. */
import { MeshFault } from './weld.ts';

const NEWLINE = 10;
const RETURN = 13;

/** Longest line kept: a face of a few thousand corners. */
const LONGEST_LINE = 65_536;

/** Calls `line(bytes, from, to)` for every line; no strings are made. */
export class LineFeed {
  readonly #line: (bytes: Uint8Array, from: number, to: number) => void;
  #rest: Uint8Array = new Uint8Array(0);
  /** Number of the line in hand, from 1. */
  number = 0;

  constructor(line: (bytes: Uint8Array, from: number, to: number) => void) {
    this.#line = line;
  }

  push(chunk: Uint8Array): void {
    let from = 0;
    if (this.#rest.length > 0) {
      const end = lineEnd(chunk, 0);
      this.#keep(chunk, 0, end);
      if (end === chunk.length) return;
      this.#emit(this.#rest, 0, this.#rest.length);
      this.#rest = new Uint8Array(0);
      from = end + 1;
    }
    for (;;) {
      const end = lineEnd(chunk, from);
      if (end === chunk.length) break;
      this.#emit(chunk, from, end);
      from = end + 1;
    }
    if (from < chunk.length) this.#keep(chunk, from, chunk.length);
  }

  finish(): void {
    if (this.#rest.length > 0) this.#emit(this.#rest, 0, this.#rest.length);
    this.#rest = new Uint8Array(0);
  }

  #emit(bytes: Uint8Array, from: number, to: number): void {
    this.number++;
    this.#line(bytes, from, to);
  }

  #keep(chunk: Uint8Array, from: number, to: number): void {
    const joined = new Uint8Array(this.#rest.length + to - from);
    if (joined.length > LONGEST_LINE) {
      throw new MeshFault('not-a-mesh', `Line ${this.number + 1} is too long for a mesh file.`);
    }
    joined.set(this.#rest);
    joined.set(chunk.subarray(from, to), this.#rest.length);
    this.#rest = joined;
  }
}

/** Old Macintosh files end lines with a return alone; a line of nothing in between does no harm. */
function lineEnd(bytes: Uint8Array, from: number): number {
  let at = from;
  while (at < bytes.length && bytes[at] !== NEWLINE && bytes[at] !== RETURN) at++;
  return at;
}

/** Reads words and numbers off one line. */
export class LineReader {
  #bytes: Uint8Array = new Uint8Array(0);
  #at = 0;
  #end = 0;
  /** Digits of the number read last as a whole number, and the power of ten of the last of them. */
  #mantissa = 0;
  #power = 0;

  start(bytes: Uint8Array, from: number, to: number): void {
    this.#bytes = bytes;
    this.#at = from;
    this.#end = to;
    this.skipSpace();
  }

  get done(): boolean {
    return this.#at >= this.#end;
  }

  /** The byte in hand, or 0 at the end of the line. */
  get byte(): number {
    return this.#at < this.#end ? this.#bytes[this.#at]! : 0;
  }

  next(): void {
    this.#at++;
  }

  skipSpace(): void {
    while (this.#at < this.#end && this.#bytes[this.#at]! <= 32) this.#at++;
  }

  /** Passes over the word in hand, and the space after it; true when it is this one, in any case. */
  word(lower: string): boolean {
    let i = 0;
    let same = true;
    while (this.#at < this.#end && this.#bytes[this.#at]! > 32) {
      // Setting bit 5 makes a letter small.
      if ((this.#bytes[this.#at]! | 32) !== lower.charCodeAt(i)) same = false;
      i++;
      this.#at++;
    }
    this.skipSpace();
    return same && i === lower.length;
  }

  /** A whole number, with a sign or not; NaN when there is none. */
  integer(): number {
    const negative = this.byte === 45;
    if (negative) this.#at++;
    let value = NaN;
    for (let digit = this.byte - 48; digit >= 0 && digit <= 9; digit = this.byte - 48) {
      value = (Number.isNaN(value) ? 0 : value) * 10 + digit;
      this.#at++;
    }
    return negative ? -value : value;
  }

  /** Three decimal numbers; the steps to which they are written go to `steps`. NaN where one is missing. */
  point(steps: { step(axis: 0 | 1 | 2, size: number): void }): [number, number, number] {
    const coordinate = (axis: 0 | 1 | 2): number => {
      const value = this.number();
      if (value !== 0) steps.step(axis, this.#step());
      return value;
    };
    return [coordinate(0), coordinate(1), coordinate(2)];
  }

  /** Size of the last digit that is not 0, since writers pad coordinates with zeros. */
  #step(): number {
    let [digits, power] = [this.#mantissa, this.#power];
    for (; digits > 0 && digits % 10 === 0; digits /= 10) power++;
    return 10 ** power;
  }

  /** A decimal number, and the space after it; NaN when there is none or it runs into something else. */
  number(): number {
    const negative = this.byte === 45;
    if (negative || this.byte === 43) this.#at++;
    let mantissa = 0;
    let digits = 0;
    let power = 0;
    let behindPoint = false;
    for (; this.#at < this.#end; this.#at++) {
      const byte = this.#bytes[this.#at]!;
      if (byte === 46 && !behindPoint) behindPoint = true;
      else if (byte >= 48 && byte <= 57) {
        digits++;
        // Beyond 2^53 further digits only move the point.
        if (mantissa < 9e14) {
          mantissa = mantissa * 10 + (byte - 48);
          if (behindPoint) power--;
        } else if (!behindPoint) power++;
      } else break;
    }
    if (digits === 0) return NaN;
    if ((this.byte | 32) === 101) {
      this.#at++;
      if (this.byte === 43) this.#at++;
      const exponent = this.integer();
      if (Number.isNaN(exponent)) return NaN;
      power += exponent;
    }
    if (this.#at < this.#end && this.#bytes[this.#at]! > 32) return NaN;
    this.skipSpace();
    this.#mantissa = mantissa;
    this.#power = power;
    const size = power < 0 ? mantissa / 10 ** -power : mantissa * 10 ** power;
    return negative ? -size : size;
  }
}
