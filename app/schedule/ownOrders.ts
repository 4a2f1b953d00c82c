/**
 * The shop's own orders that contradict each other or the work itself: as many as can be are obeyed, the older
 * ones first, and each that is left out is named with the smallest set of facts that it clashes with. What
 * goes in a ring is a fault of its own.
 */
import type { Fact } from '../messages/facts.ts';
import { compile, type Compiled } from './compile.ts';
import { exactSearch } from './exact.ts';
import { firstPlan } from './first.ts';
import { ORDINARY_STAGES } from './forSize.ts';
import { closes, type Problem, type Relation, type StageSpec } from './problem.ts';
import { smallestSet } from './smallestSet.ts';

/** An order that the plan does not obey. */
export interface DroppedOrder {
  readonly relation: Relation;
  readonly order: Fact;
  /** Orders and pins without any one of which it could be obeyed; none: the work itself forbids it. */
  readonly against: readonly Fact[];
}

export interface KeptOrders {
  readonly problem: Problem;
  readonly dropped: readonly DroppedOrder[];
}

/** A problem with those of its own orders that go together. */
export function keptOrders(problem: Problem): KeptOrders {
  const orders = problem.relations.filter(isOwnOrder);
  const plain = { problem, dropped: [] };
  if (orders.length === 0 || listed(problem) === 'stands') return plain;
  // Of work that cannot be planned without its orders either, nothing is to be said: that is seen first.
  if (!canStand(without(problem, orders)) || canStand(problem)) return plain;
  if (goesInARing(problem)) return plain;
  const gone = fewestToDrop(problem, orders);
  const kept = without(problem, gone);
  const names = new Map(problem.stages.map(({ id, name }) => [id, name]));
  const dropped = gone.map((relation) => ({
    relation,
    order: orderFact(relation, names),
    against: clashOf(problem, kept, relation, names),
  }));
  return { problem: kept, dropped };
}

const goesInARing = (problem: Problem): boolean =>
  compile(problem).obstacles.some(({ reason }) => reason === 'cycle');

const isOwnOrder = ({ why }: Relation): boolean => why === 'own-order';

const without = (problem: Problem, gone: readonly Relation[]): Problem => ({
  ...problem,
  relations: problem.relations.filter((relation) => !gone.includes(relation)),
});

/** Nodes of a search for any plan at all, where the first look finds none. */
const NODES = 200;
/** Rounds of its windows: those that creep on shift by shift hold none. */
const ROUNDS = 500;
/** The same in a network that is larger than any ordinary one. */
const NODES_OF_LARGE = 10;

/** What a list of urgency says of a problem: there is a plan, there can be none, or it found none. */
function listed(problem: Problem): 'stands' | 'cannot' | Compiled {
  const compiled = compile(problem);
  if (compiled.obstacles.length > 0) return 'cannot';
  const found = firstPlan(compiled, problem.from);
  if (found.plan) return 'stands';
  // Nothing generated: the lengths and lags alone leave no room.
  return found.generated === 0 ? 'cannot' : compiled;
}

/** True when a plan is found that keeps every relation. */
function canStand(problem: Problem): boolean {
  const compiled = listed(problem);
  if (typeof compiled === 'string') return compiled === 'stands';
  const { from } = problem;
  const nodes = problem.stages.length > ORDINARY_STAGES ? NODES_OF_LARGE : NODES;
  const search = exactSearch(compiled, {
    from,
    nodes,
    rounds: ROUNDS,
    better: null,
    stopAtFirst: true,
  });
  return search.plan !== null;
}

/** The fewest orders whose going lets the rest stand; of as many, the youngest. */
const fewestToDrop = (problem: Problem, orders: readonly Relation[]): readonly Relation[] =>
  smallestSet(
    orders,
    orders.length - 1,
    (some) => canStand(without(problem, some)),
    () => oneByOne(problem, orders),
  ) ?? orders;

/** Of so many orders that not every set can be tried: each is taken that goes with the older ones. */
function oneByOne(problem: Problem, orders: readonly Relation[]): readonly Relation[] {
  const gone = new Set(orders);
  for (const order of orders) {
    gone.delete(order);
    if (!canStand(without(problem, [...gone]))) gone.add(order);
  }
  return [...gone];
}

/** The smallest part of the kept orders and the pins that an order cannot stand beside. */
function clashOf(
  problem: Problem,
  kept: Problem,
  order: Relation,
  names: ReadonlyMap<string, string>,
): Fact[] {
  let current: Problem = { ...kept, relations: [...kept.relations, order] };
  const facts: Fact[] = [];
  for (const other of kept.relations.filter(isOwnOrder)) {
    const next = without(current, [other]);
    if (canStand(next)) facts.push(orderFact(other, names));
    else current = next;
  }
  for (const pinned of problem.stages.filter(isPinned)) {
    const next = unpinned(current, pinned.id);
    if (canStand(next)) {
      facts.push({ what: 'pinned', stage: pinned.name, at: pinned.fixedStart! });
    } else current = next;
  }
  return facts;
}

/** Fixed by hand, and not by what the floor recorded. */
export const isPinned = ({ begun, fixedStart, fixedEnd }: StageSpec): boolean =>
  !begun && fixedStart !== null && fixedEnd === null;

const unpinned = (problem: Problem, id: string): Problem => ({
  ...problem,
  stages: problem.stages.map((stage) => (stage.id === id ? { ...stage, fixedStart: null } : stage)),
});

const orderFact = (relation: Relation, names: ReadonlyMap<string, string>): Fact => ({
  what: 'order',
  from: names.get(relation.from) ?? relation.from,
  to: names.get(relation.to) ?? relation.to,
  most: closes(relation),
  minutes: typeof relation.lag === 'number' ? relation.lag : 0,
});
