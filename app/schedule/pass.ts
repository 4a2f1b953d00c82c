/** What passes to the left and to the right share: the board, what is fixed on it, lists by urgency. */
import { Board } from './board.ts';
import type { Compiled, PlanMode, PlanStage } from './compile.ts';
import { BEGINNING } from './timeline.ts';
import { fixedEndOf } from './windows.ts';

const boards = new WeakMap<Compiled, Board>();

/** The board of a problem; every pass begins by clearing it. */
export function boardOf(compiled: Compiled): Board {
  const board = boards.get(compiled) ?? new Board(compiled);
  boards.set(compiled, board);
  return board;
}

/** What lists by urgency are made with: room for one, and how many open stages come before each. */
interface Lister {
  readonly waits: Int32Array;
  readonly waiting: Int32Array;
  readonly free: Int32Array;
  readonly open: number;
}

const listers = new WeakMap<Compiled, Lister>();

function listerOf(compiled: Compiled): Lister {
  const known = listers.get(compiled);
  if (known) return known;
  const { stages, before } = compiled;
  const isOpen = (i: number): boolean => stages[i]!.spec.fixedStart === null;
  const waits = Int32Array.from(before, (list) => list.filter(isOpen).length);
  const lister = {
    waits,
    waiting: waits.slice(),
    free: new Int32Array(stages.length),
    open: stages.filter(({ index }) => isOpen(index)).length,
  };
  listers.set(compiled, lister);
  return lister;
}

/** Open stages in an order that keeps precedence, the most urgent of those that are free first. */
export function listByPriority(compiled: Compiled, priority: ArrayLike<number>): Int32Array {
  const { stages, after } = compiled;
  const { waits, waiting, free, open } = listerOf(compiled);
  waiting.set(waits);
  const list = new Int32Array(open);
  let count = 0;
  for (let i = 0; i < stages.length; i++) {
    if (waits[i] === 0 && stages[i]!.spec.fixedStart === null) free[count++] = i;
  }
  for (let at = 0; count > 0; at++) {
    let best = 0;
    for (let k = 1; k < count; k++) {
      const difference = priority[free[k]!]! - priority[free[best]!]!;
      if (difference > 0) continue;
      if (difference < 0 || stages[free[k]!]!.rank < stages[free[best]!]!.rank) best = k;
    }
    const i = free[best]!;
    free[best] = free[--count]!;
    list[at] = i;
    for (const next of after[i]!) {
      if (stages[next]!.spec.fixedStart === null && --waiting[next]! === 0) free[count++] = next;
    }
  }
  return list;
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
    const given = modeOf ? modeOf[index]! : -1;
    const m = given >= 0 ? given : soonestOver(board, stage);
    board.commit(index, m, spec.fixedStart, fixedEndOf(stage, modes[m]), 0);
  }
}

/** Of the ways that are free at its fixed start, no repair before others, the one that is over first. */
function soonestOver(board: Board, stage: PlanStage): number {
  const { fixedStart, fixedEnd } = stage.spec;
  if (fixedStart === null || fixedEnd !== null || stage.modes.length < 2) return 0;
  const { horizon } = board.c.problem;
  const isFree = (mode: PlanMode): boolean =>
    board.timeline.earliestFit(mode, fixedStart, horizon, BEGINNING) === fixedStart;
  const free = stage.modes.filter(isFree);
  const first = free.toSorted(
    (a, b) =>
      a.warnings - b.warnings ||
      a.overtimeMinutes - b.overtimeMinutes ||
      fixedEndOf(stage, a) - fixedEndOf(stage, b),
  )[0];
  return first ? stage.modes.indexOf(first) : 0;
}
