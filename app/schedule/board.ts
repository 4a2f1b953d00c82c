/** What stands so far in a pass: spots, use of every resource, the room's air. */
import { airOf, type Arc, type Compiled, type PlanMode } from './compile.ts';
import { FAR, NEVER } from './length.ts';
import { Holds } from './holds.ts';
import { Air } from './profile.ts';
import { rowsOf, type Rows } from './rows.ts';
import { BEGINNING, Timeline } from './timeline.ts';
import { anchorFor, arcCeiling, arcFloor, startForEnd } from './windows.ts';

export interface Candidate {
  readonly mode: number;
  readonly start: number;
  readonly end: number;
}

/** Why a candidate cannot stand: the placed stage to raise, and the least anchor it needs. */
export interface Clash {
  readonly arc: Arc;
  readonly stage: number;
  readonly anchor: number;
  readonly byEnd: boolean;
}

export class Board {
  readonly c: Compiled;
  readonly rows: Rows;
  readonly timeline: Timeline;
  private readonly air: Air;
  private readonly hasAir: boolean;
  private readonly holds: Holds | null;
  /** Start of stage i at `2 * i`, its end next to it. */
  readonly at: Int32Array;
  /** Steps of the timeline in force at those. */
  private readonly step: Int32Array;
  readonly mode: Int32Array;
  readonly placed: Uint8Array;
  /** Stages that still have to be placed before each one is: those before it, or after it to the right. */
  readonly waiting: Int32Array;
  private readonly beforeCounts: Int32Array;
  private readonly afterCounts: Int32Array;
  /** Stage indices in the order of placing, and bookings that stood before each. */
  readonly sequence: Int32Array;
  private readonly bookedBefore: Int32Array;
  placedCount = 0;
  private rightward = false;
  /** The step from which the floor last asked for is best looked for. */
  nearStep = BEGINNING;

  constructor(compiled: Compiled) {
    const count = compiled.stages.length;
    this.c = compiled;
    this.rows = rowsOf(compiled);
    this.timeline = new Timeline(compiled.lanes, count + 2 * compiled.holds.length + 1);
    this.air = new Air(compiled.problem.airSettleMinutes);
    this.hasAir = compiled.stages.some((stage) => stage.air >= 0);
    this.at = new Int32Array(2 * count);
    this.step = new Int32Array(2 * count);
    this.mode = new Int32Array(count).fill(-1);
    this.placed = new Uint8Array(count);
    this.holds =
      compiled.holds.length > 0
        ? new Holds(compiled.holds, this.timeline, this.at, this.placed)
        : null;
    this.beforeCounts = Int32Array.from(compiled.before, (list) => list.length);
    this.afterCounts = Int32Array.from(compiled.after, (list) => list.length);
    this.waiting = this.beforeCounts.slice();
    this.sequence = new Int32Array(count);
    this.bookedBefore = new Int32Array(count);
  }

  /** Takes everything off the board, for a pass to the left or to the right. */
  clear(rightward: boolean): void {
    this.rightward = rightward;
    this.timeline.clear();
    this.air.clear();
    this.placed.fill(0);
    this.mode.fill(-1);
    this.waiting.set(rightward ? this.afterCounts : this.beforeCounts);
    this.placedCount = 0;
  }

  startOf(i: number): number {
    return this.at[2 * i]!;
  }

  endOf(i: number): number {
    return this.at[2 * i + 1]!;
  }

  isFixed(i: number): boolean {
    return this.c.stages[i]!.spec.fixedStart !== null;
  }

  spotOf(i: number): Candidate {
    return { mode: this.mode[i]!, start: this.startOf(i), end: this.endOf(i) };
  }

  /** Places a stage; what it needs is looked for on the timeline from a step near its start. */
  commit(i: number, m: number, start: number, end: number, near: number): void {
    const { c, timeline, step, at } = this;
    const stage = c.stages[i]!;
    at[2 * i] = start;
    at[2 * i + 1] = end;
    this.mode[i] = m;
    this.takeStand(i, timeline.count);
    step[2 * i] = near;
    step[2 * i + 1] = near;
    const mode = stage.modes[m];
    if (mode && !mode.needsNothing && end > start) {
      timeline.book(start, end, mode.need, 1, near);
      step[2 * i] = timeline.stepAtStart;
      step[2 * i + 1] = timeline.stepAtEnd;
    }
    this.holds?.book(i, start, end, this.rightward);
    if (this.hasAir) this.air.add(airOf(stage, m), start, end);
  }

  /**
   * Places a plain stage at the first start at or after a minute.
   * @returns what `Timeline.bookEarliest` does; the stage stands unless that is NEVER or FAR
   */
  placeEarliest(i: number, minute: number, horizon: number): number {
    const { plain } = this.rows;
    const take = plain.take[i]!;
    const booked = this.timeline.count;
    if (!take) {
      const end = minute + plain.minutes[i]!;
      if (end > horizon) return NEVER;
      this.stand(i, minute, end, booked, this.nearStep, this.nearStep);
      return minute;
    }
    const start = this.timeline.bookEarliest(take, minute, horizon, this.nearStep);
    if (start !== NEVER && start !== FAR) this.standOn(i, start, start + take.minutes, booked);
    return start;
  }

  /** The same at the last start at or before a minute. */
  placeLatest(i: number, minute: number, near: number): number {
    const { plain } = this.rows;
    const take = plain.take[i]!;
    const booked = this.timeline.count;
    if (!take) {
      this.stand(i, minute, minute + plain.minutes[i]!, booked, near, near);
      return minute;
    }
    const start = this.timeline.bookLatest(take, minute, near);
    if (start !== NEVER) this.standOn(i, start, start + take.minutes, booked);
    return start;
  }

  private standOn(i: number, start: number, end: number, booked: number): void {
    const { stepAtStart, stepAtEnd } = this.timeline;
    this.stand(i, start, end, booked, stepAtStart, stepAtEnd);
  }

  private stand(
    i: number,
    start: number,
    end: number,
    booked: number,
    stepAtStart: number,
    stepAtEnd: number,
  ): void {
    const { at, step } = this;
    at[2 * i] = start;
    at[2 * i + 1] = end;
    step[2 * i] = stepAtStart;
    step[2 * i + 1] = stepAtEnd;
    this.mode[i] = 0;
    this.takeStand(i, booked);
  }

  /** A stage stands: it comes next in the sequence, and what waited for it waits no more. */
  private takeStand(i: number, booked: number): void {
    this.placed[i] = 1;
    this.bookedBefore[this.placedCount] = booked;
    this.sequence[this.placedCount++] = i;
    const { waiting, c } = this;
    const next = (this.rightward ? c.before : c.after)[i]!;
    for (let k = 0; k < next.length; k++) waiting[next[k]!]!--;
  }

  /** Takes back everything placed at or after a position of the sequence. */
  unwind(position: number): void {
    const { c, timeline } = this;
    while (this.placedCount > position) {
      const i = this.sequence[--this.placedCount]!;
      while (timeline.count > this.bookedBefore[this.placedCount]!) timeline.undo();
      if (this.hasAir) {
        this.air.remove(airOf(c.stages[i]!, this.mode[i]!), this.startOf(i), this.endOf(i));
      }
      this.placed[i] = 0;
      for (const next of (this.rightward ? c.before : c.after)[i]!) this.waiting[next]!++;
    }
  }

  positionOf(i: number): number {
    return this.sequence.indexOf(i);
  }

  /** True when the arc holds with stage i in this mode; a condition still open leaves it off. */
  active(arc: Arc, i: number, mode: PlanMode): boolean {
    if (arc.ifStage < 0) return true;
    if (arc.ifStage === i) return mode.index === arc.ifMode;
    if (!this.placed[arc.ifStage]) return false;
    return this.c.stages[arc.ifStage]!.modes[this.mode[arc.ifStage]!]?.index === arc.ifMode;
  }

  anchorOf(arc: Arc): number {
    return arc.fromEnd ? this.endOf(arc.from) : this.startOf(arc.from);
  }

  /** Least start by the stages that already stand, in a mode. */
  floorOf(i: number, mode: PlanMode, notBefore: number): number {
    const { at, placed } = this;
    const { from, anchor, lag } = this.rows.left;
    let least = notBefore;
    let near = -1;
    for (let k = from[i]!; k < from[i + 1]!; k++) {
      const a = anchor[k]!;
      if (!placed[a >> 1]) continue;
      const t = at[a]! + lag[k]!;
      if (t >= least) {
        least = t;
        near = a;
      }
    }
    this.nearStep = near < 0 ? BEGINNING : this.step[near]!;
    const floors = this.rows.floors[i]!;
    if (floors.length === 0) return least;
    for (const arc of floors) {
      if (!this.active(arc, i, mode)) continue;
      if (arc.atLeast) {
        if (placed[arc.from]) least = Math.max(least, arcFloor(arc, this.anchorOf(arc)));
      } else if (placed[arc.to]) {
        const needed = anchorFor(arc, this.startOf(arc.to));
        least = Math.max(least, arc.fromEnd ? startForEnd([mode], needed, least) : needed);
      }
    }
    return least;
  }

  /** A minute from which holds and air may let the spot stand; -1 when they do already. */
  otherConflict(i: number, mode: PlanMode, start: number, end: number): number {
    const free = this.holds?.conflict(i, start) ?? -1;
    if (free >= 0) return free;
    return this.hasAir ? this.air.conflict(mode.air, start, end) : -1;
  }

  /** The same towards the left: an end that clears what is in the way; FAR when nothing is. */
  otherConflictBefore(i: number, mode: PlanMode, start: number, end: number): number {
    const since = this.holds?.conflictBefore(i, end) ?? FAR;
    if (since !== FAR) return since;
    const clear = this.hasAir ? this.air.lastConflict(mode.air, start, end) : -1;
    return clear < 0 ? FAR : clear;
  }

  /** A step of the timeline near the start (`2 * i`) or end of a placed stage. */
  stepAt(anchor: number): number {
    return this.step[anchor]!;
  }

  /** The first relation with a standing stage that this spot would break. */
  clashOf(i: number, m: number, start: number, end: number): Clash | null {
    const checks = this.rows.leftChecks[i]!;
    if (checks.length === 0) return null;
    const mode = this.c.stages[i]!.modes[m]!;
    for (const arc of checks) {
      if (!this.active(arc, i, mode)) continue;
      if ((arc.from !== i && !this.placed[arc.from]) || (arc.to !== i && !this.placed[arc.to])) {
        continue;
      }
      if (this.isFixed(arc.from) && this.isFixed(arc.to)) continue;
      const anchor = arc.from === i ? (arc.fromEnd ? end : start) : this.anchorOf(arc);
      const to = arc.to === i ? start : this.startOf(arc.to);
      if (arc.atLeast) {
        const least = arcFloor(arc, anchor);
        if (to < least) return { arc, stage: arc.to, anchor: least, byEnd: false };
      } else if (to > arcCeiling(arc, anchor)) {
        return { arc, stage: arc.from, anchor: anchorFor(arc, to), byEnd: arc.fromEnd };
      }
    }
    return null;
  }
}
