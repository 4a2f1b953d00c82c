/** A precedence network in flat arrays, one way round or the other. */
import type { PlainModel } from './model.ts';

/**
 * Demands are packed into lanes of 32-bit words with a guard bit each, so that one subtraction
 * compares all resources of a word: a guard bit that is lost marks a lane that would go below zero.
 */
export interface Packing {
  readonly words: number;
  /** Guard bits of every word. */
  readonly guards: Int32Array;
  /** Guards plus full capacity: an idle period. */
  readonly idle: Int32Array;
  /** `demand[i * words + w]` */
  readonly demand: Int32Array;
}

export interface Network {
  readonly count: number;
  readonly duration: Int32Array;
  /** Predecessors of i: `before[beforeFrom[i]] ... before[beforeFrom[i + 1] - 1]`. */
  readonly before: Int32Array;
  readonly beforeFrom: Int32Array;
  readonly after: Int32Array;
  readonly afterFrom: Int32Array;
  /** Longest path from the start of i to the end of everything, i included. */
  readonly tail: Int32Array;
  /** Longest path from the beginning to the start of i. */
  readonly head: Int32Array;
  readonly packing: Packing;
  /** Activities in an order in which every predecessor comes first. */
  readonly topological: Int32Array;
  /** Sum of lengths: no active schedule is longer. */
  readonly horizon: number;
}

function packDemands(model: PlainModel): Packing {
  const bits = Math.max(1, ...model.capacity.map((c) => 32 - Math.clz32(c))) + 1;
  const lanes = Math.max(1, Math.floor(32 / bits));
  const words = Math.max(1, Math.ceil(model.capacity.length / lanes));
  const pack = (amounts: readonly number[], guard: boolean): Int32Array => {
    const out = new Int32Array(words);
    for (let k = 0; k < model.capacity.length; k++) {
      const lane = (guard ? 1 << (bits - 1) : 0) + (amounts[k] ?? 0);
      out[Math.floor(k / lanes)]! |= lane << (bits * (k % lanes));
    }
    return out;
  };
  const demand = new Int32Array(model.duration.length * words);
  model.demand.forEach((amounts, i) => demand.set(pack(amounts, false), i * words));
  return {
    words,
    guards: pack([], true),
    idle: pack(model.capacity, true),
    demand,
  };
}

function compressed(count: number, pairs: readonly (readonly [number, number])[]) {
  const from = new Int32Array(count + 1);
  for (const [key] of pairs) from[key + 1]!++;
  for (let i = 0; i < count; i++) from[i + 1]! += from[i]!;
  const fill = from.slice();
  const list = new Int32Array(pairs.length);
  for (const [key, value] of pairs) list[fill[key]!++] = value;
  return { list, from };
}

/**
 * The network of a model whose arcs are precedences, and the same network run backward in time.
 * @throws Error when the precedences form a cycle.
 */
export function networksOf(model: PlainModel): { forward: Network; backward: Network } {
  const count = model.duration.length;
  const pairs = uniquePairs(model);
  const into = compressed(
    count,
    pairs.map(([from, to]) => [to, from] as const),
  );
  const out = compressed(count, pairs);
  const duration = Int32Array.from(model.duration);
  const packing = packDemands(model);
  const order = topological(count, into.from, out);
  const head = new Int32Array(count);
  const tail = new Int32Array(count);
  for (const i of order) {
    for (let k = out.from[i]!; k < out.from[i + 1]!; k++) {
      const j = out.list[k]!;
      head[j] = Math.max(head[j]!, head[i]! + duration[i]!);
    }
  }
  for (let k = count - 1; k >= 0; k--) {
    const i = order[k]!;
    let longest = 0;
    for (let e = out.from[i]!; e < out.from[i + 1]!; e++) {
      longest = Math.max(longest, tail[out.list[e]!]!);
    }
    tail[i] = longest + duration[i]!;
  }
  const horizon = duration.reduce((sum, d) => sum + d, 0);
  const forward: Network = {
    count,
    duration,
    before: into.list,
    beforeFrom: into.from,
    after: out.list,
    afterFrom: out.from,
    head,
    tail,
    packing,
    topological: Int32Array.from(order),
    horizon,
  };
  const backward: Network = {
    ...forward,
    before: out.list,
    beforeFrom: out.from,
    after: into.list,
    afterFrom: into.from,
    head: tail.map((t, i) => t - duration[i]!),
    tail: head.map((h, i) => h + duration[i]!),
    topological: Int32Array.from(order).reverse(),
  };
  return { forward, backward };
}

function uniquePairs(model: PlainModel): [number, number][] {
  const seen = new Set<number>();
  const count = model.duration.length;
  return model.arcs.flatMap(({ from, to }): [number, number][] => {
    const key = from * count + to;
    if (seen.has(key)) return [];
    seen.add(key);
    return [[from, to]];
  });
}

function topological(
  count: number,
  beforeFrom: Int32Array,
  out: { readonly list: Int32Array; readonly from: Int32Array },
): number[] {
  const waiting = Array.from({ length: count }, (_, i) => beforeFrom[i + 1]! - beforeFrom[i]!);
  const order = waiting.flatMap((n, i) => (n === 0 ? [i] : []));
  for (let k = 0; k < order.length; k++) {
    const i = order[k]!;
    for (let e = out.from[i]!; e < out.from[i + 1]!; e++) {
      if (--waiting[out.list[e]!]! === 0) order.push(out.list[e]!);
    }
  }
  if (order.length < count) throw new Error('the precedences form a cycle');
  return order;
}
