/**
 * Search by windows, for least and greatest lags: the earliest starts are taken as a schedule, and where
 * they overload a resource two of the stages are put in order or, in the other branch, made to overlap.
 * Complete for the modes given: an exhausted search is a proof. Better schedules are looked for around
 * the best one, a stretch of it set free at a time.
 */
import type { Compiled, PlanStage } from './compile.ts';
import { FAR } from './length.ts';
import { Knowledge } from './knowledge.ts';
import { OrderTrials } from './orderTrials.ts';
import { Propagation } from './propagation.ts';
import type { Random } from './random.ts';
import type { Assignment } from './serial.ts';
import { taskEnd, taskStartFrom, taskStartToEndBy, tasksOf, type Tasks } from './tasks.ts';
import { fixedEndOf } from './windows.ts';
import type { Interruptible } from './generators.ts';

/** True when the search by windows can take a problem: no holds, nothing overdrawn by records. */
export const canSearchWindows = (compiled: Compiled): boolean =>
  compiled.holds.length === 0 && compiled.stages.length <= MOST_STAGES && !isOverdrawn(compiled);

/** Lags of more stages than this are not closed in one matrix. */
const MOST_STAGES = 250;

/** Records take more of a resource than there is. */
function isOverdrawn({ stages, capacity }: Compiled): boolean {
  const fixed = stages.filter((stage) => stage.spec.fixedStart !== null && stage.modes.length > 0);
  return capacity.some((most, k) =>
    fixed.some((stage) => {
      const at = stage.spec.fixedStart!;
      const running = fixed.filter(
        (other) => other.spec.fixedStart! <= at && fixedEndOf(other, other.modes[0]) > at,
      );
      const used = running.reduce((sum, other) => sum + mostOf(other, k), 0);
      return used > most;
    }),
  );
}

const mostOf = ({ modes }: PlanStage, resource: number): number =>
  Math.max(...modes.map((mode) => mode.uses.find((use) => use.resource === resource)?.amount ?? 0));

interface Branch {
  readonly i: number;
  readonly j: number;
  readonly gap: number;
}

export type Outcome = 'exhausted' | 'improved' | 'stopped';

/** Above this count of stages the energy of every window is too dear for each node. */
const ENERGY_MOST_STAGES = 24;
/** Nodes for one stretch set free, and its share of the whole at first. */
const FREE_NODES = 60;
const FREE_SHARE = 0.5;
/** How often single stages instead of a stretch of time are set free. */
const SCATTERED = 0.2;
/** How far chance bends the choice of an order while a stretch is free. */
const NOISE = 0.3;
/** Share of the schedules that may go to orders that certainly cannot be. */
const SETTLING_SHARE = 0.1;
/** And to more of them, for the proof of none, each time that no first schedule was found. */
const SETTLING_SHARE_FOR_PROOF = 0.4;
/** Share of the schedules for one try at a first schedule. */
const FIRST_SHARE = 0.2;
const FIRST_LEAST = 100;
/** Cost of an order for which there is no room: it is drawn last. */
const INFEASIBLE_COST = 1e6;
/** Nodes between two yields. */
const NODES_BETWEEN_YIELDS = 64;

export interface WindowOptions {
  readonly from: number;
  /** Schedules that may be generated in all. */
  readonly schedules: number;
  readonly random: Random;
  /** Latest end of each stage. */
  readonly endBy: readonly number[];
}

type Nodes<T> = Interruptible<null, T>;

/** One search under one choice of modes; `starts`, `end` and `generated` hold what it found so far. */
export class WindowSearch {
  private readonly t: Tasks;
  private readonly rules: Propagation;
  private readonly trials: OrderTrials;
  private root: Knowledge | null;
  private readonly stack: Knowledge[] = [];
  private readonly scratch: Knowledge;
  private readonly options: WindowOptions;
  private readonly modeOf: readonly number[];
  private readonly use: Int32Array;
  private readonly free: Uint8Array;
  /** Share of the schedule that is set free at a time. */
  private share = FREE_SHARE;
  generated = 0;
  starts: Int32Array | null = null;
  end = FAR;
  /** Stages whose ends make the end of a plan: the busy blocks behind them do not. */
  private readonly counted: number;

  constructor(compiled: Compiled, modeOf: readonly number[], options: WindowOptions) {
    this.t = tasksOf(compiled, modeOf);
    this.modeOf = modeOf;
    this.options = options;
    this.rules = new Propagation(this.t);
    this.trials = new OrderTrials(this.t, this.rules);
    this.use = new Int32Array(this.t.resources);
    this.free = new Uint8Array(this.t.n);
    this.scratch = new Knowledge(this.t.n);
    this.counted = compiled.problem.stages.length;
    this.root = this.rootOf(compiled);
  }

  /** What holds at once; null when that leaves no schedule. */
  private rootOf({ stages }: Compiled): Knowledge | null {
    const { t, options } = this;
    if (!t.closure) return null;
    const root = new Knowledge(t.n);
    root.d.set(t.closure);
    for (let i = 0; i < t.n; i++) {
      const notBefore = t.modes[i]
        ? Math.max(options.from, stages[i]!.spec.release ?? options.from)
        : t.fixedStart[i]!;
      root.earliest[i] = taskStartFrom(t, i, notBefore);
      root.latest[i] = t.modes[i] ? taskStartToEndBy(t, i, options.endBy[i]!) : t.fixedStart[i]!;
      if (root.earliest[i]! > root.latest[i]!) return null;
    }
    return root;
  }

  /** Rules out orders that cannot be, within a share of the schedules. */
  private *settleOrders(share: number): Nodes<void> {
    if (!this.root) return;
    const { schedules } = this.options;
    const before = this.trials.made;
    const most = Math.min(schedules * share, schedules - this.generated);
    const isOpen = yield* this.trials.run(this.root, most);
    this.generated += this.trials.made - before;
    if (!isOpen) this.root = null;
  }

  /** A known schedule, from which better ones are looked for. */
  know(plan: Assignment): void {
    this.starts = Int32Array.from(plan.start);
    this.end = Math.max(...plan.end.slice(0, this.counted));
  }

  /** The best schedule as a plan. */
  plan(): Assignment {
    const start = Array.from(this.starts!);
    return {
      start,
      end: start.map((minute, i) => taskEnd(this.t, i, minute)),
      mode: [...this.modeOf],
      missedPins: [],
    };
  }

  private get spent(): boolean {
    return this.generated >= this.options.schedules;
  }

  private level(depth: number): Knowledge {
    return (this.stack[depth] ??= new Knowledge(this.t.n));
  }

  /** Everything ends by a minute; false when that cannot be. */
  private endBy(k: Knowledge, minute: number): boolean {
    if (minute >= FAR) return true;
    for (let i = 0; i < this.t.n; i++) {
      if (!this.t.modes[i]) continue;
      const start = taskStartToEndBy(this.t, i, minute);
      if (start < k.latest[i]!) k.latest[i] = start;
      if (k.earliest[i]! > k.latest[i]!) return false;
    }
    return true;
  }

  /** Searches below a state for a schedule that ends by `limit`; counts every node. */
  private *search(from: Knowledge, limit: number, nodes: number, noise: number): Nodes<Outcome> {
    const { rules, t } = this;
    const energy = t.n <= ENERGY_MOST_STAGES;
    const open: { depth: number; branch: Branch; pairs: number }[] = [];
    const pairs = rules.depth;
    let k = this.level(0);
    k.set(from);
    let depth = 0;
    let alive = this.endBy(k, limit);
    const stopAt = Math.min(this.options.schedules, this.generated + nodes);
    for (;;) {
      this.generated++;
      if (this.generated % NODES_BETWEEN_YIELDS === 0) yield null;
      alive &&= rules.propagate(k, energy);
      if (alive) {
        const branch = this.conflict(k, noise);
        if (!branch) {
          this.keep(k);
          rules.backTo(pairs);
          return 'improved';
        }
        const next = this.level(depth + 1);
        next.set(k);
        open.push({ depth, branch, pairs: rules.depth });
        depth++;
        k = next;
        alive = rules.branch(k, branch.i, branch.j, branch.gap, true);
      } else {
        const last = open.pop();
        if (!last) {
          rules.backTo(pairs);
          return 'exhausted';
        }
        depth = last.depth;
        k = this.level(depth);
        rules.backTo(last.pairs);
        const { i, j, gap } = last.branch;
        alive = rules.branch(k, i, j, gap, false);
      }
      if (this.generated >= stopAt || this.spent) {
        rules.backTo(pairs);
        return 'stopped';
      }
    }
  }

  private keep(k: Knowledge): void {
    this.starts = k.earliest.slice();
    let end = -FAR;
    for (let i = 0; i < this.counted; i++) end = Math.max(end, this.rules.firstEnd(k, i));
    this.end = end;
  }

  /** First without chance, then with, and longer each time: no unlucky order is searched for ever. */
  *findFirst(): Nodes<Outcome> {
    yield* this.settleOrders(SETTLING_SHARE);
    let nodes = Math.max(FIRST_LEAST, Math.floor(this.options.schedules * FIRST_SHARE));
    let noise = 0;
    while (this.root && !this.spent) {
      const outcome: Outcome = yield* this.search(this.root, FAR, nodes, noise);
      if (outcome !== 'stopped') return outcome;
      yield* this.settleOrders(SETTLING_SHARE_FOR_PROOF);
      noise = 1;
      nodes *= 2;
    }
    if (this.root) return 'stopped';
    this.generated = Math.max(1, this.generated);
    return 'exhausted';
  }

  /** The complete search for anything that ends sooner; true when there is nothing. */
  *prove(nodes: number): Nodes<boolean> {
    if (!this.root) return false;
    const until = this.generated + nodes;
    while (!this.spent && this.generated < until) {
      const left = until - this.generated;
      const outcome = yield* this.search(this.root, this.end - 1, left, 0);
      if (outcome === 'exhausted') return true;
    }
    return false;
  }

  /** The stretch grows while it is searched to the end and shrinks while it is not. */
  *improveAround(until: number): Nodes<boolean> {
    if (!this.trials.begun) yield* this.settleOrders(SETTLING_SHARE);
    if (!this.root || !this.starts) return false;
    const { random } = this.options;
    const before = this.end;
    let { share } = this;
    while (!this.spent && this.generated < until) {
      const spread = 0.7 + 0.6 * random.next();
      const outcome = yield* this.improve(this.root, Math.min(1, share * spread));
      if (outcome === 'exhausted') share = Math.min(1, share * 1.03);
      else if (outcome === 'stopped') share = Math.max(0.08, share * 0.97);
    }
    this.share = share;
    return this.end < before;
  }

  /** The rest of the best schedule keeps its order; what runs in a stretch of time is set free. */
  private *improve(root: Knowledge, share: number): Nodes<Outcome> {
    const { rules, scratch } = this;
    scratch.set(root);
    const pairs = rules.depth;
    this.freeSet(share);
    const consistent = this.keepOrder(scratch);
    if (!consistent) {
      rules.backTo(pairs);
      this.generated++;
      return 'exhausted';
    }
    const outcome = yield* this.search(scratch, this.end - 1, FREE_NODES, NOISE);
    rules.backTo(pairs);
    return outcome;
  }

  private keepOrder(k: Knowledge): boolean {
    const { free, rules, t } = this;
    const { active, demand, resources, n, least } = t;
    const starts = this.starts!;
    for (let x = 0; x < active.length; x++) {
      const i = active[x]!;
      if (free[i]) continue;
      const end = taskEnd(t, i, starts[i]!);
      for (let y = 0; y < active.length; y++) {
        const j = active[y]!;
        if (free[j] || i === j || starts[j]! < end) continue;
        if (t.simple[i] && k.d[i * n + j]! >= least[i]!) continue;
        for (let r = 0; r < resources; r++) {
          if (demand[i * resources + r]! > 0 && demand[j * resources + r]! > 0) {
            if (!rules.branch(k, i, j, 0, true)) return false;
            break;
          }
        }
      }
    }
    return true;
  }

  private freeSet(share: number): void {
    const { t, free } = this;
    const { random, from } = this.options;
    const starts = this.starts!;
    free.fill(0);
    if (random.next() < SCATTERED) {
      for (let x = 0; x < t.active.length; x++) if (random.next() < share) free[t.active[x]!] = 1;
      return;
    }
    const whole = this.end - from;
    const length = Math.max(1, Math.round(whole * share));
    const a = from + random.below(Math.max(1, whole - length + 1));
    for (let i = 0; i < t.n; i++) {
      if (starts[i]! < a + length && taskEnd(t, i, starts[i]!) > a) free[i] = 1;
    }
  }

  /** The first overload of the earliest starts, and the pair whose order costs least. */
  private conflict(k: Knowledge, noise: number): Branch | null {
    const { t, use, rules } = this;
    const { active, demand, capacity, resources } = t;
    const { earliest } = k;
    let when = FAR;
    for (let x = 0; x < active.length; x++) {
      const at = earliest[active[x]!]!;
      if (at >= when) continue;
      use.fill(0);
      for (let y = 0; y < active.length; y++) {
        const j = active[y]!;
        if (earliest[j]! > at || rules.firstEnd(k, j) <= at) continue;
        for (let r = 0; r < resources; r++) use[r]! += demand[j * resources + r]!;
      }
      for (let r = 0; r < resources; r++) if (use[r]! > capacity[r]!) when = at;
    }
    const apart = this.apartConflict(k, when);
    if (apart) return apart;
    return when === FAR ? null : this.cheapestOrder(k, when, noise);
  }

  /** A pair that must be apart and is not, before a moment: stages that want different air. */
  private apartConflict(k: Knowledge, until: number): Branch | null {
    const { apart } = this.t;
    const { rules } = this;
    let best: Branch | null = null;
    let when = until;
    for (let p = 0; p < apart.length; p += 3) {
      const [a, b, gap] = [apart[p]!, apart[p + 1]!, apart[p + 2]!];
      const [i, j] = k.earliest[a]! <= k.earliest[b]! ? [a, b] : [b, a];
      const at = k.earliest[j]!;
      if (at >= when || rules.firstEnd(k, i) + gap <= at) continue;
      when = at;
      best = { i, j, gap };
    }
    return best;
  }

  private cheapestOrder(k: Knowledge, at: number, noise: number): Branch {
    const { t, rules, use } = this;
    const { active, demand, capacity, resources, n, least } = t;
    const { d, earliest, latest } = k;
    const running: number[] = [];
    use.fill(0);
    for (let y = 0; y < active.length; y++) {
      const j = active[y]!;
      if (earliest[j]! > at || rules.firstEnd(k, j) <= at) continue;
      running.push(j);
      for (let r = 0; r < resources; r++) use[r]! += demand[j * resources + r]!;
    }
    let over = 0;
    for (let r = 0; r < resources; r++) if (use[r]! > capacity[r]!) over = r;
    let best: Branch = { i: running[0]!, j: running[1]!, gap: 0 };
    let bestCost = Infinity;
    for (const i of running) {
      if (demand[i * resources + over] === 0) continue;
      const end = rules.firstEnd(k, i);
      for (const j of running) {
        if (i === j || demand[j * resources + over] === 0) continue;
        const slack = -Math.max(d[j * n + i]!, earliest[i]! - latest[j]!) - least[i]!;
        if (slack < 0 || !rules.mayBeBefore(k, i, j, 0)) continue;
        const delay = end - earliest[j]!;
        const room = latest[j]! - end;
        const cost =
          (delay + (room < 0 ? INFEASIBLE_COST : 0) - 0.5 * Math.min(slack, room)) *
          (1 + noise * (this.options.random.next() - 0.5));
        if (cost < bestCost) {
          bestCost = cost;
          best = { i, j, gap: 0 };
        }
      }
    }
    return best;
  }
}
