/**
 * The times that stages surely take, whenever they start within their windows: where those fill a
 * resource, the starts of the others are moved past them.
 */
import type { Knowledge } from './knowledge.ts';
import type { NodeWindows } from './nodeWindows.ts';
import { taskEnd, taskStartFrom, taskStartToEndBy, type Tasks } from './tasks.ts';

export class Timetable {
  private readonly tasks: Tasks;
  private readonly windows: NodeWindows;
  /** Sorted minutes between which the use does not change, with the use of each resource after them. */
  private readonly moments: Int32Array;
  private readonly levels: Int32Array;

  constructor(tasks: Tasks, windows: NodeWindows) {
    this.tasks = tasks;
    this.windows = windows;
    this.moments = new Int32Array(2 * tasks.n + 2);
    this.levels = new Int32Array((2 * tasks.n + 2) * tasks.resources);
  }

  /**
   * Moves starts out of the times that others surely take.
   * @returns false when no schedule is left
   */
  narrow(k: Knowledge): boolean {
    const { active } = this.tasks;
    const count = this.compulsoryParts(k);
    if (count < 0) return false;
    if (count === 0) return true;
    for (let x = 0; x < active.length; x++) {
      const i = active[x]!;
      if (!this.tasks.modes[i]) continue;
      if (!this.shiftStart(k, i, count) || !this.shiftEnd(k, i, count)) return false;
    }
    return true;
  }

  /** Use by compulsory parts between sorted moments; their number, -1 where a resource is overdrawn. */
  private compulsoryParts(k: Knowledge): number {
    const { moments, levels } = this;
    const { active, resources, demand, capacity } = this.tasks;
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
      const end = this.windows.firstEnd(k, i);
      if (k.latest[i]! >= end) continue;
      insert(k.latest[i]!);
      insert(end);
    }
    levels.fill(0, 0, count * resources);
    for (let x = 0; x < active.length; x++) {
      const i = active[x]!;
      const [from, to] = [k.latest[i]!, this.windows.firstEnd(k, i)];
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
    const { resources, demand, capacity } = this.tasks;
    const at = this.moments[p]!;
    const own = at >= k.latest[i]! && at < this.windows.firstEnd(k, i);
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
    let end = this.windows.firstEnd(k, i);
    for (let p = 0; p < count - 1 && moments[p]! < end; p++) {
      const until = moments[p + 1]!;
      if (until <= start || until === moments[p]! || this.fitsAt(k, i, p)) continue;
      start = taskStartFrom(this.tasks, i, until);
      if (start > k.latest[i]!) return false;
      end = taskEnd(this.tasks, i, start);
    }
    return this.windows.raise(k, i, start);
  }

  private shiftEnd(k: Knowledge, i: number, count: number): boolean {
    const { moments } = this;
    let start = k.latest[i]!;
    let end = taskEnd(this.tasks, i, start);
    for (let p = count - 2; p >= 0 && moments[p + 1]! > start; p--) {
      if (moments[p]! >= end || moments[p + 1]! === moments[p]! || this.fitsAt(k, i, p)) continue;
      start = taskStartToEndBy(this.tasks, i, moments[p]!);
      if (start < k.earliest[i]!) return false;
      end = taskEnd(this.tasks, i, start);
    }
    return this.windows.lower(k, i, start);
  }
}
