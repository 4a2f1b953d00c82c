/** What passes to the left and to the right share: the board, what is fixed on it, lists by urgency. */
import { Board } from './board.ts';
import type { Compiled } from './compile.ts';
import { fixedEndOf } from './windows.ts';

const boards = new WeakMap<Compiled, Board>();

/** The board of a problem; every pass begins by clearing it. */
export function boardOf(compiled: Compiled): Board {
  const board = boards.get(compiled) ?? new Board(compiled);
  boards.set(compiled, board);
  return board;
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
