/** Pins that the rest of a plan cannot keep: the one in the way is moved later, and those that it pushes. */
import type { Board, Candidate, Clash } from './board.ts';
import type { Compiled } from './compile.ts';
import { endFrom, NEVER, startFrom } from './length.ts';
import { arcFloor, startForEnd } from './windows.ts';

interface Move {
  /** The pin in the way, and the least anchor that is needed of it. */
  readonly clash: Clash;
  /** What is fixed before this has begun. */
  readonly from: number;
  /** Mode chosen for a stage; -1 for none. */
  readonly modeOf: (stage: number) => number;
}

export interface MovedPins {
  /** Everything fixed, in the order it was placed; null when the pin cannot go later. */
  readonly spots: ReadonlyMap<number, Candidate> | null;
  /** Those of them that moved. */
  readonly pins: readonly number[];
  /** Spots tried, each of which counts as a schedule. */
  readonly tried: number;
}

/** Where all that is fixed stands once the pin in the way has gone later. */
export function movedPins(c: Compiled, board: Board, move: Move, most: number): MovedPins {
  const minute = neededStart(c, board, move);
  const order = [...board.sequence.subarray(0, board.placedCount)].filter((k) => board.isFixed(k));
  const spots = new Map(order.map((k) => [k, board.spotOf(k)]));
  const pins: number[] = [];
  if (minute === null) return { spots: null, pins, tried: 0 };
  const open = [{ stage: move.clash.stage, minute }];
  let tried = 0;
  for (let next = open.shift(); next !== undefined; next = open.shift()) {
    const spot = spotFrom(c, next.stage, Math.max(0, move.modeOf(next.stage)), next.minute);
    if (!spot || tried++ > most) return { spots: null, pins, tried };
    pins.push(next.stage);
    spots.set(next.stage, spot);
    open.push(...pushedPins(c, next.stage, spots, move.from));
  }
  return { spots, pins, tried };
}

function neededStart(c: Compiled, board: Board, { clash, from }: Move): number | null {
  const { stage, anchor, byEnd } = clash;
  const [mode] = c.stages[stage]!.modes;
  if (!mode || hasBegun(c, stage, from)) return null;
  const start = byEnd ? startForEnd([mode], anchor, board.startOf(stage)) : anchor;
  return start > c.problem.horizon ? null : start;
}

function spotFrom(c: Compiled, stage: number, chosen: number, minute: number): Candidate | null {
  const mode = c.stages[stage]!.modes[chosen];
  const start = mode ? startFrom(mode, minute) : NEVER;
  const end = start === NEVER ? NEVER : endFrom(mode!, start);
  return end === NEVER || end > c.problem.horizon ? null : { mode: chosen, start, end };
}

/** Pins not yet begun that a moved one now overruns. */
function pushedPins(
  c: Compiled,
  moved: number,
  spots: ReadonlyMap<number, Candidate>,
  planFrom: number,
) {
  const from = spots.get(moved)!;
  return c.arcsOf[moved]!.flatMap((arc) => {
    const to = spots.get(arc.to);
    if (!arc.atLeast || arc.from !== moved || !to || arc.ifStage >= 0) return [];
    const least = arcFloor(arc, arc.fromEnd ? from.end : from.start);
    const stays = to.start >= least || hasBegun(c, arc.to, planFrom);
    return stays ? [] : [{ stage: arc.to, minute: least }];
  });
}

function hasBegun(c: Compiled, i: number, from: number): boolean {
  const { begun, fixedStart, fixedEnd } = c.stages[i]!.spec;
  return begun === true || fixedEnd !== null || fixedStart! < from;
}
