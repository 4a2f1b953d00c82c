/**
 * Search of the plain case: two populations of schedules, one pushed left and one pushed right.
 * Children of either are placed the other way round, so that every pass is at once a crossing and
 * an improvement (forward-backward improvement: P. Tormos, A. Lova, 2001; two populations:
 * D. Debels, M. Vanhoucke, 2005; crossing where the other parent is busier: V. Valls, F. Ballestin,
 * S. Quintanilla, 2008). The populations shrink, from wide to deep.
 */
import { seededRandom, type Random } from '../random.ts';
import { cross, KeySorter, moveOne } from './crossing.ts';
import { hashOf, makeMember, type Member } from './member.ts';
import type { PlainEffort } from './model.ts';
import type { Network } from './network.ts';
import { sampleList } from './sampling.ts';
import { makeTimetable, placeList, type Timetable } from './serial.ts';

/** 0: pushed left, forward in time; 1: pushed right, the reversed network. */
type Direction = 0 | 1;

export interface GeneticResult {
  /** Starts in the forward direction. */
  readonly start: Int32Array;
  readonly makespan: number;
  readonly generated: number;
}

const SIZE_PER_ROOT_OF_SCHEDULES = 1.6;
/** With more schedules than this for each activity the populations start wider, up to a factor. */
const AMPLE_SCHEDULES = 40;
const WIDEST_FACTOR = 3;
const SMALLEST_SIZE = 4;
/** Size at the end of the search as a share of the size at its beginning. */
const SHRINKS_TO = 0.15;
/** The best of so many members drawn becomes the father. */
const RIVALS = 3;
/** A list that was placed before is changed again, so many times at most. */
const NEW_LIST_TRIES = 20;

/** Searches until the count is used up or the lower bound is reached. Deterministic for a seed. */
export function geneticSearch(
  forward: Network,
  backward: Network,
  weight: Float64Array,
  lowerBound: number,
  effort: PlainEffort,
): GeneticResult {
  const search = new Genetic(forward, backward, weight, lowerBound, effort);
  search.run();
  return search.result();
}

class Genetic {
  private readonly networks: readonly [Network, Network];
  private readonly topological: readonly [Int32Array, Int32Array];
  private readonly tables: readonly [Timetable, Timetable];
  private readonly weight: Float64Array;
  private readonly lowerBound: number;
  private readonly effort: PlainEffort;
  private readonly random: Random;
  private readonly sorter: KeySorter;
  private readonly list: Int32Array;
  private readonly scratch: Int32Array;
  private readonly seen = new Set<number>();
  private readonly size: number;
  private generated = 0;
  private best: Int32Array;
  private bestDirection: Direction = 0;
  private makespan = Infinity;

  constructor(
    forward: Network,
    backward: Network,
    weight: Float64Array,
    lowerBound: number,
    effort: PlainEffort,
  ) {
    this.networks = [forward, backward];
    this.topological = [forward.topological, backward.topological];
    this.tables = [makeTimetable(forward), makeTimetable(backward)];
    this.weight = weight;
    this.lowerBound = lowerBound;
    this.effort = effort;
    this.random = seededRandom(effort.seed);
    this.sorter = new KeySorter(forward.count, forward.horizon);
    this.list = new Int32Array(forward.count);
    this.scratch = new Int32Array(forward.count);
    this.best = new Int32Array(forward.count);
    const ample = effort.schedules / (AMPLE_SCHEDULES * forward.count);
    const factor = Math.min(WIDEST_FACTOR, Math.max(1, ample));
    const size = SIZE_PER_ROOT_OF_SCHEDULES * Math.sqrt(effort.schedules) * factor;
    this.size = Math.max(SMALLEST_SIZE, Math.round(size));
  }

  result(): GeneticResult {
    const { best, makespan, generated } = this;
    if (this.bestDirection === 0) return { start: best, makespan, generated };
    const { duration } = this.networks[0];
    return { start: best.map((t, i) => makespan - t - duration[i]!), makespan, generated };
  }

  private get done(): boolean {
    return (
      this.generated >= this.effort.schedules ||
      this.makespan <= this.lowerBound ||
      (this.generated % 64 === 0 && this.effort.shouldStop?.() === true)
    );
  }

  /** Places a list; the member is ready to be placed the other way round. */
  private evaluate(direction: Direction, list: Int32Array): Member {
    const network = this.networks[direction];
    const start = new Int32Array(network.count);
    const makespan = placeList(network, list, start, this.tables[direction]);
    this.generated++;
    if (makespan < this.makespan) {
      this.makespan = makespan;
      this.best = start.slice();
      this.bestDirection = direction;
    }
    const { duration } = network;
    for (let i = 0; i < start.length; i++) start[i] = makespan - start[i]! - duration[i]!;
    return makeMember(start, makespan, duration, this.weight);
  }

  run(): void {
    const populations: [Member[], Member[]] = [[], this.firstMembers()];
    let direction: Direction = 1;
    while (!this.done) {
      const other: Direction = direction === 0 ? 1 : 0;
      const children = this.childrenOf(populations[direction], other);
      populations[other] = this.survivors(children, populations[other]);
      direction = other;
    }
  }

  /** Pushed right: every other one sampled so, the rest sampled forward and then pushed. */
  private firstMembers(): Member[] {
    const members: Member[] = [];
    const { list, random, sorter, networks } = this;
    for (let k = 0; k < this.size && !this.done; k++) {
      if (k % 2 === 1) {
        members.push(this.evaluate(1, sampleList(networks[1], random)));
        continue;
      }
      const sampled = this.evaluate(0, sampleList(networks[0], random));
      if (this.done) break;
      sorter.sort(list, 0, this.topological[1], list.length, sampled.key);
      members.push(this.evaluate(1, list));
    }
    return members;
  }

  private childrenOf(parents: readonly Member[], other: Direction): Member[] {
    const children: Member[] = [];
    const { list, random, scratch } = this;
    for (const mother of parents) {
      if (this.done) break;
      const father = this.fatherFrom(parents);
      cross(list, mother, father, this.topological[other], this.sorter, scratch, random);
      moveOne(this.networks[other], list, scratch, random);
      for (let k = 0; k < NEW_LIST_TRIES && !this.isNew(other, list); k++) {
        moveOne(this.networks[other], list, scratch, random);
      }
      children.push(this.evaluate(other, list));
    }
    return children;
  }

  private fatherFrom(parents: readonly Member[]): Member {
    let best = parents[this.random.below(parents.length)]!;
    for (let k = 1; k < RIVALS; k++) {
      const rival = parents[this.random.below(parents.length)]!;
      if (rival.fitness < best.fitness) best = rival;
    }
    return best;
  }

  private isNew(direction: Direction, list: Int32Array): boolean {
    const hash = hashOf(list, direction);
    if (this.seen.has(hash)) return false;
    this.seen.add(hash);
    return true;
  }

  /** The fittest of both generations, no schedule twice. */
  private survivors(children: readonly Member[], previous: readonly Member[]): Member[] {
    const used = this.generated / this.effort.schedules;
    const size = Math.max(SMALLEST_SIZE, Math.round(this.size * (1 - (1 - SHRINKS_TO) * used)));
    const kept = new Map<number, Member>();
    for (const member of [...children, ...previous].sort((a, b) => a.fitness - b.fitness)) {
      if (kept.size < size && !kept.has(member.hash)) kept.set(member.hash, member);
    }
    return [...kept.values()];
  }
}
