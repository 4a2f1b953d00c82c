/** Earliest and latest starts at a node of the search: moved inwards only, onto minutes at which a stage may begin. */
import type { Knowledge } from './knowledge.ts';
import { NEVER } from './length.ts';
import { taskEnd, taskStartFrom, taskStartToEndBy, taskStartUpTo, type Tasks } from './tasks.ts';

export class NodeWindows {
  /** True once a start was moved; the caller sets it back. */
  changed = false;
  private readonly tasks: Tasks;
  /** Ends at the earliest starts, with the starts that they were worked out for. */
  private readonly ends: Int32Array;
  private readonly endAt: Int32Array;

  constructor(tasks: Tasks) {
    this.tasks = tasks;
    this.ends = new Int32Array(tasks.n);
    this.endAt = new Int32Array(tasks.n).fill(NEVER);
  }

  /** End at the earliest start. */
  firstEnd(k: Knowledge, i: number): number {
    const start = k.earliest[i]!;
    if (this.tasks.simple[i]) return start + this.tasks.least[i]!;
    if (this.endAt[i] !== start) {
      this.endAt[i] = start;
      this.ends[i] = taskEnd(this.tasks, i, start);
    }
    return this.ends[i]!;
  }

  /** Moves the earliest start of i up to a minute; false when no start is left. */
  raise(k: Knowledge, i: number, minute: number): boolean {
    if (minute <= k.earliest[i]!) return true;
    const start = taskStartFrom(this.tasks, i, minute);
    if (start > k.latest[i]!) return false;
    this.changed = true;
    k.earliest[i] = start;
    return true;
  }

  /** Moves the latest start of i down to a minute; false when no start is left. */
  lower(k: Knowledge, i: number, minute: number): boolean {
    if (minute >= k.latest[i]!) return true;
    const start = taskStartUpTo(this.tasks, i, minute);
    if (start < k.earliest[i]!) return false;
    this.changed = true;
    k.latest[i] = start;
    return true;
  }

  /** Moves the latest start of i down so that it ends by a minute; false when no start is left. */
  lowerEnd(k: Knowledge, i: number, end: number): boolean {
    const { simple, least } = this.tasks;
    if (simple[i]) return this.lower(k, i, end - least[i]!);
    const start = taskStartToEndBy(this.tasks, i, end);
    if (start >= k.latest[i]!) return true;
    if (start < k.earliest[i]!) return false;
    this.changed = true;
    k.latest[i] = start;
    return true;
  }
}
