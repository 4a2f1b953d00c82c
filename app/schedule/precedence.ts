/** Which stages come before which: what a pass to the left has to place first. */
import type { Arc, PlanHold } from './compile.ts';
import type { Problem } from './problem.ts';

export interface Precedence {
  /** Stages that must stand before a stage is looked at, and those that wait for it. */
  readonly before: readonly (readonly number[])[];
  readonly after: readonly (readonly number[])[];
  /** Stages in an order in which `before` comes first; what lies on or behind a cycle is left out. */
  readonly topological: readonly number[];
}

/** @param count of stages */
export function precedenceOf(
  count: number,
  arcs: readonly Arc[],
  holds: readonly PlanHold[],
  problem: Problem,
): Precedence {
  const before = Array.from({ length: count }, (): number[] => []);
  const after = Array.from({ length: count }, (): number[] => []);
  const ordering = arcs.filter(orders);
  const meeting = ordering.filter((arc) => mayCoincide(arc, problem));
  const mayBeOne = new Set(meeting);
  for (const arc of ordering) if (!mayBeOne.has(arc)) addOrder(before, after, arc);
  // Two stages may be held to one start by a zero lag each way: that is no cycle.
  for (const arc of meeting) if (!leadsTo(after, arc.to, arc.from)) addOrder(before, after, arc);
  for (const hold of holds) if (hold.from !== hold.to) addOrder(before, after, hold);
  return { before, after, topological: topologicalOrder(before, after) };
}

/** True when the target cannot begin before the source does: the source is placed first. */
const orders = (arc: Arc): boolean =>
  arc.atLeast && arc.from !== arc.to && (arc.map !== null || arc.lag >= 0);

/** A zero lag from start to start, at the plan's own beginning at least. */
const mayCoincide = (arc: Arc, { from }: Problem): boolean =>
  !arc.fromEnd && (arc.map ? arc.map.apply(from) === from : arc.lag === 0);

function addOrder(
  before: number[][],
  after: number[][],
  { from, to }: Pick<Arc, 'from' | 'to'>,
): void {
  if (before[to]!.includes(from)) return;
  before[to]!.push(from);
  after[from]!.push(to);
}

function leadsTo(after: readonly (readonly number[])[], from: number, to: number): boolean {
  const seen = new Set([from]);
  const open = [from];
  for (let at = open.pop(); at !== undefined; at = open.pop()) {
    for (const next of after[at]!) {
      if (next === to) return true;
      if (!seen.has(next)) open.push(next);
      seen.add(next);
    }
  }
  return false;
}

/** Kahn's order; what is left over lies on or behind a cycle. */
function topologicalOrder(
  before: readonly (readonly number[])[],
  after: readonly (readonly number[])[],
): number[] {
  const waiting = before.map((list) => list.length);
  const order = waiting.flatMap((count, i) => (count === 0 ? [i] : []));
  for (let k = 0; k < order.length; k++) {
    for (const next of after[order[k]!]!) if (--waiting[next]! === 0) order.push(next);
  }
  return order;
}
