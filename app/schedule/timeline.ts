/**
 * What is free of every resource over time: steps in a linked list, so that a booking costs no
 * shifting and a search begins where the stage before it ended. Bookings are taken back in the
 * reverse order.
 */
import type { PlanMode } from './compile.ts';
import type { Lanes, Need } from './lanes.ts';
import { endFrom, FAR, NEVER, startFrom, startToEndBy, startUpTo } from './length.ts';

/** First step: free since ever. */
export const BEGINNING = 0;
const END = 1;

export class Timeline {
  private readonly words: number;
  private readonly idle: Int32Array;
  private readonly time: Int32Array;
  private readonly next: Int32Array;
  private readonly previous: Int32Array;
  /** `free[step * words + w]` */
  private readonly free: Int32Array;
  private top = 2;
  /** Bookings made, newest last: first step, step after the last, what was taken, how often. */
  private readonly first: Int32Array;
  private readonly after: Int32Array;
  private readonly taken: Need[] = [];
  private readonly sign: Int8Array;
  private readonly topBefore: Int32Array;
  /** Of the last fit: its end, and the steps in force at its start and at its end. */
  end = 0;
  stepAtStart = BEGINNING;
  stepAtEnd = BEGINNING;

  /** @param bookings most bookings that stand at once */
  constructor(lanes: Lanes, bookings: number) {
    this.words = lanes.words;
    this.idle = lanes.idle;
    const steps = 2 * bookings + 2;
    this.time = new Int32Array(steps);
    this.next = new Int32Array(steps);
    this.previous = new Int32Array(steps);
    this.free = new Int32Array(steps * lanes.words);
    this.first = new Int32Array(bookings);
    this.after = new Int32Array(bookings);
    this.sign = new Int8Array(bookings);
    this.topBefore = new Int32Array(bookings);
    this.time[BEGINNING] = NEVER;
    this.time[END] = FAR;
    this.next[END] = END;
    this.clear();
  }

  clear(): void {
    const { words, idle } = this;
    this.top = 2;
    this.taken.length = 0;
    this.next[BEGINNING] = END;
    this.previous[END] = BEGINNING;
    for (let w = 0; w < words; w++) {
      this.free[w] = idle[w]!;
      this.free[words + w] = idle[w]!;
    }
  }

  /** Bookings that stand. */
  get count(): number {
    return this.taken.length;
  }

  /** The step in force at a minute, looked for from another. */
  find(minute: number, from: number): number {
    const { time, next, previous } = this;
    let step = from;
    while (time[step]! > minute) step = previous[step]!;
    for (let n = next[step]!; n !== END && time[n]! <= minute; n = next[step]!) step = n;
    return step;
  }

  private split(minute: number, step: number): number {
    if (this.time[step] === minute) return step;
    const { next, previous, free, words } = this;
    const made = this.top++;
    const n = next[step]!;
    this.time[made] = minute;
    next[made] = n;
    previous[made] = step;
    next[step] = made;
    previous[n] = made;
    for (let w = 0; w < words; w++) free[made * words + w] = free[step * words + w]!;
    return made;
  }

  /**
   * Takes (sign 1) or gives back (sign -1) from `start` to `end`. The steps at both are kept.
   * @param from a step to look from
   */
  book(start: number, end: number, need: Need, sign: 1 | -1, from: number): void {
    const k = this.taken.length;
    this.topBefore[k] = this.top;
    const first = this.split(start, this.find(start, from));
    const after = end >= FAR ? END : this.split(end, this.find(end, first));
    this.change(first, after, need, sign);
    this.first[k] = first;
    this.after[k] = after;
    this.sign[k] = sign;
    this.taken.push(need);
    this.stepAtStart = first;
    this.stepAtEnd = after;
  }

  private change(first: number, after: number, { amounts }: Need, sign: number): void {
    const { next, free, words } = this;
    if (words === 1) {
      const amount = sign * amounts[0]!;
      for (let step = first; step !== after; step = next[step]!) free[step]! -= amount;
      return;
    }
    for (let step = first; step !== after; step = next[step]!) {
      for (let w = 0; w < words; w++) free[step * words + w]! -= sign * amounts[w]!;
    }
  }

  /** Takes back the newest booking. */
  undo(): void {
    const need = this.taken.pop()!;
    const k = this.taken.length;
    this.change(this.first[k]!, this.after[k]!, need, -this.sign[k]!);
    const { next, previous } = this;
    while (this.top > this.topBefore[k]!) {
      const step = --this.top;
      const [p, n] = [previous[step]!, next[step]!];
      next[p] = n;
      previous[n] = p;
    }
  }

  private lacks(step: number, { amounts, mask }: Need): boolean {
    const { free, words } = this;
    if (words === 1) return ((free[step]! - amounts[0]!) & mask[0]!) !== mask[0]!;
    for (let w = 0; w < words; w++) {
      const guards = mask[w]!;
      if (((free[step * words + w]! - amounts[w]!) & guards) !== guards) return true;
    }
    return false;
  }

  /** End of the first step in [start, end) with too little free; -1 when there is enough. */
  conflict(start: number, end: number, need: Need, from: number): number {
    if (end <= start) return -1;
    const { time, next } = this;
    for (let step = this.find(start, from); time[step]! < end; step = next[step]!) {
      if (this.lacks(step, need)) return time[next[step]!]!;
    }
    return -1;
  }

  /** Start of the last step in [start, end) with too little free; FAR when there is enough. */
  lastConflict(start: number, end: number, need: Need, from: number): number {
    if (end <= start) return FAR;
    const { time, previous } = this;
    for (let step = this.find(end - 1, from); ; step = previous[step]!) {
      if (this.lacks(step, need)) return time[step]!;
      if (time[step]! <= start) return FAR;
    }
  }

  /**
   * The first start at or after a minute at which a mode finds all it needs; NEVER when its calendar
   * or the horizon ends first, FAR when something it needs is kept for ever.
   * @param from a step to look from
   */
  earliestFit(mode: PlanMode, minute: number, horizon: number, from: number): number {
    const { time, next } = this;
    const { need } = mode;
    const runsThrough = mode.kind === 'elapsed' && mode.table === null;
    let start = runsThrough ? minute : startFrom(mode, minute);
    let first = start === NEVER ? from : this.find(start, from);
    for (;;) {
      if (start === NEVER) return NEVER;
      const end = runsThrough ? start + mode.minutes : endFrom(mode, start);
      if (end === NEVER || end > horizon) return NEVER;
      let step = first;
      if (end > start && !mode.needsNothing) {
        while (time[step]! < end && !this.lacks(step, need)) step = next[step]!;
        if (time[step]! < end) {
          do step = next[step]!;
          while (step !== END && this.lacks(step, need));
          if (step === END) return FAR;
          start = runsThrough ? time[step]! : startFrom(mode, time[step]!);
          first = start === NEVER ? step : this.find(start, step);
          continue;
        }
      }
      this.end = end;
      this.stepAtStart = first;
      this.stepAtEnd = first;
      return start;
    }
  }

  /**
   * The last start at or before a minute, with an end at or before another, at which a mode finds all
   * it needs; NEVER when its calendar begins too late.
   */
  latestFit(mode: PlanMode, startBy: number, endBy: number, from: number): number {
    const { time, next, previous } = this;
    const { need } = mode;
    let start = startToEndBy(mode, endBy);
    if (startBy < start) start = startUpTo(mode, startBy);
    for (;;) {
      if (start === NEVER) return NEVER;
      const end = endFrom(mode, start);
      if (end === NEVER) return NEVER;
      let step = from;
      if (end > start && !mode.needsNothing) {
        step = this.find(end - 1, from);
        while (time[step]! > start && !this.lacks(step, need)) step = previous[step]!;
        if (this.lacks(step, need)) {
          while (step !== BEGINNING && this.lacks(step, need)) step = previous[step]!;
          if (step === BEGINNING && this.lacks(step, need)) return NEVER;
          start = startToEndBy(mode, time[next[step]!]!);
          from = step;
          continue;
        }
      }
      this.end = end;
      this.stepAtStart = step;
      this.stepAtEnd = step;
      return start;
    }
  }
}
