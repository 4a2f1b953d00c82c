/**
 * What must follow from the lags once resources count: pairs that cannot run together, activities
 * that surely run at the start of another, and the times at which a resource is surely taken.
 */
import { addLag } from './distance.ts';
import type { PlainModel } from './model.ts';

export interface Rules {
  readonly n: number;
  readonly resources: number;
  readonly duration: Int32Array;
  /** `demand[i * resources + k]` */
  readonly demand: Int32Array;
  readonly capacity: Int32Array;
  /** Pairs (i, j), i < j, flat, whose demands together exceed a capacity. */
  readonly disjunctive: Int32Array;
  /** Activities with a length and a demand. */
  readonly active: Int32Array;
  /** Scratch: use of each resource over time. */
  profile: Int32Array;
  readonly sums: Int32Array;
}

export function rulesOf(model: PlainModel): Rules {
  const n = model.duration.length;
  const resources = model.capacity.length;
  const demand = new Int32Array(n * resources);
  model.demand.forEach((row, i) => demand.set(row.slice(0, resources), i * resources));
  const pairs: number[] = [];
  const active: number[] = [];
  for (let i = 0; i < n; i++) {
    if (model.duration[i]! === 0 || !model.demand[i]!.some((amount) => amount > 0)) continue;
    active.push(i);
    for (let j = i + 1; j < n; j++) {
      const clash =
        model.duration[j]! > 0 &&
        model.capacity.some((c, k) => model.demand[i]![k]! + model.demand[j]![k]! > c);
      if (clash) pairs.push(i, j);
    }
  }
  return {
    n,
    resources,
    duration: Int32Array.from(model.duration),
    demand,
    capacity: Int32Array.from(model.capacity),
    disjunctive: Int32Array.from(pairs),
    active: Int32Array.from(active),
    profile: new Int32Array(0),
    sums: new Int32Array(resources),
  };
}

let changed = false;

function impose(d: Int32Array, n: number, i: number, j: number, lag: number): boolean {
  if (d[i * n + j]! >= lag) return true;
  changed = true;
  return addLag(d, n, i, j, lag);
}

/** Of two that cannot run together, the order that is left when the other is impossible. */
function orderPairs(rules: Rules, d: Int32Array): boolean {
  const { n, duration, disjunctive } = rules;
  for (let k = 0; k < disjunctive.length; k += 2) {
    const i = disjunctive[k]!;
    const j = disjunctive[k + 1]!;
    const iFirst = d[j * n + i]! + duration[i]! <= 0;
    const jFirst = d[i * n + j]! + duration[j]! <= 0;
    if (iFirst && jFirst) continue;
    if (!iFirst && !jFirst) return false;
    if (iFirst ? !impose(d, n, i, j, duration[i]!) : !impose(d, n, j, i, duration[j]!))
      return false;
  }
  return true;
}

/** At the start of each activity: who surely runs too, and who then cannot. */
function coverStarts(rules: Rules, d: Int32Array): boolean {
  const { n, resources, duration, demand, capacity, active, sums } = rules;
  for (let x = 0; x < active.length; x++) {
    const i = active[x]!;
    for (let r = 0; r < resources; r++) sums[r] = demand[i * resources + r]!;
    for (let y = 0; y < active.length; y++) {
      const j = active[y]!;
      if (j === i || d[j * n + i]! < 0 || d[i * n + j]! < 1 - duration[j]!) continue;
      for (let r = 0; r < resources; r++) {
        sums[r]! += demand[j * resources + r]!;
        if (sums[r]! > capacity[r]!) return false;
      }
    }
    for (let y = 0; y < active.length; y++) {
      const k = active[y]!;
      if (k === i) continue;
      const mayEndBefore = d[i * n + k]! + duration[k]! <= 0;
      const mayStartAfter = d[k * n + i]! < 0;
      if (mayEndBefore === mayStartAfter) continue;
      let fits = true;
      for (let r = 0; fits && r < resources; r++) {
        fits = sums[r]! + demand[k * resources + r]! <= capacity[r]!;
      }
      if (fits) continue;
      if (mayEndBefore ? !impose(d, n, k, i, duration[k]!) : !impose(d, n, i, k, 1)) return false;
    }
  }
  return true;
}

/** Parts of the time that an activity surely takes, whenever it starts within its window. */
function timetable(rules: Rules, d: Int32Array): boolean {
  const { n, resources, duration, demand, capacity, active } = rules;
  const end = 1 - d[(n - 1) * n]!;
  if (rules.profile.length < end * resources) rules.profile = new Int32Array(end * resources);
  const { profile } = rules;
  profile.fill(0, 0, end * resources);
  for (let x = 0; x < active.length; x++) {
    const i = active[x]!;
    const until = d[i]! + duration[i]!;
    for (let t = -d[i * n]!; t < until; t++) {
      for (let r = 0; r < resources; r++) {
        const used = (profile[t * resources + r]! += demand[i * resources + r]!);
        if (used > capacity[r]!) return false;
      }
    }
  }
  for (let x = 0; x < active.length; x++) {
    const i = active[x]!;
    if (!shiftStart(rules, d, i) || !shiftEnd(rules, d, i)) return false;
  }
  return true;
}

/** True when i, its own sure part aside, fits at a moment. */
function fitsAt(rules: Rules, i: number, t: number, own: boolean): boolean {
  const { resources, demand, capacity, profile } = rules;
  for (let r = 0; r < resources; r++) {
    const need = own ? 0 : demand[i * resources + r]!;
    if (profile[t * resources + r]! + need > capacity[r]! && demand[i * resources + r]! > 0) {
      return false;
    }
  }
  return true;
}

function shiftStart(rules: Rules, d: Int32Array, i: number): boolean {
  const { n, duration } = rules;
  const latest = -d[i * n]!;
  const sureEnd = d[i]! + duration[i]!;
  let start = d[i]!;
  for (let t = start; t < start + duration[i]!; t++) {
    const own = t >= latest && t < sureEnd;
    if (!fitsAt(rules, i, t, own)) {
      start = t + 1;
      if (start > latest) return false;
    }
  }
  return start === d[i]! || impose(d, n, 0, i, start);
}

function shiftEnd(rules: Rules, d: Int32Array, i: number): boolean {
  const { n, duration } = rules;
  const latest = -d[i * n]!;
  const earliest = d[i]!;
  const sureEnd = earliest + duration[i]!;
  let start = latest;
  for (let t = start + duration[i]! - 1; t >= start; t--) {
    const own = t >= latest && t < sureEnd;
    if (!fitsAt(rules, i, t, own)) {
      start = t - duration[i]!;
      if (start < earliest) return false;
    }
  }
  return start === latest || impose(d, n, i, 0, -start);
}

/** Work that must lie inside [a, b) against what the resources give there, for all window ends. */
function energyFits(rules: Rules, d: Int32Array): boolean {
  const { n, resources, duration, demand, capacity, active } = rules;
  for (let x = 0; x < active.length; x++) {
    const from = d[active[x]!]!;
    for (let y = 0; y < active.length; y++) {
      const last = active[y]!;
      const to = -d[last * n]! + duration[last]!;
      if (to <= from) continue;
      rules.sums.fill(0);
      for (let z = 0; z < active.length; z++) {
        const i = active[z]!;
        const p = duration[i]!;
        const leftShifted = d[i]! + p - from;
        const rightShifted = to + d[i * n]!;
        const inside = Math.min(p, leftShifted, rightShifted, to - from);
        if (inside <= 0) continue;
        for (let r = 0; r < resources; r++) {
          const sum = (rules.sums[r]! += inside * demand[i * resources + r]!);
          if (sum > capacity[r]! * (to - from)) return false;
        }
      }
    }
  }
  return true;
}

/** Applies all rules until nothing more follows; false when no schedule is left. */
export function propagate(rules: Rules, d: Int32Array, energy: boolean): boolean {
  do {
    changed = false;
    if (!orderPairs(rules, d) || !coverStarts(rules, d)) return false;
    if (!changed && !timetable(rules, d)) return false;
  } while (changed);
  return !energy || energyFits(rules, d);
}
