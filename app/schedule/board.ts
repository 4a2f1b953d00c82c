/** What stands so far in a pass: spots, use of every resource, the room's air. */
import { airOf, type Arc, type Compiled, type PlanMode } from './compile.ts';
import { FAR } from './length.ts';
import { Air, Profile } from './profile.ts';
import { anchorFor, arcCeiling, arcFloor, startForEnd } from './windows.ts';

interface Booking {
  readonly resource: number;
  readonly start: number;
  readonly end: number;
  readonly amount: number;
}

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
  private readonly c: Compiled;
  private readonly profiles: Profile[];
  private readonly air: Air;
  private readonly bookings: Booking[][] = [];
  readonly start: number[];
  readonly end: number[];
  readonly mode: number[];
  readonly placed: boolean[];
  /** Stages that still have to be placed before each one. */
  readonly waiting: number[];
  readonly sequence: number[] = [];

  constructor(compiled: Compiled) {
    this.c = compiled;
    const count = compiled.stages.length;
    this.profiles = compiled.capacity.map(() => new Profile());
    this.air = new Air(compiled.problem.airSettleMinutes);
    this.start = new Array<number>(count).fill(0);
    this.end = new Array<number>(count).fill(0);
    this.mode = new Array<number>(count).fill(-1);
    this.placed = new Array<boolean>(count).fill(false);
    this.waiting = compiled.before.map((list) => list.length);
  }

  isFixed(i: number): boolean {
    return this.c.stages[i]!.spec.fixedStart !== null;
  }

  spotOf(i: number): Candidate {
    return { mode: this.mode[i]!, start: this.start[i]!, end: this.end[i]! };
  }

  commit(i: number, candidate: Candidate): void {
    const stage = this.c.stages[i]!;
    this.start[i] = candidate.start;
    this.end[i] = candidate.end;
    this.mode[i] = candidate.mode;
    this.placed[i] = true;
    this.sequence.push(i);
    const made: Booking[] = [];
    for (const use of stage.modes[candidate.mode]?.uses ?? []) {
      made.push({ ...use, start: candidate.start, end: candidate.end });
    }
    for (const hold of this.c.holds) {
      if (hold.from === i) {
        const end = this.placed[hold.to] ? this.end[hold.to]! : FAR;
        made.push({ ...hold, start: candidate.start, end });
      } else if (hold.to === i && this.placed[hold.from]) {
        made.push({ ...hold, start: candidate.end, end: FAR, amount: -hold.amount });
      }
    }
    for (const b of made) this.profiles[b.resource]!.add(b.start, b.end, b.amount);
    this.bookings.push(made);
    this.air.add(airOf(stage, candidate.mode), candidate.start, candidate.end);
    for (const next of this.c.after[i]!) this.waiting[next]!--;
  }

  /** Takes back everything placed at or after a position of the sequence. */
  unwind(position: number): void {
    while (this.sequence.length > position) {
      const i = this.sequence.pop()!;
      for (const b of this.bookings.pop()!) {
        this.profiles[b.resource]!.add(b.start, b.end, -b.amount);
      }
      this.air.remove(airOf(this.c.stages[i]!, this.mode[i]!), this.start[i]!, this.end[i]!);
      this.placed[i] = false;
      for (const next of this.c.after[i]!) this.waiting[next]!++;
    }
  }

  /** True when the arc holds with stage i in this mode; a condition still open leaves it off. */
  active(arc: Arc, i: number, mode: PlanMode): boolean {
    if (arc.ifStage < 0) return true;
    if (arc.ifStage === i) return mode.index === arc.ifMode;
    if (!this.placed[arc.ifStage]) return false;
    return this.c.stages[arc.ifStage]!.modes[this.mode[arc.ifStage]!]?.index === arc.ifMode;
  }

  /** Least start by the stages that already stand, in a mode. */
  floorOf(i: number, m: number, notBefore: number): number {
    const mode = this.c.stages[i]!.modes[m]!;
    let least = notBefore;
    for (const arc of this.c.arcsOf[i]!) {
      if (!this.active(arc, i, mode)) continue;
      if (arc.atLeast && arc.to === i && this.placed[arc.from]) {
        const anchor = arc.fromEnd ? this.end[arc.from]! : this.start[arc.from]!;
        least = Math.max(least, arcFloor(arc, anchor));
      } else if (!arc.atLeast && arc.from === i && this.placed[arc.to]) {
        const anchor = anchorFor(arc, this.start[arc.to]!);
        least = Math.max(least, arc.fromEnd ? startForEnd([mode], anchor, least) : anchor);
      }
    }
    return least;
  }

  /** A minute from which the spot may be free; -1 when it is free already. */
  firstConflict(i: number, mode: PlanMode, start: number, end: number): number {
    for (const use of mode.uses) {
      const room = this.c.capacity[use.resource]! - use.amount;
      const free = this.profiles[use.resource]!.conflict(start, end, room);
      if (free >= 0) return free;
    }
    for (const hold of this.c.holds) {
      if (hold.from !== i) continue;
      const until = this.placed[hold.to] ? this.end[hold.to]! : FAR;
      const room = this.c.capacity[hold.resource]! - hold.amount;
      const free = this.profiles[hold.resource]!.conflict(start, until, room);
      if (free >= 0) return free;
    }
    return this.air.conflict(mode.air, start, end);
  }

  /** The first relation with a standing stage that this candidate would break. */
  clashOf(i: number, candidate: Candidate): Clash | null {
    const mode = this.c.stages[i]!.modes[candidate.mode]!;
    const startOf = (k: number) => (k === i ? candidate.start : this.start[k]!);
    const endOf = (k: number) => (k === i ? candidate.end : this.end[k]!);
    for (const arc of this.c.arcsOf[i]!) {
      if (!this.active(arc, i, mode)) continue;
      if ((arc.from !== i && !this.placed[arc.from]) || (arc.to !== i && !this.placed[arc.to])) {
        continue;
      }
      if (this.bothFixed(arc)) continue;
      const anchor = arc.fromEnd ? endOf(arc.from) : startOf(arc.from);
      if (arc.atLeast) {
        const least = arcFloor(arc, anchor);
        if (startOf(arc.to) < least) {
          return { arc, stage: arc.to, anchor: least, byEnd: false };
        }
      } else if (startOf(arc.to) > arcCeiling(arc, anchor)) {
        return {
          arc,
          stage: arc.from,
          anchor: anchorFor(arc, startOf(arc.to)),
          byEnd: arc.fromEnd,
        };
      }
    }
    return null;
  }

  private bothFixed(arc: Arc): boolean {
    return this.isFixed(arc.from) && this.isFixed(arc.to);
  }
}
