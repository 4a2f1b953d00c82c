/**
 * Serial schedule generation to the right: stages of a list, last first, each as late as its calendar,
 * its partners' places and a common end allow. Placing the stages of a schedule so, and then to the
 * left again, is its justification, or forward-backward improvement (K. Li, R. Willis, 1992; V. Valls,
 * F. Ballestin, S. Quintanilla, 2005).
 */
import type { Board } from './board.ts';
import type { Arc, PlanMode } from './compile.ts';
import { FAR, NEVER } from './length.ts';
import { BEGINNING } from './timeline.ts';
import { placeFixed } from './pass.ts';
import { anchorBefore, arcCeiling, arcFloor } from './windows.ts';

export interface RightOptions {
  /** Everything ends by then. */
  readonly endBy: number;
  readonly modeOf: ArrayLike<number> | null;
  readonly allowOvertime: boolean;
  readonly allowRepairs: boolean;
  /** Schedules that may be generated: each stage lowered for a greatest lag counts as one. */
  readonly most: number;
}

/** Stages lowered for greatest lags in one pass. */
const MOST_LOWERED = 12;

export class RightPass {
  private readonly board: Board;
  private readonly list: ArrayLike<number>;
  private readonly options: RightOptions;
  /** Ceilings lowered by greatest lags. */
  private lowered: Map<number, number> | null = null;
  private startBy = FAR;
  private endBy = FAR;
  private near = BEGINNING;
  private spotEnd = 0;
  private spotStep = 0;
  private brokenCeiling = FAR;
  /** Where stages go that find no place: before everything else, in their order. */
  private beyond = NEVER / 2;
  generated = 1;
  /** Stages that found no place, or broke a relation. */
  misplaced = 0;

  constructor(board: Board, list: ArrayLike<number>, options: RightOptions) {
    this.board = board;
    this.list = list;
    this.options = options;
  }

  /** Places every stage of the list on the board. */
  run(): void {
    const { board, list } = this;
    placeFixed(board, this.options.modeOf, true);
    const { placed, waiting } = board;
    const count = placed.length;
    let cursor = 0;
    while (board.placedCount < count) {
      while (cursor < list.length && placed[list[cursor]!]) cursor++;
      let next = -1;
      for (let k = cursor; k < list.length; k++) {
        const i = list[k]!;
        if (placed[i] || waiting[i]! > 0) continue;
        next = i;
        break;
      }
      // What waits for a record that comes after it is placed in any order.
      if (next < 0) next = list[cursor]!;
      if (!this.placeStage(next)) cursor = 0;
    }
  }

  /** False when a later partner was taken off the board to be placed earlier. */
  private placeStage(i: number): boolean {
    const { board, options } = this;
    const { modes } = board.c.stages[i]!;
    if (board.rows.plain.right[i]) {
      if (this.placePlain(i, modes[0]!) === NEVER) this.misplace(i, 0);
      return true;
    }
    const chosen = options.modeOf ? options.modeOf[i]! : -1;
    if (modes.length === 1 && board.rows.rightChecks[i]!.length === 0) {
      const start = this.fit(i, modes[0]!);
      if (start !== NEVER) board.commit(i, 0, start, this.spotEnd, this.spotStep);
      else this.misplace(i, 0);
      return true;
    }
    let best = -1;
    let bestStart = NEVER;
    let bestEnd = NEVER;
    let bestStep = BEGINNING;
    let clash: Arc | null = null;
    for (let tier = 0; tier < 2 && best < 0; tier++) {
      for (let m = 0; m < modes.length; m++) {
        const mode = modes[m]!;
        if (chosen >= 0 ? m !== chosen || tier > 0 : !this.inTier(mode, tier)) continue;
        const start = this.fit(i, mode);
        if (start === NEVER || start <= bestStart) continue;
        const broken = this.brokenAt(i, mode, start, this.spotEnd);
        if (broken) {
          clash = broken;
          continue;
        }
        best = m;
        bestStart = start;
        bestEnd = this.spotEnd;
        bestStep = this.spotStep;
      }
    }
    if (best >= 0) {
      board.commit(i, best, bestStart, bestEnd, bestStep);
      return true;
    }
    if (clash && this.lower(i, clash)) return false;
    this.misplace(i, Math.max(0, chosen));
    return true;
  }

  private placePlain(i: number, mode: PlanMode): number {
    this.bound(i, mode);
    if (this.endBy <= NEVER / 2 || this.startBy <= NEVER / 2) return NEVER;
    const minute = Math.min(this.startBy, this.endBy - mode.minutes);
    return this.board.placeLatest(i, minute, this.near);
  }

  private misplace(i: number, m: number): void {
    this.misplaced++;
    this.beyond--;
    this.board.commit(i, m, this.beyond, this.beyond, BEGINNING);
  }

  private inTier(mode: PlanMode, tier: number): boolean {
    if (mode.overtimeMinutes > 0 && !this.options.allowOvertime) return false;
    return mode.repair ? tier === 1 || this.options.allowRepairs : tier === 0;
  }

  /** Last start that calendar, partners, resources and air allow; NEVER when there is none. */
  private fit(i: number, mode: PlanMode): number {
    const { board } = this;
    this.bound(i, mode);
    for (;;) {
      if (this.endBy <= NEVER / 2 || this.startBy <= NEVER / 2) return NEVER;
      const start = board.timeline.latestFit(mode, this.startBy, this.endBy, this.near);
      if (start === NEVER) return NEVER;
      const { end, stepAtStart } = board.timeline;
      const clear = board.otherConflictBefore(i, mode, start, end);
      if (clear === FAR) {
        this.spotEnd = end;
        this.spotStep = stepAtStart;
        return start;
      }
      this.endBy = clear;
    }
  }

  /** Latest start and end by the partners that stand. */
  private bound(i: number, mode: PlanMode): void {
    const { board } = this;
    const { at, placed, rows } = board;
    const { from, anchor, lag, ownEnd } = rows.right;
    let startBy = this.lowered?.get(i) ?? FAR;
    let endBy = this.options.endBy;
    let near = -1;
    for (let k = from[i]!; k < from[i + 1]!; k++) {
      const a = anchor[k]!;
      if (!placed[a >> 1]) continue;
      const t = at[a]! - lag[k]!;
      if (ownEnd[k]) {
        if (t <= endBy) {
          endBy = t;
          near = a;
        }
      } else if (t < startBy) {
        startBy = t;
        near = a;
      }
    }
    const ceilings = rows.ceilings[i]!;
    for (let k = 0; k < ceilings.length; k++) {
      const arc = ceilings[k]!;
      if (!board.active(arc, i, mode)) continue;
      if (!arc.atLeast) {
        if (placed[arc.from]) startBy = Math.min(startBy, arcCeiling(arc, board.anchorOf(arc)));
      } else if (placed[arc.to]) {
        const latest = anchorBefore(arc, board.startOf(arc.to));
        if (arc.fromEnd) endBy = Math.min(endBy, latest);
        else startBy = Math.min(startBy, latest);
      }
    }
    this.startBy = startBy;
    this.endBy = endBy;
    this.near = near < 0 ? BEGINNING : board.stepAt(near);
  }

  /** A relation with a standing stage that this spot would break. */
  private brokenAt(i: number, mode: PlanMode, start: number, end: number): Arc | null {
    const { board } = this;
    for (const arc of board.rows.rightChecks[i]!) {
      if (!board.active(arc, i, mode)) continue;
      if ((arc.from !== i && !board.placed[arc.from]) || (arc.to !== i && !board.placed[arc.to])) {
        continue;
      }
      const anchor = arc.from === i ? (arc.fromEnd ? end : start) : board.anchorOf(arc);
      const to = arc.to === i ? start : board.startOf(arc.to);
      if (arc.atLeast) {
        if (to < arcFloor(arc, anchor)) return arc;
        continue;
      }
      const ceiling = arcCeiling(arc, anchor);
      if (to <= ceiling) continue;
      this.brokenCeiling = ceiling;
      return arc;
    }
    return null;
  }

  /** A greatest lag draws the later partner to the left, and the pass goes back to it. */
  private lower(i: number, arc: Arc): boolean {
    const { board } = this;
    const later = arc.to;
    if (arc.atLeast || arc.from !== i || board.isFixed(later)) return false;
    if (this.generated >= Math.min(MOST_LOWERED, this.options.most)) return false;
    const ceiling = this.brokenCeiling;
    if (ceiling >= board.startOf(later) || ceiling <= NEVER / 2) return false;
    this.generated++;
    (this.lowered ??= new Map()).set(later, ceiling);
    board.unwind(board.positionOf(later));
    return true;
  }
}
