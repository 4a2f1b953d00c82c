/**
 * What must follow from lags and windows once resources count: pairs that cannot run together, stages
 * that surely run at the start of another, and the times at which a resource is surely taken.
 */
import { addLag } from './closure.ts';
import { BEFORE, NOT_BEFORE, type Knowledge } from './knowledge.ts';
import { FAR } from './length.ts';
import { NodeWindows } from './nodeWindows.ts';
import { taskEnd, taskStartToEndFrom, type Tasks } from './tasks.ts';
import { Timetable } from './timetable.ts';
import { anchorBefore, anchorFor, arcCeiling, arcFloor } from './windows.ts';

/** Most rounds: a window may move on by only one shift in each. */
const MOST_ROUNDS = 3000;
/** Rounds of moving relations alone before all rules have their turn. */
const ROUNDS_OF_WINDOWS = 8;

export class Propagation {
  private readonly t: Tasks;
  private readonly sums: Int32Array;
  private readonly windows: NodeWindows;
  private readonly timetable: Timetable;
  /** Pairs of the node at hand whose order makes moving relations: i, j, minutes between, flat. */
  private readonly pairs: number[] = [];

  constructor(tasks: Tasks) {
    this.t = tasks;
    this.sums = new Int32Array(tasks.resources);
    this.windows = new NodeWindows(tasks);
    this.timetable = new Timetable(tasks, this.windows);
  }

  /** End at the earliest start. */
  firstEnd(k: Knowledge, i: number): number {
    return this.windows.firstEnd(k, i);
  }

  /** Draws i before j; false when that cannot be. */
  putBefore(k: Knowledge, i: number, j: number, gap: number): boolean {
    const { n, least, simple } = this.t;
    if (k.order[i * n + j]! & NOT_BEFORE) return false;
    if (!addLag(k.d, n, i, j, least[i]! + gap)) return false;
    if (!simple[i]) k.order[i * n + j]! |= BEFORE;
    return (
      this.windows.raise(k, j, this.windows.firstEnd(k, i) + gap) &&
      this.windows.lowerEnd(k, i, k.latest[j]! - gap)
    );
  }

  /** Draws j to begin before i ends, the minutes between included; false when that cannot be. */
  putOverlapping(k: Knowledge, i: number, j: number, gap: number): boolean {
    const { n, least, simple } = this.t;
    if (k.order[i * n + j]! & BEFORE) return false;
    if (simple[i]) return addLag(k.d, n, j, i, 1 - least[i]! - gap);
    k.order[i * n + j]! |= NOT_BEFORE;
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
        if (first + lag > earliest[j]! && !this.windows.raise(k, j, first + lag)) return false;
        if (latest[j]! - lag < latest[i]! && !this.windows.lower(k, i, latest[j]! - lag))
          return false;
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
      const anchor = fromEnd ? this.windows.firstEnd(k, from) : earliest[from]!;
      if (arc.atLeast) {
        const floor = arcFloor(arc, anchor);
        if (floor > earliest[to]! && !this.windows.raise(k, to, floor)) return false;
        const before = anchorBefore(arc, latest[to]!);
        if (
          fromEnd ? !this.windows.lowerEnd(k, from, before) : !this.windows.lower(k, from, before)
        )
          return false;
        continue;
      }
      const needed = anchorFor(arc, earliest[to]!);
      if (needed > anchor) {
        const start = fromEnd ? taskStartToEndFrom(t, from, needed, earliest[from]!) : needed;
        if (!this.windows.raise(k, from, start)) return false;
      }
      const last = fromEnd ? taskEnd(t, from, latest[from]!) : latest[from]!;
      const ceiling = last >= FAR ? FAR : arcCeiling(arc, last);
      if (ceiling < latest[to]! && !this.windows.lower(k, to, ceiling)) return false;
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
        const end = this.windows.firstEnd(k, i) + gap;
        if (end > earliest[j]! && !this.windows.raise(k, j, end)) return false;
        if (!this.windows.lowerEnd(k, i, latest[j]! - gap)) return false;
      } else if (decided & NOT_BEFORE) {
        // start(j) < end(i) + gap
        const needed = earliest[j]! - gap + 1;
        if (this.windows.firstEnd(k, i) < needed) {
          const start = taskStartToEndFrom(t, i, needed, earliest[i]!);
          if (!this.windows.raise(k, i, start)) return false;
        }
        const last = taskEnd(t, i, latest[i]!) + gap - 1;
        if (last < latest[j]! && !this.windows.lower(k, j, last)) return false;
      }
    }
    return true;
  }

  /** False when i certainly does not end before j begins. */
  mayBeBefore(k: Knowledge, i: number, j: number, gap: number): boolean {
    const { n, least } = this.t;
    if (k.d[j * n + i]! + least[i]! + gap > 0) return false;
    if (k.order[i * n + j]! & NOT_BEFORE) return false;
    return this.windows.firstEnd(k, i) + gap <= k.latest[j]!;
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
    this.windows.changed = true;
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
          latest[i]! < this.windows.firstEnd(k, j);
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
          this.windows.changed = true;
          if (!addLag(d, n, i, j, 1)) return false;
        }
      }
    }
    return true;
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
            this.windows.firstEnd(k, i) - from,
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
      this.windows.changed = false;
      if (!this.byMoving(k)) return false;
      if (this.windows.changed && round % ROUNDS_OF_WINDOWS > 0) continue;
      if (!this.byLags(k) || !this.orderPairs(k) || !this.coverStarts(k)) return false;
      if (!this.windows.changed && !this.timetable.narrow(k)) return false;
      if (!this.windows.changed) return !energy || this.energyFits(k);
    }
    return true;
  }
}
