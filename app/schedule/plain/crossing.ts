/** How a list is made from two members, and how it is changed a little. */
import type { Random } from '../random.ts';
import { workIn, type Member } from './member.ts';
import type { Network } from './network.ts';

/** Stretches of time looked at for each crossing; the one that gains most work is taken. */
const STRETCHES = 3;
const SHORTEST_SHARE = 0.2;
const LONGEST_SHARE = 0.8;

/** Sorts activities by a small whole key, ties in the order given; buckets are reused. */
export class KeySorter {
  private readonly head: Int32Array;
  private readonly next: Int32Array;

  constructor(count: number, horizon: number) {
    this.head = new Int32Array(horizon + 2);
    this.next = new Int32Array(count);
  }

  /** Writes `count` members sorted by their key into `out` from a position on. */
  sort(out: Int32Array, at: number, members: Int32Array, count: number, key: Int32Array): void {
    const { head, next } = this;
    let low = head.length;
    let high = -1;
    for (let k = 0; k < count; k++) {
      const t = key[members[k]!]!;
      if (t < low) low = t;
      if (t > high) high = t;
    }
    if (high >= low) head.fill(-1, low, high + 1);
    for (let k = count - 1; k >= 0; k--) {
      const i = members[k]!;
      next[i] = head[key[i]!]!;
      head[key[i]!] = i;
    }
    for (let t = low; t <= high; t++) {
      for (let i = head[t]!; i >= 0; i = next[i]!) out[at++] = i;
    }
  }
}

/** The stretch of time in which the father does most more work than the mother. */
function bestStretch(mother: Member, father: Member, random: Random): { from: number; to: number } {
  let best = { from: 0, to: 0 };
  let bestGain = -Infinity;
  for (let k = 0; k < STRETCHES; k++) {
    const share = SHORTEST_SHARE + random.next() * (LONGEST_SHARE - SHORTEST_SHARE);
    const length = Math.floor(mother.makespan * share);
    const from = Math.floor(random.next() * (mother.makespan - length + 1));
    const to = from + length;
    const gain = workIn(father, from, to) - workIn(mother, from, to);
    if (gain > bestGain) {
      bestGain = gain;
      best = { from, to };
    }
  }
  return best;
}

/**
 * A list in the mother's order, but for one stretch of time in the father's. `topological` lists
 * the activities of the direction in which the list will be placed, so that ties stay feasible.
 */
export function cross(
  list: Int32Array,
  mother: Member,
  father: Member,
  topological: Int32Array,
  sorter: KeySorter,
  scratch: Int32Array,
  random: Random,
): void {
  const { from, to } = bestStretch(mother, father, random);
  let at = 0;
  for (let part = 0; part < 3; part++) {
    let count = 0;
    for (let k = 0; k < topological.length; k++) {
      const i = topological[k]!;
      const t = mother.key[i]!;
      if ((t < from ? 0 : t <= to ? 1 : 2) === part) scratch[count++] = i;
    }
    if (count > 0) sorter.sort(list, at, scratch, count, part === 1 ? father.key : mother.key);
    at += count;
  }
}

/** Moves one activity within the room that its neighbours leave it in the list. */
export function moveOne(
  network: Network,
  list: Int32Array,
  position: Int32Array,
  random: Random,
): void {
  const count = list.length;
  const k = random.below(count);
  const i = list[k]!;
  for (let p = 0; p < count; p++) position[list[p]!] = p;
  let low = 0;
  let high = count - 1;
  const { before, beforeFrom, after, afterFrom } = network;
  for (let e = beforeFrom[i]!; e < beforeFrom[i + 1]!; e++) {
    low = Math.max(low, position[before[e]!]! + 1);
  }
  for (let e = afterFrom[i]!; e < afterFrom[i + 1]!; e++) {
    high = Math.min(high, position[after[e]!]! - 1);
  }
  if (high <= low) return;
  const to = low + random.below(high - low + 1);
  if (to < k) list.copyWithin(to + 1, to, k);
  else list.copyWithin(k, k + 1, to + 1);
  list[to] = i;
}
