/** First and last fits of modes in what is free of every resource over time. */
import type { PlanMode } from './compile.ts';
import { BEGINNING, Bookings, FREE, NEXT, PREVIOUS } from './bookings.ts';
import type { Need } from './lanes.ts';
import { endFrom, FAR, NEVER, startFrom, startToEndBy, startUpTo } from './length.ts';

export { BEGINNING };

/** What lies in one word and is taken for a number of minutes. */
export interface Demand {
  readonly minutes: number;
  readonly word: number;
  readonly amount: number;
  readonly mask: number;
  readonly need: Need;
}

export class Timeline extends Bookings {
  /** End of the last fit. */
  end = 0;

  /**
   * Books what one word holds for so many minutes, at any time, at the first start at or after a minute.
   * @returns the start; NEVER when it would end after the horizon, FAR when there is never enough
   */
  bookEarliest(take: Demand, minute: number, horizon: number, from: number): number {
    const { steps } = this;
    const { amount, mask, minutes } = take;
    const at = FREE + take.word;
    let start = minute;
    let found = this.find(start, from);
    for (;;) {
      const end = start + minutes;
      if (end > horizon) return NEVER;
      let step = found;
      let before = found;
      while (steps[step]! < end && ((steps[step + at]! - amount) & mask) === mask) {
        before = step;
        step = steps[step + NEXT]!;
      }
      if (steps[step]! >= end) {
        this.bookWord(start, end, found, before, take);
        return start;
      }
      do step = steps[step + NEXT]!;
      while (step !== this.last && ((steps[step + at]! - amount) & mask) !== mask);
      if (step === this.last) return FAR;
      start = steps[step]!;
      found = step;
    }
  }

  /** The same at the last start at or before a minute; NEVER when there is never enough. */
  bookLatest(take: Demand, minute: number, from: number): number {
    const { steps } = this;
    const { amount, mask, minutes } = take;
    const at = FREE + take.word;
    let start = minute;
    let near = from;
    for (;;) {
      const before = this.find(start + minutes - 1, near);
      let step = before;
      let enough = ((steps[step + at]! - amount) & mask) === mask;
      while (enough && steps[step]! > start) {
        step = steps[step + PREVIOUS]!;
        enough = ((steps[step + at]! - amount) & mask) === mask;
      }
      if (enough) {
        this.bookWord(start, start + minutes, step, before, take);
        return start;
      }
      while (step !== BEGINNING && ((steps[step + at]! - amount) & mask) !== mask) {
        step = steps[step + PREVIOUS]!;
      }
      if (((steps[step + at]! - amount) & mask) !== mask) return NEVER;
      start = steps[steps[step + NEXT]!]! - minutes;
      near = step;
    }
  }

  /**
   * The first start at or after a minute at which a mode finds all it needs; NEVER when its calendar
   * or the horizon ends first, FAR when something it needs is kept for ever.
   * @param from a step to look from
   */
  earliestFit(mode: PlanMode, minute: number, horizon: number, from: number): number {
    const { steps, last } = this;
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
        while (steps[step]! < end && !this.lacks(step, need)) step = steps[step + NEXT]!;
        if (steps[step]! < end) {
          do step = steps[step + NEXT]!;
          while (step !== last && this.lacks(step, need));
          if (step === last) return FAR;
          start = runsThrough ? steps[step]! : startFrom(mode, steps[step]!);
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
    const { steps } = this;
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
        while (steps[step]! > start && !this.lacks(step, need)) step = steps[step + PREVIOUS]!;
        if (this.lacks(step, need)) {
          while (step !== BEGINNING && this.lacks(step, need)) step = steps[step + PREVIOUS]!;
          if (step === BEGINNING && this.lacks(step, need)) return NEVER;
          start = startToEndBy(mode, steps[steps[step + NEXT]!]!);
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
