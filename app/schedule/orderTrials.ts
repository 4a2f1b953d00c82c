/**
 * Orders that certainly cannot be, where minutes depend on the moment: each is drawn once at the root of a
 * search and followed to its end. Where all lags hold whatever the moment, the closure shows them already.
 */
import { NONE } from './closure.ts';
import type { Interruptible } from './generators.ts';
import { Knowledge } from './knowledge.ts';
import type { Propagation } from './propagation.ts';
import type { Tasks } from './tasks.ts';

/** Trials between two yields. */
const TRIALS_BETWEEN_YIELDS = 64;

export class OrderTrials {
  private readonly rules: Propagation;
  private readonly scratch: Knowledge;
  /** Orders worth a trial, flat: first, second, minutes between them. */
  private readonly orders: readonly number[];
  private next = 0;
  /** Trials made; each counts as a schedule. */
  made = 0;

  constructor(tasks: Tasks, rules: Propagation) {
    this.rules = rules;
    this.scratch = new Knowledge(tasks.n);
    const isFixedInMinutes = tasks.moving.length === 0 && tasks.simple.every((one) => one === 1);
    this.orders = isFixedInMinutes ? [] : ordersIn(tasks);
  }

  get begun(): boolean {
    return this.next > 0;
  }

  /** Goes on with so many trials and writes down what they rule out; false when no schedule is left. */
  *run(root: Knowledge, most: number): Interruptible<null, boolean> {
    const { rules, orders } = this;
    if (orders.length === 0) return true;
    // What follows for all of them is drawn once: each then has only its own consequences.
    if (!this.begun && !rules.propagate(root, false)) return false;
    const until = this.made + most;
    for (; this.next < orders.length && this.made < until; this.next += 3) {
      const [i, j, gap] = [orders[this.next]!, orders[this.next + 1]!, orders[this.next + 2]!];
      if (!rules.mayBeBefore(root, i, j, gap)) continue;
      const isPossible = this.tryOrder(root, i, j, gap);
      if (++this.made % TRIALS_BETWEEN_YIELDS === 0) yield null;
      if (!isPossible && !rules.branch(root, i, j, gap, false)) return false;
    }
    return true;
  }

  private tryOrder(root: Knowledge, i: number, j: number, gap: number): boolean {
    const { rules, scratch } = this;
    scratch.set(root);
    const pairs = rules.depth;
    const isPossible = rules.branch(scratch, i, j, gap, true) && rules.propagate(scratch, false);
    rules.backTo(pairs);
    return isPossible;
  }
}

/** Of the pairs that must be apart the orders that close a circle: no relation speaks against the others. */
function ordersIn(tasks: Tasks): number[] {
  const { apart, n } = tasks;
  const reach = reachOf(tasks);
  const orders: number[] = [];
  for (let p = 0; p < apart.length; p += 3) {
    const [a, b, gap] = [apart[p]!, apart[p + 1]!, apart[p + 2]!];
    if (reach[b * n + a]) orders.push(a, b, gap);
    if (reach[a * n + b]) orders.push(b, a, gap);
  }
  return orders;
}

/**
 * 1 at `a * n + b` where a later start of a may force a later start of b. What stands at a fixed minute holds
 * to all else that does.
 */
function reachOf({ n, closure, moving, modes }: Tasks): Uint8Array {
  const reach = Uint8Array.from({ length: n * n }, (_, at) =>
    Number((closure?.[at] ?? NONE) > NONE),
  );
  for (const { from, to, atLeast } of moving) reach[atLeast ? from * n + to : to * n + from] = 1;
  const fixed = modes.flatMap((mode, i) => (mode ? [] : [i]));
  for (const a of fixed) for (const b of fixed) reach[a * n + b] = 1;
  for (let k = 0; k < n; k++) {
    for (let i = 0; i < n; i++) {
      if (!reach[i * n + k]) continue;
      for (let j = 0; j < n; j++) reach[i * n + j]! |= reach[k * n + j]!;
    }
  }
  return reach;
}
