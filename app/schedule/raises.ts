/**
 * What gives way in a pass to the left where a greatest lag does not hold: the earlier stage is raised, a
 * window with a repair lapses, a pin is missed. Each of them counts as a schedule.
 */
import type { Board, Clash } from './board.ts';
import type { Arc, Compiled } from './compile.ts';
import { NEVER } from './length.ts';
import { windowObstacle } from './obstacles.ts';
import type { MissedPin, Obstacle } from './problem.ts';
import { movedPins } from './pins.ts';
import { startForEnd } from './windows.ts';

const RAISE_LIMIT = 400;
/** A window that does not hold after so many raises is not going to. */
const RAISES_PER_ARC = 40;

export const RAISED = 'raised';
export type RaiseOutcome = typeof RAISED | Obstacle;

export interface RaiseOptions {
  readonly from: number;
  /** Index into `modes`, or -1: the mode that ends first; null: that for all. */
  readonly modeOf: ArrayLike<number> | null;
  /** Raises of the earlier stage tried for one window that may lapse before it is let lapse. */
  readonly raisesBeforeRepair: number;
  /** Earliest starts by relations alone. */
  readonly earliest: ArrayLike<number>;
  /** Most raises, each of which counts as a schedule. */
  readonly mostRaises?: number;
}

export class WindowRaiser {
  private readonly c: Compiled;
  private readonly board: Board;
  private readonly options: RaiseOptions;
  /** Floors raised by greatest lags. */
  private raised: Map<number, number> | null = null;
  private missed: Map<number, number> | null = null;
  private raises: Map<Arc, number> | null = null;
  /** Stages whose window lapsed: only their repairs are open. */
  private lapsed: Set<number> | null = null;
  /** The pass itself, and all that gave way. */
  generated = 1;

  constructor(board: Board, options: RaiseOptions) {
    this.c = board.c;
    this.board = board;
    this.options = options;
  }

  /** Floor of a stage by what it was raised to. */
  floorOf(i: number): number {
    return this.raised?.get(i) ?? NEVER;
  }

  /** True where only repairs are open: the stage's window lapsed. */
  hasLapsed(i: number): boolean {
    return this.lapsed?.has(i) ?? false;
  }

  /** The relation raised for last; undefined: none was. */
  lastRaised(): Arc | undefined {
    return [...(this.raises?.keys() ?? [])].pop();
  }

  missedPins(): MissedPin[] {
    return [...(this.missed ?? [])].map(([i, pin]) => ({
      stage: this.c.stages[i]!.spec.id,
      byMinutes: this.board.startOf(i) - pin,
    }));
  }

  /** Minutes by which pins gave way. */
  get missedMinutes(): number {
    let sum = 0;
    for (const [i, pin] of this.missed ?? []) sum += this.board.startOf(i) - pin;
    return sum;
  }

  /** False once a window was raised for often enough to be let lapse. */
  isPatient(arc: Arc): boolean {
    return (this.raises?.get(arc) ?? 0) < this.options.raisesBeforeRepair;
  }

  private chosenMode(i: number): number {
    return this.options.modeOf ? this.options.modeOf[i]! : -1;
  }

  /** Raises the stage in the way and goes back to where it was placed. */
  raise(i: number, clash: Clash): RaiseOutcome {
    const { stage, arc } = clash;
    const { board } = this;
    const { spec, modes } = this.c.stages[stage]!;
    if (this.generated >= (this.options.mostRaises ?? RAISE_LIMIT))
      return windowObstacle(this.c, arc);
    if (this.canLapse(arc) && !this.isPatient(arc)) return this.letLapse(arc);
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
  private missPin(i: number, clash: Clash): RaiseOutcome {
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
