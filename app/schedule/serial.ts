/**
 * Serial schedule generation to the left: stages of a list placed one after another, each at the
 * first moment that its calendar, relations, resources and the room's air allow. A greatest lag that
 * does not hold raises the earlier stage and the pass resumes from there.
 */
import { Board, type Clash } from './board.ts';
import type { Arc, Compiled, PlanMode } from './compile.ts';
import { FAR, NEVER } from './length.ts';
import { obstacleFor, windowObstacle } from './obstacles.ts';
import type { MissedPin, Obstacle } from './problem.ts';
import { movedPins } from './pins.ts';
import { fixedEndOf, startForEnd } from './windows.ts';

/** A complete assignment, by stage index; `mode` is an index into the stage's usable modes. */
export interface Assignment {
  readonly start: number[];
  readonly end: number[];
  readonly mode: number[];
  readonly missedPins: readonly MissedPin[];
}

export interface PassOptions {
  readonly from: number;
  /** Index into `modes`, or -1: the mode that ends first; null: that for all. */
  readonly modeOf: ArrayLike<number> | null;
  /** Raises of the earlier stage tried for one window that may lapse before it is let lapse. */
  readonly patience: number;
  readonly allowOvertime: boolean;
  /** Earliest starts by relations alone. */
  readonly earliest: ArrayLike<number>;
  /** Most raises, each of which counts as a schedule. */
  readonly mostRaises?: number;
}

export type PassResult =
  | { readonly ok: true; readonly plan: Assignment; readonly generated: number }
  | { readonly ok: false; readonly obstacle: Obstacle; readonly generated: number };

const RAISE_LIMIT = 400;
/** A window that does not hold after so many raises is not going to. */
const RAISES_PER_ARC = 40;

const boards = new WeakMap<Compiled, Board>();

/** The board of a problem; every pass begins by clearing it. */
export function boardOf(compiled: Compiled): Board {
  const board = boards.get(compiled) ?? new Board(compiled);
  boards.set(compiled, board);
  return board;
}

/**
 * One pass by urgency.
 * @param priority smaller is placed first among stages that are free to be placed; ties by id
 */
export function placeByPriority(
  compiled: Compiled,
  priority: ArrayLike<number>,
  options: PassOptions,
): PassResult {
  return placeList(compiled, listByPriority(compiled, priority), options);
}

/** One pass over a list of all open stages; what has to wait for others is placed after them. */
export function placeList(
  compiled: Compiled,
  list: ArrayLike<number>,
  options: PassOptions,
): PassResult {
  const pass = new LeftPass(boardOf(compiled), list, options);
  const obstacle = pass.run();
  const { generated } = pass;
  return obstacle ? { ok: false, obstacle, generated } : { ok: true, plan: pass.plan(), generated };
}

/** Open stages in an order that keeps precedence, the most urgent of those that are free first. */
export function listByPriority(compiled: Compiled, priority: ArrayLike<number>): Int32Array {
  const { stages, before, after } = compiled;
  const waiting = before.map(
    (list) => list.filter((i) => stages[i]!.spec.fixedStart === null).length,
  );
  const free = stages
    .map((stage) => stage.index)
    .filter((i) => stages[i]!.spec.fixedStart === null && waiting[i] === 0);
  const list: number[] = [];
  while (free.length > 0) {
    let best = 0;
    for (let k = 1; k < free.length; k++) {
      const [a, b] = [free[k]!, free[best]!];
      const difference = priority[a]! - priority[b]!;
      if (difference < 0 || (difference === 0 && stages[a]!.rank < stages[b]!.rank)) best = k;
    }
    const i = free[best]!;
    free.splice(best, 1);
    list.push(i);
    for (const next of after[i]!) {
      if (stages[next]!.spec.fixedStart === null && --waiting[next]! === 0) free.push(next);
    }
  }
  return Int32Array.from(list);
}

/** Puts records and pins on an empty board, for a pass to the left or to the right. */
export function placeFixed(
  board: Board,
  modeOf: ArrayLike<number> | null,
  rightward = false,
): void {
  board.clear(rightward);
  for (const stage of board.c.stages) {
    const { index, spec, modes } = stage;
    if (spec.fixedStart === null) continue;
    const m = Math.max(0, modeOf ? modeOf[index]! : -1);
    board.commit(index, m, spec.fixedStart, fixedEndOf(stage, modes[m]), 0);
  }
}

const HELD = 'held';
const PLACED = 'placed';
const RAISED = 'raised';
type Outcome = typeof HELD | typeof PLACED | typeof RAISED | Obstacle;

/** A pass under way; `generated` counts it and every raise. */
export class LeftPass {
  private readonly c: Compiled;
  private readonly board: Board;
  private readonly list: ArrayLike<number>;
  private readonly options: PassOptions;
  /** Floors raised by greatest lags. */
  private raised: Map<number, number> | null = null;
  private missed: Map<number, number> | null = null;
  private raises: Map<Arc, number> | null = null;
  /** Stages whose window lapsed: only their repairs are open. */
  private lapsed: Set<number> | null = null;
  private cursor = 0;
  private spotEnd = 0;
  private spotStep = 0;
  generated = 1;

  constructor(board: Board, list: ArrayLike<number>, options: PassOptions) {
    this.c = board.c;
    this.board = board;
    this.list = list;
    this.options = options;
  }

  /** Null when every stage stands on the board. */
  run(): Obstacle | null {
    placeFixed(this.board, this.options.modeOf);
    const count = this.c.stages.length;
    while (this.board.placedCount < count) {
      const blocked = this.placeNext();
      if (blocked) return blocked;
    }
    return null;
  }

  plan(): Assignment {
    const { board, c } = this;
    const missedPins = [...(this.missed ?? [])].map(([i, pin]) => ({
      stage: c.stages[i]!.spec.id,
      byMinutes: board.startOf(i) - pin,
    }));
    return {
      start: c.stages.map((_, i) => board.startOf(i)),
      end: c.stages.map((_, i) => board.endOf(i)),
      mode: [...board.mode],
      missedPins,
    };
  }

  /** Minutes by which pins gave way. */
  get missedMinutes(): number {
    let sum = 0;
    for (const [i, pin] of this.missed ?? []) sum += this.board.startOf(i) - pin;
    return sum;
  }

  private chosenMode(i: number): number {
    return this.options.modeOf ? this.options.modeOf[i]! : -1;
  }

  /** Places the next free stage of the list; an obstacle when none can ever stand. */
  private placeNext(): Obstacle | null {
    const { list } = this;
    const { placed, waiting } = this.board;
    while (this.cursor < list.length && placed[list[this.cursor]!]) this.cursor++;
    let held = -1;
    for (let k = this.cursor; k < list.length; k++) {
      const i = list[k]!;
      if (placed[i] || waiting[i]! > 0) continue;
      const outcome = this.tryStage(i);
      if (outcome === PLACED) return null;
      if (outcome === RAISED) {
        this.cursor = 0;
        return null;
      }
      if (outcome !== HELD) return outcome;
      held = i;
    }
    return this.deadlock(held);
  }

  private deadlock(held: number): Obstacle {
    const stage = this.c.stages[Math.max(0, held)]!;
    return {
      stage: stage.spec.id,
      reason: 'no-capacity',
      args: { what: 'gear-in-a-ring', stage: stage.spec.name },
    };
  }

  private tryStage(i: number): Outcome {
    const { board } = this;
    const stage = this.c.stages[i]!;
    const chosen = this.chosenMode(i);
    if (stage.modes.length === 1 && board.rows.leftChecks[i]!.length === 0) {
      const start = this.fit(i, stage.modes[0]!);
      if (start === FAR) return HELD;
      if (start === NEVER) return this.tooLate(i, stage.modes[0]!);
      board.commit(i, 0, start, this.spotEnd, this.spotStep);
      return PLACED;
    }
    let best = -1;
    let bestStart = 0;
    let bestEnd = FAR;
    let bestStep = 0;
    let clash: Clash | null = null;
    let held = false;
    let obstacle: Obstacle | null = null;
    for (let tier = 0; tier < 2 && best < 0; tier++) {
      if (tier === 1 && (chosen >= 0 || (clash && this.patient(clash.arc)))) break;
      for (let m = 0; m < stage.modes.length; m++) {
        const mode = stage.modes[m]!;
        if (chosen >= 0 ? m !== chosen : !this.inTier(i, mode, tier)) continue;
        const start = this.fit(i, mode);
        if (start === NEVER) obstacle ??= this.tooLate(i, mode);
        else if (start === FAR) held = true;
        else {
          const against = board.clashOf(i, m, start, this.spotEnd);
          if (against) clash = this.easier(clash, against);
          else if (best < 0 || this.spotEnd < bestEnd) {
            best = m;
            bestStart = start;
            bestEnd = this.spotEnd;
            bestStep = this.spotStep;
          }
        }
      }
      if (chosen >= 0) break;
    }
    if (best >= 0) {
      board.commit(i, best, bestStart, bestEnd, bestStep);
      return PLACED;
    }
    if (clash) return this.raise(i, clash);
    if (held) return HELD;
    return obstacle ?? this.noMode(i);
  }

  /** First tier: modes without repair, unless its window lapsed; second: the repairs. */
  private inTier(i: number, mode: PlanMode, tier: number): boolean {
    if (mode.overtimeMinutes > 0 && !this.options.allowOvertime) return false;
    if (this.lapsed?.has(i) && !mode.repair) return false;
    return mode.repair === (tier === 1);
  }

  private patient(arc: Arc): boolean {
    return (this.raises?.get(arc) ?? 0) < this.options.patience;
  }

  private noMode(i: number): Obstacle {
    const { spec } = this.c.stages[i]!;
    return { stage: spec.id, reason: 'no-mode', args: { what: 'nobody-can', stage: spec.name } };
  }

  private easier(known: Clash | null, next: Clash): Clash {
    if (!known) return next;
    return this.board.isFixed(known.stage) && !this.board.isFixed(next.stage) ? next : known;
  }

  /**
   * First start at or after the floor where calendar, resources and air are free; its end and step
   * stand in `spotEnd` and `spotStep`. FAR: something it needs is kept for ever; NEVER: too late.
   */
  private fit(i: number, mode: PlanMode): number {
    const { board, options } = this;
    const { horizon } = this.c.problem;
    const own = Math.max(options.earliest[i]!, options.from, this.raised?.get(i) ?? NEVER);
    let at = board.floorOf(i, mode, own);
    let near = board.nearStep;
    for (;;) {
      if (at > horizon) return NEVER;
      const start = board.timeline.earliestFit(mode, at, horizon, near);
      if (start === NEVER || start === FAR) return start;
      const { end, stepAtStart } = board.timeline;
      const free = board.otherConflict(i, mode, start, end);
      if (free < 0) {
        this.spotEnd = end;
        this.spotStep = stepAtStart;
        return start;
      }
      if (free >= FAR) return FAR;
      at = Math.max(free, start + 1);
      near = stepAtStart;
    }
  }

  private tooLate(i: number, mode: PlanMode): Obstacle {
    const { spec } = this.c.stages[i]!;
    const raised = [...(this.raises?.keys() ?? [])].pop();
    if (raised) return windowObstacle(this.c, raised);
    if (this.board.floorOf(i, mode, this.options.from) >= FAR) {
      return {
        stage: spec.id,
        reason: 'never-ends',
        args: { what: 'waits-for-ever', stage: spec.name },
      };
    }
    return obstacleFor(this.c, i, mode, this.options.from);
  }

  /** Raises the stage in the way and goes back to where it was placed. */
  private raise(i: number, clash: Clash): typeof RAISED | Obstacle {
    const { stage, arc } = clash;
    const { board } = this;
    const { spec, modes } = this.c.stages[stage]!;
    if (this.generated >= (this.options.mostRaises ?? RAISE_LIMIT))
      return windowObstacle(this.c, arc);
    if (this.canLapse(arc) && !this.patient(arc)) return this.letLapse(arc);
    const raises = (this.raises?.get(arc) ?? 0) + 1;
    (this.raises ??= new Map()).set(arc, raises);
    if (raises > RAISES_PER_ARC) return windowObstacle(this.c, arc);
    if (spec.fixedStart !== null) {
      return this.canLapse(arc) ? this.letLapse(arc) : this.missPin(i, clash);
    }
    const floor = Math.max(this.options.earliest[stage]!, this.raised?.get(stage) ?? NEVER);
    const current = stage === i ? floor : board.startOf(stage);
    const mode = board.placed[stage] ? [modes[board.mode[stage]!]!] : modes;
    const start = clash.byEnd ? startForEnd(mode, clash.anchor, current) : clash.anchor;
    if (this.generated > RAISE_LIMIT || start > this.c.problem.horizon || start <= floor) {
      return windowObstacle(this.c, clash.arc);
    }
    this.generated++;
    (this.raised ??= new Map()).set(stage, start);
    if (board.placed[stage]) board.unwind(board.positionOf(stage));
    return RAISED;
  }

  /** True when the relation is a window with a repair that is still open. */
  private canLapse(arc: Arc): boolean {
    const i = arc.ifStage;
    if (i < 0 || this.lapsed?.has(i) || this.chosenMode(i) >= 0) return false;
    const { spec, modes } = this.c.stages[i]!;
    return spec.fixedStart === null && modes.some((mode) => mode.repair);
  }

  private letLapse(arc: Arc): typeof RAISED {
    this.generated++;
    (this.lapsed ??= new Set()).add(arc.ifStage);
    if (this.board.placed[arc.ifStage]) this.board.unwind(this.board.positionOf(arc.ifStage));
    return RAISED;
  }

  /** A pin not yet begun gives way and is reported; what has really begun cannot. */
  private missPin(i: number, clash: Clash): typeof RAISED | Obstacle {
    const { from } = this.options;
    if (clash.stage === i) return windowObstacle(this.c, clash.arc);
    const move = { clash, from, modeOf: (k: number) => this.chosenMode(k) };
    const moved = movedPins(this.c, this.board, move, RAISE_LIMIT - this.generated);
    this.generated += moved.tried;
    if (!moved.spots) return windowObstacle(this.c, clash.arc);
    this.missed ??= new Map();
    for (const k of moved.pins) {
      if (!this.missed.has(k)) this.missed.set(k, this.c.stages[k]!.spec.fixedStart!);
    }
    this.board.clear(false);
    for (const [k, spot] of moved.spots) this.board.commit(k, spot.mode, spot.start, spot.end, 0);
    return RAISED;
  }
}
