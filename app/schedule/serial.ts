/**
 * Serial schedule generation to the left: stages of a list placed one after another, each at the
 * first moment that its calendar, relations, resources and the room's air allow. A greatest lag that
 * does not hold raises the earlier stage and the pass resumes from there.
 */
import type { Board, Clash } from './board.ts';
import type { Compiled, PlanMode } from './compile.ts';
import { WindowRaiser, RAISED, type RaiseOptions } from './raises.ts';
import { FAR, NEVER } from './length.ts';
import { gearDeadlock, noCapableCrew, obstacleFor, windowObstacle } from './obstacles.ts';
import { boardOf, listByPriority, placeFixed } from './pass.ts';
import type { MissedPin, Obstacle } from './problem.ts';

/** A complete assignment, by stage index; `mode` is an index into the stage's usable modes. */
export interface Assignment {
  readonly start: number[];
  readonly end: number[];
  readonly mode: number[];
  readonly missedPins: readonly MissedPin[];
}

export interface PassOptions extends RaiseOptions {
  readonly allowOvertime: boolean;
}

export type PassResult =
  | { readonly ok: true; readonly plan: Assignment; readonly generated: number }
  | { readonly ok: false; readonly obstacle: Obstacle; readonly generated: number };

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

const HELD = 'held';
const PLACED = 'placed';
type Outcome = typeof HELD | typeof PLACED | typeof RAISED | Obstacle;

/** A pass under way; `generated` counts it and every raise. */
export class LeftPass {
  private readonly c: Compiled;
  private readonly board: Board;
  private readonly list: ArrayLike<number>;
  private readonly options: PassOptions;
  private readonly raiser: WindowRaiser;
  private cursor = 0;
  private spotEnd = 0;
  private spotStep = 0;

  constructor(board: Board, list: ArrayLike<number>, options: PassOptions) {
    this.c = board.c;
    this.board = board;
    this.list = list;
    this.options = options;
    this.raiser = new WindowRaiser(board, options);
  }

  get generated(): number {
    return this.raiser.generated;
  }

  /** Minutes by which pins gave way. */
  get missedMinutes(): number {
    return this.raiser.missedMinutes;
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
    return {
      start: c.stages.map((_, i) => board.startOf(i)),
      end: c.stages.map((_, i) => board.endOf(i)),
      mode: [...board.mode],
      missedPins: this.raiser.missedPins(),
    };
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
    return gearDeadlock(this.c.stages[Math.max(0, held)]!.spec);
  }

  private tryStage(i: number): Outcome {
    const { board } = this;
    const stage = this.c.stages[i]!;
    if (board.rows.plain.left[i]) return this.tryPlain(i);
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
      if (tier === 1 && (chosen >= 0 || (clash && this.raiser.isPatient(clash.arc)))) break;
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
    if (clash) return this.raiser.raise(i, clash);
    if (held) return HELD;
    return obstacle ?? noCapableCrew(stage.spec);
  }

  private tryPlain(i: number): Outcome {
    const { board } = this;
    const mode = this.c.stages[i]!.modes[0]!;
    const minute = board.floorOf(i, mode, this.ownFloor(i));
    const start = board.placeEarliest(i, minute, this.c.problem.horizon);
    if (start === FAR) return HELD;
    return start === NEVER ? this.tooLate(i, mode) : PLACED;
  }

  private ownFloor(i: number): number {
    const { earliest, from } = this.options;
    return Math.max(earliest[i]!, from, this.raiser.floorOf(i));
  }

  /** First tier: modes without repair, unless its window lapsed; second: the repairs. */
  private inTier(i: number, mode: PlanMode, tier: number): boolean {
    if (mode.overtimeMinutes > 0 && !this.options.allowOvertime) return false;
    if (this.raiser.hasLapsed(i) && !mode.repair) return false;
    return mode.repair === (tier === 1);
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
    const { board } = this;
    const { horizon } = this.c.problem;
    let at = board.floorOf(i, mode, this.ownFloor(i));
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
    const raised = this.raiser.lastRaised();
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
}
