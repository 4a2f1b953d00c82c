/**
 * Resources kept from the start of one stage to the end of another. While only one of the two stands, they
 * are kept until the far side of time.
 */
import type { PlanHold } from './compile.ts';
import { FAR, NEVER } from './length.ts';
import { BEGINNING, type Timeline } from './timeline.ts';

export class Holds {
  private readonly all: readonly PlanHold[];
  private readonly timeline: Timeline;
  private readonly at: Int32Array;
  private readonly placed: Uint8Array;

  /**
   * @param at start of stage i at `2 * i`, its end next to it
   * @param placed 1 for the stages that stand
   */
  constructor(all: readonly PlanHold[], timeline: Timeline, at: Int32Array, placed: Uint8Array) {
    this.all = all;
    this.timeline = timeline;
    this.at = at;
    this.placed = placed;
  }

  /** Books what a stage that stands now begins to keep, or ends to; `rightward` in a pass to the right. */
  book(i: number, start: number, end: number, rightward: boolean): void {
    if (rightward) this.bookBefore(i, start, end);
    else this.bookAfter(i, start, end);
  }

  private bookAfter(i: number, start: number, end: number): void {
    const { timeline, placed } = this;
    for (const { from, to, need } of this.all) {
      if (from === i) {
        const until = this.endOf(to);
        if (until > start) timeline.book(start, until, need, 1, BEGINNING);
      } else if (to === i && placed[from]) {
        timeline.book(end, FAR, need, -1, BEGINNING);
      }
    }
  }

  private bookBefore(i: number, start: number, end: number): void {
    const { timeline, placed } = this;
    for (const { from, to, need } of this.all) {
      if (to === i) {
        const since = this.startOf(from);
        if (end > since) timeline.book(since, end, need, 1, BEGINNING);
      } else if (from === i && placed[to]) {
        timeline.book(NEVER + 1, start, need, -1, BEGINNING);
      }
    }
  }

  /** A minute from which a stage may begin what it keeps; -1 when it may at its start. */
  conflict(i: number, start: number): number {
    for (const { from, to, need } of this.all) {
      if (from !== i) continue;
      const free = this.timeline.conflict(start, this.endOf(to), need, BEGINNING);
      if (free >= 0) return free;
    }
    return -1;
  }

  /** An end by which a stage clears what is in the way of what it ends to keep; FAR when nothing is. */
  conflictBefore(i: number, end: number): number {
    for (const { from, to, need } of this.all) {
      if (to !== i) continue;
      const clear = this.timeline.lastConflict(this.startOf(from), end, need, BEGINNING);
      if (clear !== FAR) return clear;
    }
    return FAR;
  }

  private endOf(to: number): number {
    return this.placed[to] ? this.at[2 * to + 1]! : FAR;
  }

  private startOf(from: number): number {
    return this.placed[from] ? this.at[2 * from]! : NEVER + 1;
  }
}
