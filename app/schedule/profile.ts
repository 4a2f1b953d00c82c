/** Use of one resource over time as a step function, and the room's air as bookings by kind. */
import { FAR } from './length.ts';

/** `level[k]` is in use from `at[k]` to `at[k + 1]`. */
export class Profile {
  private at: number[] = [-FAR];
  private level: number[] = [0];

  /** Index of the step in force at a minute. */
  private stepAt(minute: number): number {
    let low = 0;
    let high = this.at.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (this.at[middle]! <= minute) low = middle;
      else high = middle - 1;
    }
    return low;
  }

  private split(minute: number): number {
    const k = this.stepAt(minute);
    if (this.at[k] === minute) return k;
    this.at.splice(k + 1, 0, minute);
    this.level.splice(k + 1, 0, this.level[k]!);
    return k + 1;
  }

  /** Books (or frees, when negative) an amount over [start, end). */
  add(start: number, end: number, amount: number): void {
    if (end <= start) return;
    const first = this.split(start);
    const last = this.split(end);
    for (let k = first; k < last; k++) this.level[k]! += amount;
  }

  /** End of the first step in [start, end) with more than `room` in use; -1 when it all fits. */
  conflict(start: number, end: number, room: number): number {
    for (let k = this.stepAt(start); k < this.at.length && this.at[k]! < end; k++) {
      if (this.level[k]! > room) return k + 1 < this.at.length ? this.at[k + 1]! : FAR;
    }
    return -1;
  }

  /** Start of the last step in [start, end) with more than `room` in use; -1 when it all fits. */
  lastConflict(start: number, end: number, room: number): number {
    for (let k = this.stepAt(end - 1); k >= 0; k--) {
      if (this.level[k]! > room) return this.at[k]!;
      if (this.at[k]! <= start) break;
    }
    return -1;
  }
}

/** Who has the room's air: different kinds keep a settling time between them. */
export class Air {
  private readonly start: number[] = [];
  private readonly end: number[] = [];
  private readonly kind: number[] = [];
  private readonly settle: number;

  constructor(settleMinutes: number) {
    this.settle = settleMinutes;
  }

  clear(): void {
    this.kind.length = this.start.length = this.end.length = 0;
  }

  add(kind: number, start: number, end: number): void {
    if (kind < 0 || end <= start) return;
    this.kind.push(kind);
    this.start.push(start);
    this.end.push(end);
  }

  remove(kind: number, start: number, end: number): void {
    for (let k = this.kind.length - 1; k >= 0; k--) {
      if (this.kind[k] !== kind || this.start[k] !== start || this.end[k] !== end) continue;
      this.kind.splice(k, 1);
      this.start.splice(k, 1);
      this.end.splice(k, 1);
      return;
    }
  }

  /** First minute after a booking in the way of [start, end); -1 when the air is free. */
  conflict(kind: number, start: number, end: number): number {
    if (kind < 0 || end <= start) return -1;
    let free = -1;
    for (let k = 0; k < this.kind.length; k++) {
      if (this.kind[k] === kind) continue;
      if (start < this.end[k]! + this.settle && this.start[k]! < end + this.settle) {
        free = Math.max(free, this.end[k]! + this.settle);
      }
    }
    return free;
  }

  /** Latest end that clears the bookings in the way of [start, end); -1 when the air is free. */
  lastConflict(kind: number, start: number, end: number): number {
    if (kind < 0 || end <= start) return -1;
    let free = -1;
    for (let k = 0; k < this.kind.length; k++) {
      if (this.kind[k] === kind) continue;
      if (start < this.end[k]! + this.settle && this.start[k]! < end + this.settle) {
        const before = this.start[k]! - this.settle;
        free = free < 0 ? before : Math.min(free, before);
      }
    }
    return free;
  }
}
