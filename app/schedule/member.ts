/** One schedule of a population, kept as the list in which it is placed the other way round. */
import type { Score } from './objective.ts';

/** Mode chosen for each stage; -1: the mode that suits best when it is placed. */
export type Genes = Int8Array;

export interface Member {
  /** Open stages in the order in which the next pass places them. */
  readonly list: Int32Array;
  /** Position in the list, by stage. */
  readonly rank: Int32Array;
  /** Minutes from the edge of the schedule at which the next pass begins, by position. */
  readonly distance: Int32Array;
  /** Work of the first so many stages of the list, all resources weighed alike. */
  readonly work: Float64Array;
  /** Minutes that the stages take, and their work in each of them, by position. */
  readonly minutes: Int32Array;
  readonly rate: Float64Array;
  readonly genes: Genes | null;
  readonly score: Score;
  /** Fingerprint of the places: two members of one population never share it. */
  readonly hash: number;
}

/** 53 bits over lists of whole numbers. */
export function hashOf(salt: number, ...lists: (Int32Array | Int8Array | null)[]): number {
  let a = 0x811c9dc5 ^ salt;
  let b = 0x1b873593 + salt;
  for (const list of lists) {
    if (list === null) continue;
    for (let i = 0; i < list.length; i++) {
      a = Math.imul(a ^ list[i]!, 0x01000193);
      b = Math.imul(b + list[i]!, 0x5bd1e995);
      b ^= b >>> 13;
    }
  }
  return (a >>> 0) * 2097152 + ((b >>> 0) & 2097151);
}

/**
 * Makes a member of a schedule just placed.
 * @param placedList the list it was placed by; its reverse settles ties
 * @param at start of stage i at `2 * i`, its end next to it
 * @param pushedRight the next pass goes left: distances are counted from the first start
 * @param edge first start, or last end
 * @param weight work of a stage
 */
export function makeMember(
  placedList: Int32Array,
  at: Int32Array,
  pushedRight: boolean,
  edge: number,
  weight: Float64Array,
  genes: Genes | null,
  score: Score,
): Member {
  const count = placedList.length;
  const list = new Int32Array(count);
  const distance = new Int32Array(count);
  // The reversed list is nearly sorted already.
  for (let k = 0; k < count; k++) {
    const i = placedList[count - 1 - k]!;
    const own = pushedRight ? at[2 * i]! - edge : edge - at[2 * i + 1]!;
    let p = k;
    while (p > 0 && distance[p - 1]! > own) {
      list[p] = list[p - 1]!;
      distance[p] = distance[p - 1]!;
      p--;
    }
    list[p] = i;
    distance[p] = own;
  }
  const rank = new Int32Array(at.length >> 1);
  const work = new Float64Array(count + 1);
  const minutes = new Int32Array(count);
  const rate = new Float64Array(count);
  for (let k = 0; k < count; k++) {
    const i = list[k]!;
    rank[i] = k;
    work[k + 1] = work[k]! + weight[i]!;
    const length = at[2 * i + 1]! - at[2 * i]!;
    minutes[k] = length;
    rate[k] = length > 0 ? weight[i]! / length : 0;
  }
  // Two lists of the same places differ in the order of ties and are yet one schedule.
  const places = rank.map((k) => distance[k]!);
  return {
    list,
    rank,
    distance,
    work,
    minutes,
    rate,
    genes,
    score,
    hash: hashOf(7, places, genes),
  };
}

/** Work of a member between two distances. */
export function workBetween(member: Member, from: number, to: number): number {
  const { distance, minutes, rate } = member;
  let sum = 0;
  for (let k = 0; k < distance.length && distance[k]! < to; k++) {
    const near = distance[k]!;
    const far = near + minutes[k]!;
    if (far > from) sum += rate[k]! * (Math.min(far, to) - Math.max(near, from));
  }
  return sum;
}
