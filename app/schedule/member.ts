/** One schedule of a population, kept as the list in which it is placed the other way round. */
import type { Score } from './objective.ts';

/** Mode chosen for each stage; -1: the mode that suits best when it is placed. */
export type Genes = Int8Array;

/** What a member holds by position of its list, and by stage. */
export interface Places {
  /** Open stages in the order in which the next pass places them. */
  readonly list: Int32Array;
  /** Position in the list, by stage. */
  readonly rank: Int32Array;
  /** Minutes from the edge of the schedule at which the next pass begins, by position. */
  readonly distance: Int32Array;
  /** Minutes that the stages take, by position. */
  readonly minutes: Int32Array;
  /** Work of the first so many stages of the list, all resources weighed alike; read by `loaded`. */
  readonly work: Float64Array;
  /** Work in each minute of a stage, by position; read by `loaded`. */
  readonly rate: Float64Array;
}

export interface Member {
  readonly places: Places;
  readonly genes: Genes | null;
  readonly score: Score;
  /** Fingerprint of the places: two members of one population never share it. */
  readonly hash: number;
  /** Whether `work` and `rate` are worked out: most members are never crossed with another. */
  isLoaded: boolean;
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

/** Makes members; the arrays of those that are given up serve the next ones. */
export class MemberPool {
  private readonly open: number;
  private readonly weight: Float64Array;
  private readonly spare: Places[] = [];
  private readonly byStage: Int32Array;

  /**
   * @param open stages that are placed
   * @param weight work of each stage
   */
  constructor(open: number, weight: Float64Array) {
    this.open = open;
    this.weight = weight;
    this.byStage = new Int32Array(weight.length);
  }

  /**
   * A member of a schedule just placed.
   * @param placedList the list it was placed by; its reverse settles ties
   * @param at start of stage i at `2 * i`, its end next to it
   * @param pushedRight the next pass goes left: distances are counted from the first start
   * @param edge first start, or last end
   */
  make(
    placedList: Int32Array,
    at: Int32Array,
    pushedRight: boolean,
    edge: number,
    genes: Genes | null,
    score: Score,
  ): Member {
    const count = placedList.length;
    const places = this.spare.pop() ?? this.emptyPlaces();
    const { list, rank, distance, minutes } = places;
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
    // Two lists of the same places differ in the order of ties and are yet one schedule.
    const { byStage } = this;
    for (let k = 0; k < count; k++) {
      const i = list[k]!;
      rank[i] = k;
      minutes[k] = at[2 * i + 1]! - at[2 * i]!;
      byStage[i] = distance[k]!;
    }
    return { places, genes, score, hash: hashOf(7, byStage, genes), isLoaded: false };
  }

  /** A member that nobody looks at any more. */
  giveUp({ places }: Member): void {
    this.spare.push(places);
  }

  /** The places of a member with its work in time. */
  loaded(member: Member): Places {
    const { places } = member;
    if (member.isLoaded) return places;
    const { list, minutes, work, rate } = places;
    for (let k = 0; k < list.length; k++) {
      const own = this.weight[list[k]!]!;
      work[k + 1] = work[k]! + own;
      rate[k] = minutes[k]! > 0 ? own / minutes[k]! : 0;
    }
    member.isLoaded = true;
    return places;
  }

  private emptyPlaces(): Places {
    const { open } = this;
    return {
      list: new Int32Array(open),
      rank: new Int32Array(this.weight.length),
      distance: new Int32Array(open),
      minutes: new Int32Array(open),
      work: new Float64Array(open + 1),
      rate: new Float64Array(open),
    };
  }
}

/** Work between two distances. */
export function workBetween(
  { distance, minutes, rate }: Pick<Places, 'distance' | 'minutes' | 'rate'>,
  from: number,
  to: number,
): number {
  let sum = 0;
  for (let k = 0; k < distance.length; k++) {
    const near = distance[k]!;
    if (near >= to) break;
    const far = near + minutes[k]!;
    if (far <= from) continue;
    sum += rate[k]! * ((far < to ? far : to) - (near > from ? near : from));
  }
  return sum;
}
