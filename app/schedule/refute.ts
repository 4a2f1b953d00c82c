/**
 * What no plan can do, seen without placing anything. Stages that exclude each other go one after the
 * other; where only one order leaves room, that order is certain, and windows shrink to a fixed point.
 * Where both leave room, both are tried. Disjunctive propagation as in P. Baptiste, C. Le Pape and W.
 * Nuijten, Constraint-Based Scheduling (2001), ch. 2 (from memory).
 */
import type { Compiled, PlanMode, PlanStage } from './compile.ts';
import { endFrom, FAR, NEVER, startFrom } from './length.ts';
import {
  dueOf,
  earliestStarts,
  latestStarts,
  type OrderArc,
  type WindowOptions,
} from './windows.ts';

/** Two stages that never run at once, and the minutes between them. */
interface Exclusion {
  readonly a: number;
  readonly b: number;
  readonly gap: number;
  /** Index of a resource that both want; -1 for the room's air. */
  readonly resource: number;
}

const known = new WeakMap<Compiled, readonly Exclusion[]>();

/** Every pair of stages that no choice of modes lets run at once; looked for once in a problem. */
function exclusionsOf(compiled: Compiled): readonly Exclusion[] {
  const own = known.get(compiled) ?? exclusionsIn(compiled);
  known.set(compiled, own);
  return own;
}

function exclusionsIn(compiled: Compiled): Exclusion[] {
  const { stages, problem } = compiled;
  const found: Exclusion[] = [];
  for (let a = 0; a < stages.length; a++) {
    for (let b = a + 1; b < stages.length; b++) {
      const [one, other] = [stages[a]!, stages[b]!];
      if (!isOpen(one) && !isOpen(other)) continue;
      if (isMoment(one) || isMoment(other)) continue;
      if (alwaysInTheAir(one) && alwaysInTheAir(other) && one.air !== other.air) {
        found.push({ a, b, gap: problem.airSettleMinutes, resource: -1 });
        continue;
      }
      const resource = alwaysShort(compiled.capacity, one, other);
      if (resource >= 0) found.push({ a, b, gap: 0, resource });
    }
  }
  return found;
}

const alwaysInTheAir = (stage: PlanStage): boolean =>
  stage.air >= 0 && stage.modes.every((mode) => mode.air >= 0);

const isOpen = (stage: PlanStage): boolean => stage.spec.fixedStart === null;

/** Takes no time in some mode: it may stand at the edge of another. */
const isMoment = ({ modes, spec }: PlanStage): boolean =>
  modes.length === 0 ||
  (spec.fixedStart !== null && spec.fixedEnd === spec.fixedStart) ||
  modes.some((mode) => mode.kind !== 'function' && mode.minutes === 0);

/** A resource too short for every pair of modes; -1 where some pair runs side by side. */
function alwaysShort(capacity: readonly number[], a: PlanStage, b: PlanStage): number {
  let resource = -1;
  for (const one of a.modes) {
    for (const other of b.modes) {
      resource = shortResource(capacity, one, other);
      if (resource < 0) return -1;
    }
  }
  return resource;
}

function shortResource(capacity: readonly number[], a: PlanMode, b: PlanMode): number {
  for (const use of a.uses) {
    const other = b.uses.find((one) => one.resource === use.resource);
    if (other && use.amount + other.amount > capacity[use.resource]!) return use.resource;
  }
  return -1;
}

interface Node {
  readonly order: OrderArc[];
  readonly settled: Set<Exclusion>;
  /** Starts that hold here already. */
  readonly atLeast: readonly number[] | null;
}

interface Room {
  readonly earliest: readonly number[];
  readonly latest: readonly number[];
}

/**
 * True when certainly no plan has every open stage at or after `from` and meets the due moments; false
 * says nothing.
 * @param nodes most branches looked at; with 1 only certain orders are drawn
 */
export function refuted(compiled: Compiled, from: number, nodes: number): boolean {
  const refutation = new Refutation(compiled, { from, modeOf: null, nodes });
  return refutation.holds({ order: [], settled: new Set(), atLeast: null });
}

/**
 * False when certainly no plan with these orders and modes meets the due moments: a complete search
 * need not go on from here.
 * @param earliest starts by the orders alone
 */
export function leavesRoom(
  compiled: Compiled,
  choice: {
    readonly from: number;
    readonly modeOf: readonly number[];
    readonly order: readonly OrderArc[];
    readonly earliest: readonly number[];
  },
): boolean {
  const { from, modeOf, order, earliest } = choice;
  const refutation = new Refutation(compiled, { from, modeOf, nodes: 1 });
  const node = { order: [...order], settled: new Set<Exclusion>(), atLeast: earliest };
  return refutation.propagate(node) !== null;
}

interface RefutationOptions {
  readonly from: number;
  /** Mode of each stage, -1 for any; null: any for all. */
  readonly modeOf: readonly number[] | null;
  readonly nodes: number;
}

/** Rounds of drawing certain orders from windows; each draws at least one. */
const MOST_ROUNDS = 60;

class Refutation {
  private readonly c: Compiled;
  private readonly exclusions: readonly Exclusion[];
  private readonly options: RefutationOptions;
  private left: number;

  constructor(compiled: Compiled, options: RefutationOptions) {
    this.c = compiled;
    this.exclusions = exclusionsOf(compiled);
    this.options = options;
    this.left = options.nodes;
  }

  /** True when the node has no plan. */
  holds(node: Node): boolean {
    this.left--;
    const room = this.propagate(node);
    if (!room) return true;
    if (this.left <= 0) return false;
    const pair = this.tightest(node, room);
    if (!pair) return false;
    return [arcOf(pair, true), arcOf(pair, false)].every((arc) =>
      this.holds({
        order: [...node.order, arc],
        settled: new Set([...node.settled, pair]),
        atLeast: room.earliest,
      }),
    );
  }

  /** Windows with all certain orders drawn; null when a stage has none left. */
  propagate({ order, settled, atLeast }: Node): Room | null {
    let room: Room | null = null;
    for (let round = 0; round < MOST_ROUNDS; round++) {
      const known: readonly number[] | null = room?.earliest ?? atLeast;
      const { from, modeOf } = this.options;
      const options: WindowOptions = { from, modeOf, order, ...(known && { atLeast: known }) };
      const notAfter = this.c.problem.due;
      const { earliest, broken } = earliestStarts(this.c, { ...options, notAfter });
      if (broken >= 0) return null;
      room = { earliest, latest: latestStarts(this.c, { ...options, notBefore: earliest }) };
      if (this.c.stages.some((stage) => tooLate(this.c, stage, room!))) return null;
      let drawn = false;
      for (const pair of this.exclusions) {
        if (settled.has(pair)) continue;
        const [forward, backward] = [this.slack(pair, true, room), this.slack(pair, false, room)];
        if (forward < 0 && backward < 0) return null;
        if (forward >= 0 && backward >= 0) continue;
        order.push(arcOf(pair, forward >= 0));
        settled.add(pair);
        drawn = true;
      }
      if (!drawn) return room;
    }
    return room;
  }

  /** The pair whose order matters most: least room either way. */
  private tightest({ settled }: Node, room: Room): Exclusion | null {
    let best: Exclusion | null = null;
    let least = Infinity;
    for (const pair of this.exclusions) {
      if (settled.has(pair)) continue;
      const [forward, backward] = [this.slack(pair, true, room), this.slack(pair, false, room)];
      const sum = Math.min(forward, backward) + Math.max(forward, backward) / 2;
      if (sum < least) [best, least] = [pair, sum];
    }
    return best;
  }

  /** Minutes to spare when the pair goes in this order. */
  private slack({ a, b, gap }: Exclusion, forward: boolean, { earliest, latest }: Room): number {
    const [before, after] = forward ? [a, b] : [b, a];
    return latest[after]! - gap - firstEnd(this.c.stages[before]!, earliest[before]!);
  }
}

function arcOf({ a, b, gap, resource }: Exclusion, forward: boolean): OrderArc {
  return forward ? { from: a, to: b, gap, resource } : { from: b, to: a, gap, resource };
}

function tooLate(compiled: Compiled, stage: PlanStage, { earliest, latest }: Room): boolean {
  const start = earliest[stage.index]!;
  return isOpen(stage) ? start > latest[stage.index]! : start > dueOf(compiled, stage);
}

function firstEnd({ spec, modes }: PlanStage, minute: number): number {
  if (spec.fixedEnd !== null) return spec.fixedEnd;
  let best = FAR;
  for (const mode of modes) {
    const start = spec.fixedStart ?? startFrom(mode, minute);
    const end = start === NEVER ? NEVER : endFrom(mode, start);
    if (end !== NEVER && end < best) best = end;
  }
  return best;
}
