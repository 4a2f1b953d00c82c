/**
 * What must follow from lags and windows once resources count: pairs that cannot run together, stages
 * that surely run at the start of another, and the times at which a resource is surely taken.
 */
import { addLag } from './closure.ts';
import { FAR, NEVER } from './length.ts';
import {
  taskEnd,
  taskStartFrom,
  taskStartToEndBy,
  taskStartToEndFrom,
  taskStartUpTo,
  type Tasks,
} from './tasks.ts';
import { anchorBefore, anchorFor, arcCeiling, arcFloor } from './windows.ts';

/** What is known at one node: lags, windows, and orders decided. */
export class Knowledge {
  readonly d: Int32Array;
  readonly earliest: Int32Array;
  readonly latest: Int32Array;
  /** Bit 1: i before j. Bit 2: i is not before j. Of pairs whose minutes depend on the moment. */
  readonly order: Uint8Array;

  constructor(n: number) {
    this.d = new Int32Array(n * n);
    this.earliest = new Int32Array(n);
    this.latest = new Int32Array(n);
    this.order = new Uint8Array(n * n);
  }

  set(other: Knowledge): void {
    this.d.set(other.d);
    this.earliest.set(other.earliest);
    this.latest.set(other.latest);
    this.order.set(other.order);
  }
}

const BEFORE = 1;
const NOT_BEFORE = 2;

/** Rounds of windows that creep on from shift to shift. */
const MOST_ROUNDS = 3000;
/** Rounds of moving relations alone before all rules have their turn. */
const ROUNDS_OF_WINDOWS = 8;

export class Propagation {
  private readonly t: Tasks;
  private readonly sums: Int32Array;
  private readonly ends: Int32Array;
  private readonly endAt: Int32Array;
  private readonly moments: Int32Array;
  private readonly levels: Int32Array;
  private changed = false;
  /** Pairs of the node at hand whose order makes moving relations: i, j, minutes between, flat. */
  private readonly pairs: number[] = [];

  constructor(tasks: Tasks) {
    this.t = tasks;
    this.sums = new Int32Array(tasks.resources);
    this.ends = new Int32Array(tasks.n);
    this.endAt = new Int32Array(tasks.n).fill(NEVER);
    this.moments = new Int32Array(2 * tasks.n + 2);
    this.levels = new Int32Array((2 * tasks.n + 2) * tasks.resources);
  }

  /** End at the earliest start. */
  firstEnd(k: Knowledge, i: number): number {
    const start = k.earliest[i]!;
    if (this.t.simple[i]) return start + this.t.least[i]!;
    if (this.endAt[i] !== start) {
      this.endAt[i] = start;
      this.ends[i] = taskEnd(this.t, i, start);
    }
    return this.ends[i]!;
  }

  /** Draws i before j; false when that cannot be. */
  putBefore(k: Knowledge, i: number, j: number, gap: number): boolean {
    const { n, least, simple } = this.t;
    if (k.order[i * n + j]! & NOT_BEFORE) return false;
    if (!addLag(k.d, n, i, j, least[i]! + gap)) return false;
    if (!simple[i]) k.order[i * n + j]! |= BEFORE;
    return this.raise(k, j, this.firstEnd(k, i) + gap) && this.lowerEnd(k, i, k.latest[j]! - gap);
  }

  /** Draws j to begin before i ends, the minutes between included; false when that cannot be. */
  putOverlapping(k: Knowledge, i: number, j: number, gap: number): boolean {
    const { n, least, simple } = this.t;
    if (k.order[i * n + j]! & BEFORE) return false;
    if (simple[i]) return addLag(k.d, n, j, i, 1 - least[i]! - gap);
    k.order[i * n + j]! |= NOT_BEFORE;
    return true;
  }

  private raise(k: Knowledge, i: number, minute: number): boolean {
    if (minute <= k.earliest[i]!) return true;
    const start = taskStartFrom(this.t, i, minute);
    if (start > k.latest[i]!) return false;
    this.changed = true;
    k.earliest[i] = start;
    return true;
  }

  private lower(k: Knowledge, i: number, minute: number): boolean {
    if (minute >= k.latest[i]!) return true;
    const start = taskStartUpTo(this.t, i, minute);
    if (start < k.earliest[i]!) return false;
    this.changed = true;
    k.latest[i] = start;
    return true;
  }

  private lowerEnd(k: Knowledge, i: number, end: number): boolean {
    const { simple, least } = this.t;
    if (simple[i]) return this.lower(k, i, end - least[i]!);
    const start = taskStartToEndBy(this.t, i, end);
    if (start >= k.latest[i]!) return true;
    if (start < k.earliest[i]!) return false;
    this.changed = true;
    k.latest[i] = start;
    return true;
  }

  /** Windows by the lags that hold whatever the moment. */
  private byLags(k: Knowledge): boolean {
    const { n } = this.t;
    const { d, earliest, latest } = k;
    for (let i = 0; i < n; i++) {
      const row = i * n;
      const first = earliest[i]!;
      for (let j = 0; j < n; j++) {
        const lag = d[row + j]!;
        if (first + lag > earliest[j]! && !this.raise(k, j, first + lag)) return false;
        if (latest[j]! - lag < latest[i]! && !this.lower(k, i, latest[j]! - lag)) return false;
      }
    }
    return true;
  }

  /** Windows by the relations whose minutes depend on the moment. */
  private byMoving(k: Knowledge): boolean {
    const { t } = this;
    const { earliest, latest } = k;
    for (const arc of t.moving) {
      const { from, to, fromEnd } = arc;
      const anchor = fromEnd ? this.firstEnd(k, from) : earliest[from]!;
      if (arc.atLeast) {
        const floor = arcFloor(arc, anchor);
        if (floor > earliest[to]! && !this.raise(k, to, floor)) return false;
        const before = anchorBefore(arc, latest[to]!);
        if (fromEnd ? !this.lowerEnd(k, from, before) : !this.lower(k, from, before)) return false;
        continue;
      }
      const needed = anchorFor(arc, earliest[to]!);
      if (needed > anchor) {
        const start = fromEnd ? taskStartToEndFrom(t, from, needed, earliest[from]!) : needed;
        if (!this.raise(k, from, start)) return false;
      }
      const last = fromEnd ? taskEnd(t, from, latest[from]!) : latest[from]!;
      const ceiling = last >= FAR ? FAR : arcCeiling(arc, last);
      if (ceiling < latest[to]! && !this.lower(k, to, ceiling)) return false;
    }
    return this.byPairs(k);
  }

  /** The same for orders decided. */
  private byPairs(k: Knowledge): boolean {
    const { t, pairs } = this;
    const { earliest, latest, order } = k;
    for (let p = 0; p < pairs.length; p += 3) {
      const [i, j, gap] = [pairs[p]!, pairs[p + 1]!, pairs[p + 2]!];
      const decided = order[i * t.n + j]!;
      if (decided & BEFORE) {
        const end = this.firstEnd(k, i) + gap;
        if (end > earliest[j]! && !this.raise(k, j, end)) return false;
        if (!this.lowerEnd(k, i, latest[j]! - gap)) return false;
      } else if (decided & NOT_BEFORE) {
        // start(j) < end(i) + gap
        const needed = earliest[j]! - gap + 1;
        if (this.firstEnd(k, i) < needed) {
          const start = taskStartToEndFrom(t, i, needed, earliest[i]!);
          if (!this.raise(k, i, start)) return false;
        }
        const last = taskEnd(t, i, latest[i]!) + gap - 1;
        if (last < latest[j]! && !this.lower(k, j, last)) return false;
      }
    }
    return true;
  }

  /** False when i certainly does not end before j begins. */
  mayBeBefore(k: Knowledge, i: number, j: number, gap: number): boolean {
    const { n, least } = this.t;
    if (k.d[j * n + i]! + least[i]! + gap > 0) return false;
    if (k.order[i * n + j]! & NOT_BEFORE) return false;
    return this.firstEnd(k, i) + gap <= k.latest[j]!;
  }

  private isBefore(k: Knowledge, i: number, j: number, gap: number): boolean {
    const { n, least, simple } = this.t;
    if (!simple[i]) return (k.order[i * n + j]! & BEFORE) !== 0;
    return k.d[i * n + j]! >= least[i]! + gap;
  }

  /** Of two that cannot run together, the order that is left when the other is impossible. */
  private orderPairs(k: Knowledge): boolean {
    const { apart } = this.t;
    for (let p = 0; p < apart.length; p += 3) {
      const [i, j, gap] = [apart[p]!, apart[p + 1]!, apart[p + 2]!];
      const iFirst = this.mayBeBefore(k, i, j, gap);
      const jFirst = this.mayBeBefore(k, j, i, gap);
      if (iFirst && jFirst) continue;
      if (!iFirst && !jFirst) return false;
      const [a, b] = iFirst ? [i, j] : [j, i];
      if (this.isBefore(k, a, b, gap)) continue;
      if (!this.decide(k, a, b, gap)) return false;
    }
    return true;
  }

  private decide(k: Knowledge, i: number, j: number, gap: number): boolean {
    this.changed = true;
    if (!this.putBefore(k, i, j, gap)) return false;
    if (!this.t.simple[i]) this.pairs.push(i, j, gap);
    return true;
  }

  /** At the start of each stage: who surely runs too, and who then cannot. */
  private coverStarts(k: Knowledge): boolean {
    const { n, resources, least, demand, capacity, active } = this.t;
    const { sums } = this;
    const { d, earliest, latest, order } = k;
    for (let x = 0; x < active.length; x++) {
      const i = active[x]!;
      for (let r = 0; r < resources; r++) sums[r] = demand[i * resources + r]!;
      for (let y = 0; y < active.length; y++) {
        const j = active[y]!;
        if (j === i) continue;
        const beginsBefore = d[j * n + i]! >= 0 || latest[j]! <= earliest[i]!;
        if (!beginsBefore) continue;
        const endsAfter =
          d[i * n + j]! >= 1 - least[j]! ||
          (order[j * n + i]! & NOT_BEFORE) !== 0 ||
          latest[i]! < this.firstEnd(k, j);
        if (!endsAfter) continue;
        for (let r = 0; r < resources; r++) {
          sums[r]! += demand[j * resources + r]!;
          if (sums[r]! > capacity[r]!) return false;
        }
      }
      for (let y = 0; y < active.length; y++) {
        const j = active[y]!;
        if (j === i) continue;
        let fits = true;
        for (let r = 0; fits && r < resources; r++) {
          fits = sums[r]! + demand[j * resources + r]! <= capacity[r]!;
        }
        if (fits) continue;
        const mayEndBefore = this.mayBeBefore(k, j, i, 0);
        const mayStartAfter = d[j * n + i]! < 0 && earliest[i]! < latest[j]!;
        if (mayEndBefore === mayStartAfter) continue;
        if (mayEndBefore) {
          if (!this.isBefore(k, j, i, 0) && !this.decide(k, j, i, 0)) return false;
        } else if (d[i * n + j]! < 1) {
          this.changed = true;
          if (!addLag(d, n, i, j, 1)) return false;
        }
      }
    }
    return true;
  }

  /** Parts of the time that a stage surely takes, whenever it starts within its window. */
  private timetable(k: Knowledge): boolean {
    const { active } = this.t;
    const count = this.compulsoryParts(k);
    if (count < 0) return false;
    if (count === 0) return true;
    for (let x = 0; x < active.length; x++) {
      const i = active[x]!;
      if (!this.t.modes[i]) continue;
      if (!this.shiftStart(k, i, count) || !this.shiftEnd(k, i, count)) return false;
    }
    return true;
  }

  /** Use by compulsory parts between sorted moments; their number, -1 where a resource is overdrawn. */
  private compulsoryParts(k: Knowledge): number {
    const { moments, levels } = this;
    const { active, resources, demand, capacity } = this.t;
    let count = 0;
    const insert = (minute: number): void => {
      let p = count++;
      while (p > 0 && moments[p - 1]! > minute) {
        moments[p] = moments[p - 1]!;
        p--;
      }
      moments[p] = minute;
    };
    for (let x = 0; x < active.length; x++) {
      const i = active[x]!;
      const end = this.firstEnd(k, i);
      if (k.latest[i]! >= end) continue;
      insert(k.latest[i]!);
      insert(end);
    }
    levels.fill(0, 0, count * resources);
    for (let x = 0; x < active.length; x++) {
      const i = active[x]!;
      const [from, to] = [k.latest[i]!, this.firstEnd(k, i)];
      if (from >= to) continue;
      for (let p = 0; p < count && moments[p]! < to; p++) {
        if (moments[p]! < from) continue;
        for (let r = 0; r < resources; r++) {
          const level = (levels[p * resources + r]! += demand[i * resources + r]!);
          if (level > capacity[r]!) return -1;
        }
      }
    }
    return count;
  }

  /** True when i, its own sure part aside, fits beside the sure parts after a moment. */
  private fitsAt(k: Knowledge, i: number, p: number): boolean {
    const { resources, demand, capacity } = this.t;
    const at = this.moments[p]!;
    const own = at >= k.latest[i]! && at < this.firstEnd(k, i);
    for (let r = 0; r < resources; r++) {
      const need = demand[i * resources + r]!;
      if (need > 0 && this.levels[p * resources + r]! + (own ? 0 : need) > capacity[r]!)
        return false;
    }
    return true;
  }

  private shiftStart(k: Knowledge, i: number, count: number): boolean {
    const { moments } = this;
    let start = k.earliest[i]!;
    let end = this.firstEnd(k, i);
    for (let p = 0; p < count - 1 && moments[p]! < end; p++) {
      const until = moments[p + 1]!;
      if (until <= start || until === moments[p]! || this.fitsAt(k, i, p)) continue;
      start = taskStartFrom(this.t, i, until);
      if (start > k.latest[i]!) return false;
      end = taskEnd(this.t, i, start);
    }
    return this.raise(k, i, start);
  }

  private shiftEnd(k: Knowledge, i: number, count: number): boolean {
    const { moments } = this;
    let start = k.latest[i]!;
    let end = taskEnd(this.t, i, start);
    for (let p = count - 2; p >= 0 && moments[p + 1]! > start; p--) {
      if (moments[p]! >= end || moments[p + 1]! === moments[p]! || this.fitsAt(k, i, p)) continue;
      start = taskStartToEndBy(this.t, i, moments[p]!);
      if (start < k.earliest[i]!) return false;
      end = taskEnd(this.t, i, start);
    }
    return this.lower(k, i, start);
  }

  /** Work that must lie between two moments against what the resources give there. */
  private energyFits(k: Knowledge): boolean {
    const { resources, least, demand, capacity, active } = this.t;
    const { sums } = this;
    for (let x = 0; x < active.length; x++) {
      const from = k.earliest[active[x]!]!;
      for (let y = 0; y < active.length; y++) {
        const to = taskEnd(this.t, active[y]!, k.latest[active[y]!]!);
        if (to <= from || to >= FAR) continue;
        sums.fill(0);
        for (let z = 0; z < active.length; z++) {
          const i = active[z]!;
          const inside = Math.min(
            least[i]!,
            this.firstEnd(k, i) - from,
            to - k.latest[i]!,
            to - from,
          );
          if (inside <= 0) continue;
          for (let r = 0; r < resources; r++) {
            const sum = (sums[r]! += inside * demand[i * resources + r]!);
            if (sum > capacity[r]! * (to - from)) return false;
          }
        }
      }
    }
    return true;
  }

  /** Pairs whose order is drawn on the way to the node at hand. */
  get depth(): number {
    return this.pairs.length;
  }

  /** Goes back to a node above. */
  backTo(depth: number): void {
    this.pairs.length = depth;
  }

  /** Draws a branch; false when it cannot be. */
  branch(k: Knowledge, i: number, j: number, gap: number, before: boolean): boolean {
    if (!this.t.simple[i]) this.pairs.push(i, j, gap);
    return before ? this.putBefore(k, i, j, gap) : this.putOverlapping(k, i, j, gap);
  }

  /** Applies all rules until nothing more follows; false when no schedule is left. */
  propagate(k: Knowledge, energy: boolean): boolean {
    for (let round = 0; round < MOST_ROUNDS; round++) {
      this.changed = false;
      if (!this.byMoving(k)) return false;
      if (this.changed && round % ROUNDS_OF_WINDOWS > 0) continue;
      if (!this.byLags(k) || !this.orderPairs(k) || !this.coverStarts(k)) return false;
      if (!this.changed && !this.timetable(k)) return false;
      if (!this.changed) return !energy || this.energyFits(k);
    }
    return true;
  }
}
