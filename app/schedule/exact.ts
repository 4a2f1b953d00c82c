/**
 * The complete search: modes one by one, and an order wherever the earliest starts clash. For given
 * modes and orders the earliest starts are the best plan there is, since every part of the score
 * only grows with the ends; so an exhausted search proves the best plan, or that there is none.
 */
import { runToEnd, type Interruptible } from './generators.ts';
import type { Compiled } from './compile.ts';
import { firstConflict, type Order } from './conflict.ts';
import { endFrom, FAR, NEVER } from './length.ts';
import { leavesRoom } from './refute.ts';
import { compareScores, scoreOf, type Score } from './objective.ts';
import type { Assignment } from './serial.ts';
import {
  arcCeiling,
  arcFloor,
  binds,
  dueOf,
  earliestStarts,
  fixedEndOf,
  type OrderArc,
} from './windows.ts';

export interface ExactOptions {
  readonly from: number;
  /** Most nodes; each counts as a schedule. */
  readonly nodes: number;
  /** Most rounds of the windows; by the nodes where it is left out. */
  readonly rounds?: number;
  /** Only plans better than this are looked for. */
  readonly better: Score | null;
  /** Stops at the first plan that meets every due moment. */
  readonly stopWhenFits?: boolean;
  /** Stops at the first plan of any kind. */
  readonly stopAtFirst?: boolean;
}

export interface ExactResult {
  readonly plan: Assignment | null;
  readonly score: Score | null;
  /** The search was exhausted: nothing better than the plan (or than `better`) exists. */
  readonly exhausted: boolean;
  readonly generated: number;
  /** The search has come back over half of its first dive: with more nodes it may be exhausted. */
  readonly hopeful: boolean;
}

/** Nodes between two yield points, at which a search can be stopped. */
const NODES_BETWEEN_YIELDS = 25;

/**
 * Rounds of the windows that a search may spend: a few a node as a rule, but hundreds where a window
 * that cannot hold moves on by one shift a round.
 */
const roundsFor = (nodes: number): number => 1500 + 4 * nodes;

/** Runs the complete search within a count of nodes. Pins hold here; none of them gives way. */
export function exactSearch(compiled: Compiled, options: ExactOptions): ExactResult {
  return runToEnd(exactSteps(compiled, options));
}

/** The same as a generator. */
export const exactSteps = (
  compiled: Compiled,
  options: ExactOptions,
): Interruptible<null, ExactResult> => new Exact(compiled, options).run();

class Exact {
  private readonly c: Compiled;
  private readonly options: ExactOptions;
  private readonly modeOf: number[];
  private readonly order: OrderArc[] = [];
  /** The same by the stage that comes after. */
  private readonly orderInto: OrderArc[][];
  private readonly followers: number[][];
  private generated = 0;
  private rounds = 0;
  private stopped = false;
  /** Choices above the node looked at, those of the first dive, and the fewest come back to. */
  private depth = 0;
  private firstDive = 0;
  private shallowest = Infinity;
  private best: Score | null;
  private plan: Assignment | null = null;
  private score: Score | null = null;

  constructor(compiled: Compiled, options: ExactOptions) {
    this.c = compiled;
    this.options = options;
    this.best = options.better;
    this.modeOf = compiled.stages.map((stage) => (stage.modes.length === 1 ? 0 : -1));
    this.followers = compiled.after.map((list) => [...list]);
    this.orderInto = compiled.stages.map(() => []);
  }

  *run(): Interruptible<null, ExactResult> {
    yield* this.node(undefined);
    return {
      plan: this.plan,
      score: this.score,
      exhausted: !this.stopped,
      generated: this.generated,
      hopeful: !this.stopped || this.shallowest * 2 <= this.firstDive,
    };
  }

  /** Only a search for a plan in time knows how late each stage may start, and gives up there. */
  private leavesRoom(earliest: readonly number[]): boolean {
    const { from, stopWhenFits } = this.options;
    if (!stopWhenFits) return true;
    return leavesRoom(this.c, { from, modeOf: this.modeOf, order: this.order, earliest });
  }

  private get isSpent(): boolean {
    const { nodes, rounds = roundsFor(nodes) } = this.options;
    return this.generated >= nodes || this.rounds >= rounds;
  }

  private *node(known: readonly number[] | undefined): Interruptible<null, void> {
    if (this.stopped) return;
    if (this.isSpent) {
      this.stopped = true;
      return;
    }
    this.generated++;
    if (this.generated % NODES_BETWEEN_YIELDS === 0) yield null;
    const windows = earliestStarts(this.c, {
      from: this.options.from,
      modeOf: this.modeOf,
      order: this.order,
      orderInto: this.orderInto,
      notAfter: this.lastUseful(),
      ...(known ? { atLeast: known } : {}),
    });
    this.rounds += windows.sweeps;
    if (windows.broken >= 0) return;
    const start = windows.earliest;
    if (!this.leavesRoom(start)) return;
    const end = this.endsOf(start);
    if (!end || !this.fixedHold(start, end)) return;
    const score = this.bound(end);
    if (this.best && compareScores(score, this.best) >= 0) return;
    const conflict = firstConflict(this.c, { start, end, modeOf: this.modeOf });
    const open = this.nextOpenMode(start, conflict?.at ?? Infinity);
    if (open >= 0) yield* this.branchModes(open, start);
    else if (conflict) yield* this.branchOrders(conflict.ways, start, end);
    else {
      const plan = { start: [...start], end: [...end], mode: [...this.modeOf], missedPins: [] };
      // The bound leaves out what moving a printed stage costs.
      const whole = scoreOf(this.c, plan);
      if (this.best && compareScores(whole, this.best) >= 0) return;
      this.best = this.score = whole;
      this.plan = plan;
      const { stopWhenFits, stopAtFirst } = this.options;
      if (stopAtFirst || (stopWhenFits && score.late === 0)) this.stopped = true;
    }
  }

  /** A stage that starts later than this makes a plan no better than the best. */
  private lastUseful(): number {
    const { best } = this;
    if (!best) return FAR;
    if (best.late > 0 || best.warnings > 0 || best.overtimeMinutes > 0) {
      return this.c.problem.due + best.late;
    }
    return best.end;
  }

  /** The first stage whose mode is open and that starts no later than the conflict. */
  private nextOpenMode(start: readonly number[], until: number): number {
    let best = -1;
    for (let i = 0; i < start.length; i++) {
      if (this.modeOf[i]! >= 0 || this.c.stages[i]!.modes.length === 0 || start[i]! > until)
        continue;
      if (best < 0 || start[i]! < start[best]!) best = i;
    }
    return best;
  }

  private *branchModes(i: number, start: readonly number[]): Interruptible<null, void> {
    const { modes } = this.c.stages[i]!;
    const ranked = modes
      .map((mode, m) => ({ m, mode, end: endFrom(mode, start[i]!) }))
      .sort(
        (a, b) =>
          a.mode.warnings - b.mode.warnings ||
          a.mode.overtimeMinutes - b.mode.overtimeMinutes ||
          a.end - b.end ||
          a.m - b.m,
      );
    for (const [turn, { m }] of ranked.entries()) {
      this.modeOf[i] = m;
      this.goesDown(turn);
      yield* this.node(start);
      this.depth--;
    }
    this.modeOf[i] = -1;
  }

  private *branchOrders(
    ways: readonly Order[],
    start: readonly number[],
    end: readonly number[],
  ): Interruptible<null, void> {
    let turn = 0;
    for (const { before, after, gap, resource } of ways) {
      if (this.reaches(after, before)) continue;
      const arc = { from: before, to: after, gap, resource };
      this.order.push(arc);
      this.orderInto[after]!.push(arc);
      this.followers[before]!.push(after);
      const known = [...start];
      known[after] = Math.max(known[after]!, end[before]! + gap);
      this.goesDown(turn++);
      yield* this.node(this.isFixed(after) ? start : known);
      this.depth--;
      this.orderInto[after]!.pop();
      this.followers[before]!.pop();
      this.order.pop();
      if (this.stopped) return;
    }
  }

  /** Keeps count of how far back the search has come. */
  private goesDown(turn: number): void {
    if (turn > 0 && !this.stopped) this.shallowest = Math.min(this.shallowest, this.depth);
    this.depth++;
    if (this.shallowest === Infinity) this.firstDive = this.depth;
  }

  private isFixed(i: number): boolean {
    return this.c.stages[i]!.spec.fixedStart !== null;
  }

  /** True when `to` already comes after `from`: the other order would be a cycle. */
  private reaches(from: number, to: number): boolean {
    if (from === to) return true;
    const seen = new Set([from]);
    const open = [from];
    for (let at = open.pop(); at !== undefined; at = open.pop()) {
      for (const next of this.followers[at]!) {
        if (next === to) return true;
        if (!seen.has(next)) {
          seen.add(next);
          open.push(next);
        }
      }
    }
    return false;
  }

  /** Ends in the settled mode, or in the one that ends first; null when one lies past the horizon. */
  private endsOf(start: readonly number[]): number[] | null {
    const end: number[] = [];
    for (const stage of this.c.stages) {
      const i = stage.index;
      let earliest = FAR;
      if (this.isFixed(i)) {
        const chosen = this.modeOf[i]!;
        earliest = Math.min(
          ...(chosen >= 0 ? [stage.modes[chosen]!] : stage.modes).map((m) => fixedEndOf(stage, m)),
          ...(stage.modes.length === 0 ? [fixedEndOf(stage, undefined)] : []),
        );
      } else {
        const chosen = this.modeOf[i]!;
        for (const mode of chosen >= 0 ? [stage.modes[chosen]!] : stage.modes) {
          const at = endFrom(mode, start[i]!);
          if (at !== NEVER) earliest = Math.min(earliest, at);
        }
        if (earliest > this.c.problem.horizon) return null;
      }
      end.push(earliest);
    }
    return end;
  }

  /** A fixed stage does not move: an order that would push it has no plan. */
  private fixedHold(start: readonly number[], end: readonly number[]): boolean {
    for (const { from, to, gap } of this.order) {
      if (this.isFixed(to) && end[from]! + gap > start[to]!) return false;
    }
    return this.c.arcs.every((arc) => {
      const [fixedFrom, fixedTo] = [this.isFixed(arc.from), this.isFixed(arc.to)];
      if ((!fixedFrom && !fixedTo) || (fixedFrom && fixedTo)) return true;
      if (!binds(arc, this.c, this.modeOf)) return true;
      const anchor = arc.fromEnd ? end[arc.from]! : start[arc.from]!;
      if (arc.atLeast) return !fixedTo || start[arc.to]! >= arcFloor(arc, anchor);
      return !fixedFrom || start[arc.to]! <= arcCeiling(arc, anchor);
    });
  }

  /** The score no plan below this node can beat. */
  private bound(end: readonly number[]): Score {
    let late = 0;
    let warnings = 0;
    let overtimeMinutes = 0;
    let last = -Infinity;
    let sum = 0;
    for (const stage of this.c.stages) {
      if (stage.busy) continue;
      const i = stage.index;
      late += Math.max(0, end[i]! - dueOf(this.c, stage));
      last = Math.max(last, end[i]!);
      if (!stage.spec.perishable) sum += end[i]! - this.c.problem.from;
      const chosen = this.modeOf[i]!;
      const mode = chosen >= 0 ? stage.modes[chosen]! : null;
      warnings += mode?.warnings ?? 0;
      overtimeMinutes += mode?.overtimeMinutes ?? 0;
    }
    return { late, warnings, overtimeMinutes, end: last, sum };
  }
}
