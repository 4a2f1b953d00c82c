/**
 * Search of the plain case with least and greatest lags: the earliest starts are taken as a
 * schedule, and where they overload a resource two of the activities are put in order or, in the
 * other branch, made to overlap. Complete: an exhausted search is a proof.
 */
import { seededRandom, type Random } from '../random.ts';
import { addLag, closureOf } from './distance.ts';
import type { PlainEffort, PlainModel } from './model.ts';
import { propagate, rulesOf, type Rules } from './propagate.ts';

interface Branch {
  readonly i: number;
  readonly j: number;
}

type Outcome = 'exhausted' | 'improved' | 'stopped';

/** Above this count of activities the energy of every window is too dear for each node. */
const ENERGY_MOST_ACTIVITIES = 24;
/** Nodes for one stretch set free, and its share of the whole at first. */
const FREE_NODES = 60;
const FREE_SHARE = 0.5;
/** How often single activities instead of a stretch of time are set free. */
const SCATTERED = 0.2;
/** How far chance bends the choice of an order while a stretch is free. */
const NOISE = 0.3;
/** Share of the schedules for one try at a first schedule. */
const FIRST_SHARE = 0.2;
/** Nodes of the first turn of improving, and those of a try at the proof as a share of a turn. */
const FIRST_TURN = 500;
const PROOF_SHARE = 0.5;

/** One search of one model; `starts`, `makespan` and `generated` hold what it found so far. */
export class LagSearch {
  private readonly rules: Rules;
  private readonly n: number;
  private readonly root: Int32Array | null;
  private readonly stack: Int32Array[] = [];
  private readonly random: Random;
  private readonly effort: PlainEffort;
  private readonly use: Int32Array;
  private readonly scratch: Int32Array;
  private readonly free: Uint8Array;
  private readonly horizon: number;
  /** Share of the schedule that is set free at a time. */
  private share = FREE_SHARE;
  generated = 0;
  starts: number[] | null = null;
  makespan = Infinity;
  lowerBound: number;

  constructor(model: PlainModel, effort: PlainEffort) {
    this.rules = rulesOf(model);
    this.n = model.duration.length;
    this.effort = effort;
    this.random = seededRandom(effort.seed);
    this.use = new Int32Array(this.rules.resources);
    this.root = closureOf(model);
    const horizon = horizonOf(model);
    this.horizon = horizon;
    this.scratch = new Int32Array(this.n * this.n);
    this.free = new Uint8Array(this.n);
    const overdrawn = model.demand.some(
      (row, i) => model.duration[i]! > 0 && row.some((amount, k) => amount > model.capacity[k]!),
    );
    if (overdrawn || (this.root && !addLag(this.root, this.n, this.n - 1, 0, -horizon))) {
      this.root = null;
    }
    this.lowerBound = this.root ? this.root[this.n - 1]! : 0;
  }

  private get spent(): boolean {
    return (
      this.generated >= this.effort.schedules ||
      (this.generated % 64 === 0 && this.effort.shouldStop?.() === true)
    );
  }

  private level(depth: number): Int32Array {
    return (this.stack[depth] ??= new Int32Array(this.n * this.n));
  }

  /** Searches below a state for a schedule that ends by `limit`; counts every node. */
  private search(from: Int32Array, limit: number, nodes: number, noise: number): Outcome {
    const { n, rules } = this;
    const energy = n <= ENERGY_MOST_ACTIVITIES;
    const open: { depth: number; i: number; j: number }[] = [];
    let d = this.level(0);
    d.set(from);
    let depth = 0;
    let alive = addLag(d, n, n - 1, 0, -limit);
    const stopAt = Math.min(this.effort.schedules, this.generated + nodes);
    for (;;) {
      this.generated++;
      alive &&= propagate(rules, d, energy);
      if (alive) {
        const branch = this.conflict(d, noise);
        if (!branch) {
          this.keep(d);
          return 'improved';
        }
        const next = this.level(depth + 1);
        next.set(d);
        open.push({ depth, i: branch.i, j: branch.j });
        depth++;
        d = next;
        alive = addLag(d, n, branch.i, branch.j, rules.duration[branch.i]!);
      } else {
        const last = open.pop();
        if (!last) return 'exhausted';
        depth = last.depth;
        d = this.level(depth);
        alive = addLag(d, n, last.j, last.i, 1 - rules.duration[last.i]!);
      }
      if (this.generated >= stopAt || this.spent) return 'stopped';
    }
  }

  /** The rest of the best schedule keeps its order; what runs in a stretch of time is set free. */
  private improve(share: number, nodes: number): Outcome {
    const { n, rules } = this;
    const { active, duration, demand, resources } = rules;
    const starts = this.starts!;
    const scratch = this.scratch;
    scratch.set(this.root!);
    const free = this.freeSet(share);
    for (let x = 0; x < active.length; x++) {
      const i = active[x]!;
      if (free[i]) continue;
      const end = starts[i]! + duration[i]!;
      for (let y = 0; y < active.length; y++) {
        const j = active[y]!;
        if (free[j] || starts[j]! < end || scratch[i * n + j]! >= duration[i]!) continue;
        for (let r = 0; r < resources; r++) {
          if (demand[i * resources + r]! > 0 && demand[j * resources + r]! > 0) {
            addLag(scratch, n, i, j, duration[i]!);
            break;
          }
        }
      }
    }
    return this.search(scratch, this.makespan - 1, nodes, NOISE);
  }

  private freeSet(share: number): Uint8Array {
    const { n, rules, free, random } = this;
    const { active, duration } = rules;
    const starts = this.starts!;
    free.fill(0);
    if (random.next() < SCATTERED) {
      for (let x = 0; x < active.length; x++) if (random.next() < share) free[active[x]!] = 1;
      return free;
    }
    const length = Math.max(1, Math.round(this.makespan * share));
    const a = random.below(Math.max(1, this.makespan - length + 1));
    for (let i = 0; i < n; i++) {
      if (starts[i]! < a + length && starts[i]! + duration[i]! > a) free[i] = 1;
    }
    return free;
  }

  /**
   * The whole search: a first schedule, better ones around it, then what is left for the proof.
   * 'exhausted': the best schedule is proven, or without one that none exists.
   */
  run(): 'exhausted' | 'stopped' {
    if (!this.root) return 'exhausted';
    if (this.findFirst(this.root) === 'exhausted') return 'exhausted';
    // Turn about, each turn longer: most proofs are short, and none is worth all the schedules.
    for (let nodes = FIRST_TURN; !this.spent && this.makespan > this.lowerBound; nodes *= 2) {
      this.improveAround(this.generated + nodes);
      if (this.prove(this.root, Math.floor(nodes * PROOF_SHARE))) return 'exhausted';
    }
    return this.makespan <= this.lowerBound ? 'exhausted' : 'stopped';
  }

  /** The complete search for anything shorter; true when there is nothing. */
  private prove(root: Int32Array, nodes: number): boolean {
    const until = this.generated + nodes;
    while (!this.spent && this.generated < until) {
      const outcome = this.search(root, this.makespan - 1, until - this.generated, 0);
      if (outcome === 'exhausted') return true;
    }
    return false;
  }

  /** First without chance, then with, and longer each time: no unlucky order is searched for ever. */
  private findFirst(root: Int32Array): Outcome {
    let nodes = Math.max(100, Math.floor(this.effort.schedules * FIRST_SHARE));
    let noise = 0;
    while (!this.spent) {
      const outcome = this.search(root, this.horizon, nodes, noise);
      if (outcome !== 'stopped') return outcome;
      noise = 1;
      nodes *= 2;
    }
    return 'stopped';
  }

  /** The stretch grows while it is searched to the end and shrinks while it is not. */
  private improveAround(until: number): void {
    let { share } = this;
    while (!this.spent && this.makespan > this.lowerBound && this.generated < until) {
      const spread = 0.7 + 0.6 * this.random.next();
      const outcome = this.improve(Math.min(1, share * spread), FREE_NODES);
      if (outcome === 'exhausted') share = Math.min(1, share * 1.03);
      else if (outcome === 'stopped') share = Math.max(0.08, share * 0.97);
    }
    this.share = share;
  }

  private keep(d: Int32Array): void {
    this.starts = Array.from(d.subarray(0, this.n));
    this.makespan = d[this.n - 1]!;
  }

  /** The first overload of the earliest starts, and the pair whose order costs least. */
  private conflict(d: Int32Array, noise: number): Branch | null {
    const { rules, n, use } = this;
    const { active, duration, demand, capacity, resources } = rules;
    let when = Infinity;
    for (let x = 0; x < active.length; x++) {
      const t = d[active[x]!]!;
      if (t >= when) continue;
      use.fill(0);
      for (let y = 0; y < active.length; y++) {
        const j = active[y]!;
        if (d[j]! > t || d[j]! + duration[j]! <= t) continue;
        for (let r = 0; r < resources; r++) use[r]! += demand[j * resources + r]!;
      }
      for (let r = 0; r < resources; r++) if (use[r]! > capacity[r]!) when = t;
    }
    if (when === Infinity) return null;
    return this.cheapestOrder(d, when, noise, n);
  }

  private cheapestOrder(d: Int32Array, t: number, noise: number, n: number): Branch {
    const { active, duration, demand, capacity, resources } = this.rules;
    const running: number[] = [];
    this.use.fill(0);
    for (let y = 0; y < active.length; y++) {
      const j = active[y]!;
      if (d[j]! > t || d[j]! + duration[j]! <= t) continue;
      running.push(j);
      for (let r = 0; r < resources; r++) this.use[r]! += demand[j * resources + r]!;
    }
    let over = 0;
    for (let r = 0; r < resources; r++) if (this.use[r]! > capacity[r]!) over = r;
    let best: Branch = { i: running[0]!, j: running[1]! };
    let bestCost = Infinity;
    for (const i of running) {
      if (demand[i * resources + over] === 0) continue;
      for (const j of running) {
        if (i === j || demand[j * resources + over] === 0) continue;
        const slack = -d[j * n + i]! - duration[i]!;
        if (slack < 0) continue;
        const delay = d[i]! + duration[i]! - d[j]!;
        const room = -d[j * n]! - d[i]! - duration[i]!;
        const cost =
          (delay + (room < 0 ? 1000 : 0) - 0.5 * Math.min(slack, room)) *
          (1 + noise * (this.random.next() - 0.5));
        if (cost < bestCost) {
          bestCost = cost;
          best = { i, j };
        }
      }
    }
    return best;
  }
}

/** No schedule needs to be longer: each activity adds at most its length or its largest lag. */
function horizonOf(model: PlainModel): number {
  const most = [...model.duration];
  for (const { from, lag } of model.arcs) most[from] = Math.max(most[from]!, lag);
  return most.reduce((sum, m) => sum + m, 0);
}
