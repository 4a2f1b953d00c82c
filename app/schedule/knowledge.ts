/** What a search knows at one node of its tree, as flat arrays over pairs of stages. */

/** What is known at one node: lags, windows, and orders decided. */
export class Knowledge {
  readonly d: Int32Array;
  readonly earliest: Int32Array;
  readonly latest: Int32Array;
  /** Bit 1: i before j. Bit 2: i is not before j. Of pairs whose minutes depend on the moment. */
  readonly order: Uint8Array;

  constructor(n: number) {
    this.d = new Int32Array(n * n);
    this.earliest = new Int32Array(n);
    this.latest = new Int32Array(n);
    this.order = new Uint8Array(n * n);
  }

  set(other: Knowledge): void {
    this.d.set(other.d);
    this.earliest.set(other.earliest);
    this.latest.set(other.latest);
    this.order.set(other.order);
  }
}

/** Bits of `order`: i ends before j begins; j begins before i has ended. */
export const BEFORE = 1;
export const NOT_BEFORE = 2;
