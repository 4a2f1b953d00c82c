/**
 * What is free of every resource over time: steps in a linked list, so that a booking costs no
 * shifting and a search begins where the stage before it ended. Bookings are taken back in the
 * reverse order.
 *
 * All steps lie in one array, `stride` numbers each: minute, next step, previous step, then what is free
 * in words. A step is named by its place in the array.
 */
import type { Lanes, Need } from './lanes.ts';
import { FAR, NEVER } from './length.ts';

/** First step: free since ever. */
export const BEGINNING = 0;
/** Places of next step, previous step and the first word within a step; its minute comes first. */
export const NEXT = 1;
export const PREVIOUS = 2;
export const FREE = 3;

export class Bookings {
  protected readonly words: number;
  protected readonly steps: Int32Array;
  private readonly stride: number;
  /** Last step: free for ever. */
  protected readonly last: number;
  private readonly idle: Int32Array;
  private top: number;
  /** Bookings made, newest last: first step, step after the last, what was taken, how often. */
  private readonly first: Int32Array;
  private readonly after: Int32Array;
  private readonly taken: Need[] = [];
  private readonly sign: Int8Array;
  private readonly topBefore: Int32Array;
  /** Steps in force at the start and at the end of the last booking or fit. */
  stepAtStart = BEGINNING;
  stepAtEnd = BEGINNING;

  /** @param most bookings that stand at once */
  constructor({ words, idle }: Lanes, most: number) {
    this.words = words;
    this.idle = idle;
    this.stride = FREE + words;
    this.last = this.stride;
    this.top = 2 * this.stride;
    this.steps = new Int32Array((2 * most + 2) * this.stride);
    this.first = new Int32Array(most);
    this.after = new Int32Array(most);
    this.sign = new Int8Array(most);
    this.topBefore = new Int32Array(most);
    this.steps[BEGINNING] = NEVER;
    this.steps[this.last] = FAR;
    this.steps[this.last + NEXT] = this.last;
    this.clear();
  }

  clear(): void {
    const { idle, last, steps } = this;
    this.top = 2 * this.stride;
    this.taken.length = 0;
    steps[BEGINNING + NEXT] = last;
    steps[last + PREVIOUS] = BEGINNING;
    steps.set(idle, BEGINNING + FREE);
    steps.set(idle, last + FREE);
  }

  /** Bookings that stand. */
  get count(): number {
    return this.taken.length;
  }

  /** The step in force at a minute, looked for from another. */
  find(minute: number, from: number): number {
    const { steps, last } = this;
    let step = from;
    while (steps[step]! > minute) step = steps[step + PREVIOUS]!;
    for (let n = steps[step + NEXT]!; n !== last && steps[n]! <= minute; n = steps[step + NEXT]!) {
      step = n;
    }
    return step;
  }

  private split(minute: number, step: number): number {
    const { steps, words } = this;
    if (steps[step] === minute) return step;
    const made = this.top;
    this.top += this.stride;
    const n = steps[step + NEXT]!;
    steps[made] = minute;
    steps[made + NEXT] = n;
    steps[made + PREVIOUS] = step;
    steps[step + NEXT] = made;
    steps[n + PREVIOUS] = made;
    for (let w = FREE; w < FREE + words; w++) steps[made + w] = steps[step + w]!;
    return made;
  }

  /**
   * Takes (sign 1) or gives back (sign -1) from `start` to `end`. The steps at both are kept.
   * @param from a step to look from
   */
  book(start: number, end: number, need: Need, sign: 1 | -1, from: number): void {
    const topBefore = this.top;
    const first = this.split(start, this.find(start, from));
    const after = end >= FAR ? this.last : this.split(end, this.find(end, first));
    this.change(first, after, need, sign);
    this.note(topBefore, first, after, need, sign);
  }

  /**
   * Takes an amount of one word from a start to an end.
   * @param found step in force at the start
   * @param before step in force at the minute before the end
   */
  protected bookWord(
    start: number,
    end: number,
    found: number,
    before: number,
    { word, amount, need }: { readonly word: number; readonly amount: number; readonly need: Need },
  ): void {
    const { steps } = this;
    const topBefore = this.top;
    const first = this.split(start, found);
    const ending = before === found ? first : before;
    const beyond = steps[ending + NEXT]!;
    const after = steps[beyond] === end ? beyond : this.split(end, ending);
    const at = FREE + word;
    for (let step = first; step !== after; step = steps[step + NEXT]!) steps[step + at]! -= amount;
    this.note(topBefore, first, after, need, 1);
  }

  private note(topBefore: number, first: number, after: number, need: Need, sign: 1 | -1): void {
    const k = this.taken.length;
    this.topBefore[k] = topBefore;
    this.first[k] = first;
    this.after[k] = after;
    this.sign[k] = sign;
    this.taken.push(need);
    this.stepAtStart = first;
    this.stepAtEnd = after;
  }

  private change(first: number, after: number, { amounts }: Need, sign: number): void {
    const { steps, words } = this;
    for (let step = first; step !== after; step = steps[step + NEXT]!) {
      for (let w = 0; w < words; w++) steps[step + FREE + w]! -= sign * amounts[w]!;
    }
  }

  /** Takes back the newest booking. */
  undo(): void {
    const need = this.taken.pop()!;
    const k = this.taken.length;
    this.change(this.first[k]!, this.after[k]!, need, -this.sign[k]!);
    const { steps, stride } = this;
    while (this.top > this.topBefore[k]!) {
      this.top -= stride;
      const [n, p] = [steps[this.top + NEXT]!, steps[this.top + PREVIOUS]!];
      steps[p + NEXT] = n;
      steps[n + PREVIOUS] = p;
    }
  }

  protected lacks(step: number, { amounts, mask }: Need): boolean {
    const { steps, words } = this;
    for (let w = 0; w < words; w++) {
      const guards = mask[w]!;
      if (((steps[step + FREE + w]! - amounts[w]!) & guards) !== guards) return true;
    }
    return false;
  }

  /** End of the first step in [start, end) with too little free; -1 when there is enough. */
  conflict(start: number, end: number, need: Need, from: number): number {
    if (end <= start) return -1;
    const { steps } = this;
    for (let step = this.find(start, from); steps[step]! < end; step = steps[step + NEXT]!) {
      if (this.lacks(step, need)) return steps[steps[step + NEXT]!]!;
    }
    return -1;
  }

  /** Start of the last step in [start, end) with too little free; FAR when there is enough. */
  lastConflict(start: number, end: number, need: Need, from: number): number {
    if (end <= start) return FAR;
    const { steps } = this;
    for (let step = this.find(end - 1, from); ; step = steps[step + PREVIOUS]!) {
      if (this.lacks(step, need)) return steps[step]!;
      if (steps[step]! <= start) return FAR;
    }
  }
}
