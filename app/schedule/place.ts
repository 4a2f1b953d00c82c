/**
 * One forward pass: stages placed one after another, each at the first moment that its calendar,
 * relations, resources and the room's air allow. A greatest lag that does not hold raises the
 * earlier stage and the pass resumes from there.
 */
import { Board, type Candidate, type Clash } from './board.ts';
import type { Arc, Compiled, PlanMode } from './compile.ts';
import { endFrom, FAR, NEVER, startFrom } from './length.ts';
import { obstacleFor, windowObstacle } from './obstacles.ts';
import type { MissedPin, Obstacle } from './problem.ts';
import { movedPins } from './pins.ts';
import { fixedEndOf, startForEnd } from './windows.ts';

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

/** Runs one pass; the same input gives the same plan. */
export function place(compiled: Compiled, options: PassOptions): PassResult {
  return new Pass(compiled, options).run();
}

class Pass {
  private readonly c: Compiled;
  private readonly options: PassOptions;
  private readonly board: Board;
  private readonly floor: number[];
  private readonly missed = new Map<number, number>();
  private readonly raises = new Map<Arc, number>();
  /** Stages whose window lapsed: only their repairs are open. */
  private readonly lapsed = new Set<number>();
  private generated = 1;

  constructor(compiled: Compiled, options: PassOptions) {
    this.c = compiled;
    this.options = options;
    this.board = new Board(compiled);
    this.floor = [...options.earliest];
  }

  run(): PassResult {
    this.placeFixed();
    const count = this.c.stages.length;
    while (this.board.sequence.length < count) {
      const blocked = this.placeNext();
      if (blocked) return { ok: false, obstacle: blocked, generated: this.generated };
    }
    const missedPins = [...this.missed].map(([i, pin]) => ({
      stage: this.c.stages[i]!.spec.id,
      byMinutes: this.board.start[i]! - pin,
    }));
    return {
      ok: true,
      generated: this.generated,
      plan: {
        start: this.board.start,
        end: this.board.end,
        mode: this.board.mode,
        sequence: this.board.sequence,
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
      this.board.commit(stage.index, {
        mode: Math.max(0, chosen),
        start: stage.spec.fixedStart,
        end: fixedEndOf(stage, mode),
      });
    }
  }

  private chosenMode(i: number): number {
    return this.options.modeOf ? this.options.modeOf[i]! : -1;
  }

  /** Places the most urgent free stage; an obstacle when none can ever stand. */
  private placeNext(): Obstacle | null {
    const { priority } = this.options;
    const { placed, waiting } = this.board;
    let held = -1;
    let tried: Set<number> | null = null;
    for (;;) {
      let best = -1;
      for (let i = 0; i < placed.length; i++) {
        if (placed[i] || waiting[i]! > 0 || tried?.has(i)) continue;
        if (best < 0 || this.before(i, best, priority)) best = i;
      }
      if (best < 0) return this.deadlock(held);
      const outcome = this.tryStage(best);
      if (outcome === 'placed' || outcome === 'raised') return null;
      if (outcome !== 'held') return outcome;
      held = best;
      tried = (tried ?? new Set<number>()).add(best);
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
      args: { what: 'gear-in-a-ring', stage: stage.spec.name },
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
          const against = this.board.clashOf(i, found);
          if (against) clash = this.easier(clash, against);
          else if (!best || found.end < best.end) best = found;
        }
      }
    }
    if (best) {
      this.board.commit(i, best);
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
    return { stage: spec.id, reason: 'no-mode', args: { what: 'nobody-can', stage: spec.name } };
  }

  private easier(known: Clash | null, next: Clash): Clash {
    if (!known) return next;
    return this.board.isFixed(known.stage) && !this.board.isFixed(next.stage) ? next : known;
  }

  /** First spot at or after the floor where calendar, resources and air are free. */
  private fit(i: number, m: number): Candidate | Obstacle | 'held' {
    const stage = this.c.stages[i]!;
    const mode = stage.modes[m]!;
    const { horizon } = this.c.problem;
    let at = this.board.floorOf(i, m, Math.max(this.floor[i]!, this.options.from));
    for (;;) {
      if (at > horizon) return at >= FAR ? this.tooLate(i, mode, 'held') : this.tooLate(i, mode);
      const start = startFrom(mode, at);
      if (start === NEVER) return this.tooLate(i, mode);
      const end = endFrom(mode, start);
      if (end === NEVER) return this.tooLate(i, mode);
      if (end > horizon) return this.tooLate(i, mode);
      const free = this.board.firstConflict(i, mode, start, end);
      if (free < 0) return { mode: m, start, end };
      if (free >= FAR) return 'held';
      at = Math.max(free, start + 1);
    }
  }

  private tooLate(i: number, mode: PlanMode, held?: 'held'): Obstacle {
    const { spec } = this.c.stages[i]!;
    const raised = [...this.raises.keys()].pop();
    if (raised) return windowObstacle(this.c, raised);
    if (held) {
      return {
        stage: spec.id,
        reason: 'never-ends',
        args: { what: 'waits-for-ever', stage: spec.name },
      };
    }
    return obstacleFor(this.c, i, mode, this.options.from);
  }

  /** Raises the stage in the way and goes back to where it was placed. */
  private raise(i: number, clash: Clash): 'raised' | Obstacle {
    const { stage, arc } = clash;
    const { spec } = this.c.stages[stage]!;
    if (this.generated > (this.options.mostRaises ?? RAISE_LIMIT))
      return windowObstacle(this.c, arc);
    if (this.canLapse(arc) && !this.patient(arc)) return this.letLapse(arc);
    const raises = (this.raises.get(arc) ?? 0) + 1;
    this.raises.set(arc, raises);
    if (raises > RAISES_PER_ARC) return windowObstacle(this.c, arc);
    if (spec.fixedStart !== null) {
      return this.canLapse(arc) ? this.letLapse(arc) : this.missPin(i, clash);
    }
    const modes = this.c.stages[stage]!.modes;
    const current = stage === i ? this.floor[i]! : this.board.start[stage]!;
    const mode = this.board.placed[stage] ? [modes[this.board.mode[stage]!]!] : modes;
    const start = clash.byEnd ? startForEnd(mode, clash.anchor, current) : clash.anchor;
    if (
      this.generated > RAISE_LIMIT ||
      start > this.c.problem.horizon ||
      start <= this.floor[stage]!
    ) {
      return windowObstacle(this.c, clash.arc);
    }
    this.generated++;
    this.floor[stage] = start;
    if (this.board.placed[stage]) this.board.unwind(this.board.sequence.indexOf(stage));
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
    if (this.board.placed[arc.ifStage]) this.board.unwind(this.board.sequence.indexOf(arc.ifStage));
    return 'raised';
  }

  /** A pin not yet begun gives way and is reported; what has really begun cannot. */
  private missPin(i: number, clash: Clash): 'raised' | Obstacle {
    const { from } = this.options;
    if (clash.stage === i) return windowObstacle(this.c, clash.arc);
    const move = { clash, from, modeOf: (k: number) => this.chosenMode(k) };
    const moved = movedPins(this.c, this.board, move, RAISE_LIMIT - this.generated);
    this.generated += moved.tried;
    if (!moved.spots) return windowObstacle(this.c, clash.arc);
    for (const k of moved.pins) {
      if (!this.missed.has(k)) this.missed.set(k, this.c.stages[k]!.spec.fixedStart!);
    }
    this.board.unwind(0);
    for (const [k, spot] of moved.spots) this.board.commit(k, spot);
    return 'raised';
  }
}
