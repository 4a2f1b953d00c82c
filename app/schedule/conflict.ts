/** Where the earliest starts of a partial plan overload a resource or mix two kinds of air. */
import { airOf, type Compiled } from './compile.ts';

/** From the start of one stage to the end of another (itself, or the end of a hold). */
interface Stretch {
  readonly from: number;
  readonly to: number;
  readonly amount: number;
  readonly start: number;
  readonly end: number;
}

/** One way out: `before` ends, and `gap` later `after` may begin. */
export interface Order {
  readonly before: number;
  readonly after: number;
  readonly gap: number;
  readonly resource: number;
}

export interface Conflict {
  readonly at: number;
  /** Any plan takes at least one of them; cheapest first. */
  readonly ways: readonly Order[];
}

/** Stages that count: those whose mode is settled. `modeOf` holds -1 for an open one. */
export interface Placing {
  readonly start: readonly number[];
  readonly end: readonly number[];
  readonly modeOf: readonly number[];
}

function stretchesOn(compiled: Compiled, placing: Placing, resource: number): Stretch[] {
  const { start, end, modeOf } = placing;
  const out: Stretch[] = [];
  for (const stage of compiled.stages) {
    const i = stage.index;
    if (modeOf[i]! < 0 || end[i]! <= start[i]!) continue;
    for (const use of stage.modes[modeOf[i]!]!.uses) {
      if (use.resource !== resource) continue;
      out.push({ from: i, to: i, amount: use.amount, start: start[i]!, end: end[i]! });
    }
  }
  for (const hold of compiled.holds) {
    if (hold.resource !== resource || modeOf[hold.from]! < 0 || modeOf[hold.to]! < 0) continue;
    out.push({ ...hold, start: start[hold.from]!, end: end[hold.to]! });
  }
  return out.sort((a, b) => a.start - b.start || a.from - b.from);
}

/** A smallest part of an overloading set that still overloads: largest amounts first. */
function minimal(running: readonly Stretch[], capacity: number): Stretch[] {
  const kept = [...running].sort((a, b) => b.amount - a.amount || a.start - b.start);
  for (let k = kept.length - 1; k >= 0; k--) {
    const rest = kept.reduce((sum, s, i) => (i === k ? sum : sum + s.amount), 0);
    if (rest > capacity) kept.splice(k, 1);
  }
  return kept;
}

function waysOf(set: readonly Stretch[], resource: number, gap: number): Order[] {
  const ways = set.flatMap((a) =>
    set
      .filter((b) => b !== a && b.from !== a.to)
      .map((b) => ({ before: a.to, after: b.from, gap, resource, delay: a.end - b.start })),
  );
  return ways.sort((a, b) => a.delay - b.delay || a.before - b.before);
}

function resourceConflict(compiled: Compiled, placing: Placing, k: number): Conflict | null {
  const stretches = stretchesOn(compiled, placing, k);
  const capacity = compiled.capacity[k]!;
  for (const { start } of stretches) {
    const running = stretches.filter((s) => s.start <= start && start < s.end);
    if (running.reduce((sum, s) => sum + s.amount, 0) <= capacity) continue;
    if (running.every((s) => isRecorded(compiled, s.from) && isRecorded(compiled, s.to))) continue;
    return { at: start, ways: waysOf(minimal(running, capacity), k, 0) };
  }
  return null;
}

const isRecorded = (compiled: Compiled, i: number): boolean =>
  compiled.stages[i]!.spec.fixedStart !== null;

function airConflict(compiled: Compiled, placing: Placing): Conflict | null {
  const { start, end, modeOf } = placing;
  const settle = compiled.problem.airSettleMinutes;
  const users = compiled.stages
    .filter((s) => modeOf[s.index]! >= 0 && airOf(s, modeOf[s.index]!) >= 0)
    .filter((s) => end[s.index]! > start[s.index]!)
    .sort((a, b) => start[a.index]! - start[b.index]! || a.rank - b.rank);
  for (let x = 0; x < users.length; x++) {
    const b = users[x]!;
    for (let y = 0; y < x; y++) {
      const a = users[y]!;
      if (a.air === b.air || end[a.index]! + settle <= start[b.index]!) continue;
      if (isRecorded(compiled, a.index) && isRecorded(compiled, b.index)) continue;
      const stretch = (i: number): Stretch => ({
        from: i,
        to: i,
        amount: 1,
        start: start[i]!,
        end: end[i]!,
      });
      return {
        at: start[b.index]!,
        ways: waysOf([stretch(a.index), stretch(b.index)], -1, settle),
      };
    }
  }
  return null;
}

/** The earliest conflict; null when the placing keeps every capacity and the air. */
export function firstConflict(compiled: Compiled, placing: Placing): Conflict | null {
  let first = airConflict(compiled, placing);
  for (let k = 0; k < compiled.capacity.length; k++) {
    const next = resourceConflict(compiled, placing, k);
    if (next && (first === null || next.at < first.at)) first = next;
  }
  return first;
}
