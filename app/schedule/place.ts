/**
 * One forward pass: stages placed one after another, each at the first moment that its calendar,
 * relations, resources and the room's air allow. A greatest lag that does not hold raises the
 * earlier stage and the pass resumes from there.
 */
import type { Arc, Compiled, PlanMode } from './compile.ts';
import { endFrom, FAR, NEVER, startFrom } from './length.ts';
import type { MissedPin, Obstacle } from './problem.ts';
import { Air, Profile } from './profile.ts';
import { anchorFor, arcCeiling, arcFloor, fixedEndOf, startForEnd } from './windows.ts';

/** A complete assignment, by stage index; `mode` is an index into the stage's usable modes. */
export interface Assignment {
  readonly start: number[];
  readonly end: number[];
  readonly mode: number[];
  /** Stage indices in the order of placing. */
  readonly sequence: number[];
  readonly missedPins: readonly MissedPin[];
}

export interface PassOptions {
  readonly from: number;
  /** Smaller is placed first among stages that are free to be placed. */
  readonly priority: ArrayLike<number>;
  /** Index into `modes`, or -1: the mode that ends first. */
  readonly modeOf: readonly number[] | null;
  /** Raises of the earlier stage tried for one window that may lapse before it is let lapse. */
  readonly patience: number;
  readonly allowOvertime: boolean;
  /** Earliest starts by relations alone. */
  readonly earliest: readonly number[];
  /** Most raises, each of which counts as a schedule. */
  readonly mostRaises?: number;
}

export type PassResult =
  | { readonly ok: true; readonly plan: Assignment; readonly generated: number }
  | { readonly ok: false; readonly obstacle: Obstacle; readonly generated: number };

const RAISE_LIMIT = 400;
/** A window that does not hold after so many raises is not going to. */
const RAISES_PER_ARC = 40;

interface Booking {
  readonly resource: number;
  readonly start: number;
  readonly end: number;
  readonly amount: number;
}

interface Candidate {
  readonly mode: number;
  readonly start: number;
  readonly end: number;
}

/** Why a candidate cannot stand: the placed stage to raise, and the least anchor it needs. */
interface Clash {
  readonly arc: Arc;
  readonly stage: number;
  readonly anchor: number;
  readonly byEnd: boolean;
}

/** Runs one pass; the same input gives the same plan. */
export function place(compiled: Compiled, options: PassOptions): PassResult {
  return new Pass(compiled, options).run();
}

class Pass {
  private readonly c: Compiled;
  private readonly options: PassOptions;
  private readonly profiles: Profile[];
  private readonly air: Air;
  private readonly start: number[];
  private readonly end: number[];
  private readonly mode: number[];
  private readonly placed: boolean[];
  private readonly waiting: number[];
  private readonly floor: number[];
  private readonly sequence: number[] = [];
  private readonly bookings: Booking[][] = [];
  private readonly missed = new Map<number, number>();
  private readonly raises = new Map<Arc, number>();
  /** Stages whose window lapsed: only their repairs are open. */
  private readonly lapsed = new Set<number>();
  private generated = 1;

  constructor(compiled: Compiled, options: PassOptions) {
    this.c = compiled;
    this.options = options;
    const count = compiled.stages.length;
    this.profiles = compiled.capacity.map(() => new Profile());
    this.air = new Air(compiled.problem.airSettleMinutes);
    this.start = new Array<number>(count).fill(0);
    this.end = new Array<number>(count).fill(0);
    this.mode = new Array<number>(count).fill(-1);
    this.placed = new Array<boolean>(count).fill(false);
    this.waiting = compiled.before.map((list) => list.length);
    this.floor = [...options.earliest];
  }

  run(): PassResult {
    this.placeFixed();
    const count = this.c.stages.length;
    while (this.sequence.length < count) {
      const blocked = this.placeNext();
      if (blocked) return { ok: false, obstacle: blocked, generated: this.generated };
    }
    const missedPins = [...this.missed].map(([i, pin]) => ({
      stage: this.c.stages[i]!.spec.id,
      byMinutes: this.start[i]! - pin,
    }));
    return {
      ok: true,
      generated: this.generated,
      plan: {
        start: this.start,
        end: this.end,
        mode: this.mode,
        sequence: this.sequence,
        missedPins,
      },
    };
  }

  /** Records and pins stand before anything is looked at. */
  private placeFixed(): void {
    for (const stage of this.c.stages) {
      if (stage.spec.fixedStart === null) continue;
      const chosen = this.chosenMode(stage.index);
      const mode = stage.modes[Math.max(0, chosen)];
      this.commit(stage.index, {
        mode: Math.max(0, chosen),
        start: stage.spec.fixedStart,
        end: fixedEndOf(stage, mode),
      });
    }
  }

  private chosenMode(i: number): number {
    return this.options.modeOf ? this.options.modeOf[i]! : -1;
  }

  private commit(i: number, candidate: Candidate): void {
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
    this.air.add(stage.air, candidate.start, candidate.end);
    for (const next of this.c.after[i]!) this.waiting[next]!--;
  }

  /** Takes back everything placed at or after a position of the sequence. */
  private unwind(position: number): void {
    while (this.sequence.length > position) {
      const i = this.sequence.pop()!;
      for (const b of this.bookings.pop()!) {
        this.profiles[b.resource]!.add(b.start, b.end, -b.amount);
      }
      this.air.remove(this.c.stages[i]!.air, this.start[i]!, this.end[i]!);
      this.placed[i] = false;
      for (const next of this.c.after[i]!) this.waiting[next]!++;
    }
  }

  /** Places the most urgent free stage; an obstacle when none can ever stand. */
  private placeNext(): Obstacle | null {
    const { priority } = this.options;
    let held = -1;
    const tried = new Set<number>();
    for (;;) {
      let best = -1;
      for (let i = 0; i < this.placed.length; i++) {
        if (this.placed[i] || this.waiting[i]! > 0 || tried.has(i)) continue;
        if (best < 0 || this.before(i, best, priority)) best = i;
      }
      if (best < 0) return this.deadlock(held);
      const outcome = this.tryStage(best);
      if (outcome === 'placed' || outcome === 'raised') return null;
      if (outcome !== 'held') return outcome;
      held = best;
      tried.add(best);
    }
  }

  private before(i: number, best: number, priority: ArrayLike<number>): boolean {
    const difference = priority[i]! - priority[best]!;
    return (
      difference < 0 || (difference === 0 && this.c.stages[i]!.rank < this.c.stages[best]!.rank)
    );
  }

  private deadlock(held: number): Obstacle {
    const stage = this.c.stages[Math.max(0, held)]!;
    return {
      stage: stage.spec.id,
      reason: 'no-capacity',
      detail: `${stage.spec.name} waits for gear that is kept by stages which wait for it.`,
    };
  }

  private tryStage(i: number): 'placed' | 'raised' | 'held' | Obstacle {
    const stage = this.c.stages[i]!;
    const chosen = this.chosenMode(i);
    let best: Candidate | null = null;
    let clash: Clash | null = null;
    let held = false;
    let obstacle: Obstacle | null = null;
    for (let tier = 0; tier < 2 && !best; tier++) {
      if (tier === 1 && (chosen >= 0 || (clash && this.patient(clash.arc)))) break;
      for (let m = 0; m < stage.modes.length; m++) {
        const mode = stage.modes[m]!;
        if (chosen >= 0 ? m !== chosen : !this.inTier(i, mode, tier)) continue;
        const found = this.fit(i, m);
        if (found === 'held') held = true;
        else if ('reason' in found) obstacle ??= found;
        else {
          const against = this.clashOf(i, found);
          if (against) clash = this.easier(clash, against);
          else if (!best || found.end < best.end) best = found;
        }
      }
    }
    if (best) {
      this.commit(i, best);
      return 'placed';
    }
    if (clash) return this.raise(i, clash);
    if (held) return 'held';
    return obstacle ?? this.noMode(i);
  }

  /** First tier: modes without repair, unless its window lapsed; second: the repairs. */
  private inTier(i: number, mode: PlanMode, tier: number): boolean {
    if (mode.overtimeMinutes > 0 && !this.options.allowOvertime) return false;
    if (this.lapsed.has(i) && !mode.repair) return false;
    return mode.repair === (tier === 1);
  }

  private patient(arc: Arc): boolean {
    return (this.raises.get(arc) ?? 0) < this.options.patience;
  }

  private noMode(i: number): Obstacle {
    const { spec } = this.c.stages[i]!;
    return { stage: spec.id, reason: 'no-mode', detail: `Nobody can do ${spec.name}.` };
  }

  private easier(known: Clash | null, next: Clash): Clash {
    if (!known) return next;
    return this.isFixed(known.stage) && !this.isFixed(next.stage) ? next : known;
  }

  /** Least start by the stages that already stand, in a mode. */
  private floorOf(i: number, m: number): number {
    const mode = this.c.stages[i]!.modes[m]!;
    let least = Math.max(this.floor[i]!, this.options.from);
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

  /** True when the arc holds with stage i in this mode; a condition still open leaves it off. */
  private active(arc: Arc, i: number, mode: PlanMode): boolean {
    if (arc.ifStage < 0) return true;
    if (arc.ifStage === i) return mode.index === arc.ifMode;
    if (!this.placed[arc.ifStage]) return false;
    return this.c.stages[arc.ifStage]!.modes[this.mode[arc.ifStage]!]?.index === arc.ifMode;
  }

  /** First spot at or after the floor where calendar, resources and air are free. */
  private fit(i: number, m: number): Candidate | Obstacle | 'held' {
    const stage = this.c.stages[i]!;
    const mode = stage.modes[m]!;
    const { horizon } = this.c.problem;
    let at = this.floorOf(i, m);
    for (;;) {
      if (at > horizon) return at >= FAR ? this.tooLate(i, mode, 'held') : this.tooLate(i, mode);
      const start = startFrom(mode, at);
      if (start === NEVER) return this.tooLate(i, mode);
      const end = endFrom(mode, start);
      if (end === NEVER) return this.tooLate(i, mode);
      if (end > horizon) return this.tooLate(i, mode);
      const free = this.firstConflict(i, mode, start, end);
      if (free < 0) return { mode: m, start, end };
      if (free >= FAR) return 'held';
      at = Math.max(free, start + 1);
    }
  }

  private firstConflict(i: number, mode: PlanMode, start: number, end: number): number {
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
    return this.air.conflict(this.c.stages[i]!.air, start, end);
  }

  private tooLate(i: number, mode: PlanMode, held?: 'held'): Obstacle {
    const { spec } = this.c.stages[i]!;
    const raised = [...this.raises.keys()].pop();
    if (raised) return this.cannotHold(raised);
    if (held) {
      return {
        stage: spec.id,
        reason: 'never-ends',
        detail: `What ${spec.name} waits for never ends.`,
      };
    }
    return obstacleFor(this.c, i, mode, this.options.from);
  }

  /** The first relation with a standing stage that this candidate would break. */
  private clashOf(i: number, candidate: Candidate): Clash | null {
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

  /** Raises the stage in the way and goes back to where it was placed. */
  private raise(i: number, clash: Clash): 'raised' | Obstacle {
    const { stage, arc } = clash;
    const { spec } = this.c.stages[stage]!;
    if (this.generated > (this.options.mostRaises ?? RAISE_LIMIT)) return this.cannotHold(arc);
    if (this.canLapse(arc) && !this.patient(arc)) return this.letLapse(arc);
    const raises = (this.raises.get(arc) ?? 0) + 1;
    this.raises.set(arc, raises);
    if (raises > RAISES_PER_ARC) return this.cannotHold(arc);
    if (spec.fixedStart !== null) {
      return this.canLapse(arc) ? this.letLapse(arc) : this.missPin(i, clash);
    }
    const modes = this.c.stages[stage]!.modes;
    const current = stage === i ? this.floor[i]! : this.start[stage]!;
    const mode = this.placed[stage] ? [modes[this.mode[stage]!]!] : modes;
    const start = clash.byEnd ? startForEnd(mode, clash.anchor, current) : clash.anchor;
    if (
      this.generated > RAISE_LIMIT ||
      start > this.c.problem.horizon ||
      start <= this.floor[stage]!
    ) {
      return this.cannotHold(clash.arc);
    }
    this.generated++;
    this.floor[stage] = start;
    if (this.placed[stage]) this.unwind(this.sequence.indexOf(stage));
    return 'raised';
  }

  /** True when the relation is a window with a repair that is still open. */
  private canLapse(arc: Arc): boolean {
    const i = arc.ifStage;
    if (i < 0 || this.lapsed.has(i) || this.chosenMode(i) >= 0) return false;
    const { spec, modes } = this.c.stages[i]!;
    return spec.fixedStart === null && modes.some((mode) => mode.repair);
  }

  private letLapse(arc: Arc): 'raised' {
    this.generated++;
    this.lapsed.add(arc.ifStage);
    if (this.placed[arc.ifStage]) this.unwind(this.sequence.indexOf(arc.ifStage));
    return 'raised';
  }

  /** A pin not yet begun gives way and is reported; what has really begun cannot. */
  private missPin(i: number, clash: Clash): 'raised' | Obstacle {
    const { stage } = clash;
    if (this.hasBegun(stage) || stage === i) return this.cannotHold(clash.arc);
    const [mode] = this.c.stages[stage]!.modes;
    const start =
      clash.byEnd && mode ? startForEnd([mode], clash.anchor, this.start[stage]!) : clash.anchor;
    if (start > this.c.problem.horizon || !mode) return this.cannotHold(clash.arc);
    return this.movePin(stage, start, clash.arc);
  }

  /** Places all that is fixed anew with one pin later, and with it the pins that it pushes. */
  private movePin(stage: number, minute: number, arc: Arc): 'raised' | Obstacle {
    const order = this.sequence.filter((k) => this.isFixed(k));
    const spots = new Map(order.map((k) => [k, this.spotOf(k)]));
    const open = [{ stage, minute }];
    for (let next = open.shift(); next !== undefined; next = open.shift()) {
      const spot = this.movedSpot(next.stage, next.minute);
      if (!spot || this.generated++ > RAISE_LIMIT) return this.cannotHold(arc);
      spots.set(next.stage, spot);
      open.push(...this.pushedPins(next.stage, spots));
    }
    this.unwind(0);
    for (const k of order) this.commit(k, spots.get(k)!);
    return 'raised';
  }

  private isFixed(i: number): boolean {
    return this.c.stages[i]!.spec.fixedStart !== null;
  }

  private spotOf(i: number): Candidate {
    return { mode: this.mode[i]!, start: this.start[i]!, end: this.end[i]! };
  }

  private movedSpot(stage: number, minute: number): Candidate | null {
    const chosen = Math.max(0, this.chosenMode(stage));
    const mode = this.c.stages[stage]!.modes[chosen];
    const start = mode ? startFrom(mode, minute) : NEVER;
    const end = start === NEVER ? NEVER : endFrom(mode!, start);
    if (end === NEVER || end > this.c.problem.horizon) return null;
    if (!this.missed.has(stage)) this.missed.set(stage, this.c.stages[stage]!.spec.fixedStart!);
    return { mode: chosen, start, end };
  }

  /** Pins not yet begun that a moved one now overruns. */
  private pushedPins(moved: number, spots: ReadonlyMap<number, Candidate>) {
    const from = spots.get(moved)!;
    return this.c.arcsOf[moved]!.flatMap((arc) => {
      const to = spots.get(arc.to);
      if (!arc.atLeast || arc.from !== moved || !to || arc.ifStage >= 0) return [];
      const least = arcFloor(arc, arc.fromEnd ? from.end : from.start);
      const begun = this.hasBegun(arc.to);
      return to.start >= least || begun ? [] : [{ stage: arc.to, minute: least }];
    });
  }

  private hasBegun(i: number): boolean {
    const { fixedStart, fixedEnd } = this.c.stages[i]!.spec;
    return fixedEnd !== null || fixedStart! < this.options.from;
  }

  private cannotHold(arc: Arc): Obstacle {
    return windowObstacle(this.c, arc);
  }
}

/** Names a greatest lag that nothing can hold. */
export function windowObstacle(c: Compiled, arc: Arc): Obstacle {
  const [from, to] = [c.stages[arc.from]!.spec, c.stages[arc.to]!.spec];
  return {
    stage: to.id,
    reason: 'window-cannot-hold',
    detail: `${arc.spec.why}: ${from.name} and ${to.name} cannot be brought close enough.`,
  };
}

/** Names why a mode finds no spot: its calendar, its end, or the horizon. */
export function obstacleFor(c: Compiled, i: number, mode: PlanMode, from: number): Obstacle {
  const { spec } = c.stages[i]!;
  const longest = mode.table
    ? mode.table.start.reduce(
        (best, start, k) =>
          mode.table!.end[k]! > from
            ? Math.max(best, mode.table!.end[k]! - Math.max(start, from))
            : best,
        0,
      )
    : FAR;
  const need = mode.kind === 'unbroken' ? mode.minutes : 1;
  if (longest < need) {
    return {
      stage: spec.id,
      reason: 'never-fits-calendar',
      detail:
        longest === 0
          ? `Nobody is in on any day for ${spec.name}.`
          : `${spec.name} needs ${hoursText(mode.minutes)} in one stretch; the longest open stretch is ${hoursText(longest)}.`,
    };
  }
  if (mode.kind === 'function' && endFrom(mode, Math.max(from, c.problem.from)) === NEVER) {
    return {
      stage: spec.id,
      reason: 'never-ends',
      detail: `${spec.name} never gets there at this temperature.`,
    };
  }
  return {
    stage: spec.id,
    reason: 'beyond-horizon',
    detail: `${spec.name} finds no place before the end of the plan's calendar.`,
  };
}

const hoursText = (minutes: number): string => `${Math.round(minutes / 6) / 10} h`;
