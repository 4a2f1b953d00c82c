/** The serial pass of the plain case: each activity of a list at its first free moment. */
import type { Network } from './network.ts';

/** Reusable timetable of one network. */
export interface Timetable {
  readonly free: Int32Array;
  readonly words: number;
}

export function makeTimetable(network: Network): Timetable {
  const { words } = network.packing;
  return { free: new Int32Array((network.horizon + 1) * words), words };
}

function clear(timetable: Timetable, idle: Int32Array): void {
  if (timetable.words === 1) {
    timetable.free.fill(idle[0]!);
    return;
  }
  const { free, words } = timetable;
  for (let t = 0; t < free.length; t += words) free.set(idle, t);
}

/**
 * Places the activities of a precedence-feasible list one after another.
 * @returns the makespan; `start` holds the starts.
 */
export function placeList(
  network: Network,
  list: Int32Array,
  start: Int32Array,
  timetable: Timetable,
): number {
  const { duration, before, beforeFrom, packing } = network;
  clear(timetable, packing.idle);
  if (packing.words > 1) return placeWide(network, list, start, timetable);
  const { free } = timetable;
  const { demand } = packing;
  const guard = packing.guards[0]!;
  let makespan = 0;
  for (let k = 0; k < list.length; k++) {
    const i = list[k]!;
    let at = 0;
    for (let e = beforeFrom[i]!; e < beforeFrom[i + 1]!; e++) {
      const p = before[e]!;
      const end = start[p]! + duration[p]!;
      if (end > at) at = end;
    }
    const length = duration[i]!;
    const need = demand[i]!;
    if (length > 0 && need !== 0) {
      let run = 0;
      let u = at;
      while (run < length) {
        run = ((free[u]! - need) & guard) === guard ? run + 1 : 0;
        u++;
      }
      at = u - length;
      for (let t = at; t < u; t++) free[t]! -= need;
    }
    start[i] = at;
    if (at + length > makespan) makespan = at + length;
  }
  return makespan;
}

/** The same for more resources than one word holds. */
function placeWide(
  network: Network,
  list: Int32Array,
  start: Int32Array,
  timetable: Timetable,
): number {
  const { duration, before, beforeFrom } = network;
  const { words, demand, guards } = network.packing;
  const { free } = timetable;
  let makespan = 0;
  for (let k = 0; k < list.length; k++) {
    const i = list[k]!;
    let at = 0;
    for (let e = beforeFrom[i]!; e < beforeFrom[i + 1]!; e++) {
      at = Math.max(at, start[before[e]!]! + duration[before[e]!]!);
    }
    const length = duration[i]!;
    let run = 0;
    let u = at;
    while (run < length) {
      let fits = true;
      for (let w = 0; fits && w < words; w++) {
        fits = ((free[u * words + w]! - demand[i * words + w]!) & guards[w]!) === guards[w]!;
      }
      run = fits ? run + 1 : 0;
      u++;
    }
    at = u - length;
    for (let t = at; t < u; t++) {
      for (let w = 0; w < words; w++) free[t * words + w]! -= demand[i * words + w]!;
    }
    start[i] = at;
    makespan = Math.max(makespan, at + length);
  }
  return makespan;
}
