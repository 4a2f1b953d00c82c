/**
 * Reads the open scheduling instances: `.sm` (R. Kolisch, A. Sprecher, EJOR 96 (1996) 205-216) and
 * `.sch` (C. Schwindt, ProGen/max, 1998).
 */

/** An instance as it is read: whole units of time, constant capacities, lags from start to start. */
export interface Instance {
  /** Length of each activity. */
  readonly duration: readonly number[];
  /** `demand[i][k]` of resource k while activity i runs. */
  readonly demand: readonly (readonly number[])[];
  readonly capacity: readonly number[];
  /** start(to) >= start(from) + lag; negative for a greatest lag the other way. */
  readonly arcs: readonly { readonly from: number; readonly to: number; readonly lag: number }[];
}

const numbers = (line: string): number[] => (line.match(/-?\d+/g) ?? []).map(Number);

/** A `.sm` file: jobs from 1, finish-to-start precedences, source and sink included. */
export function readSm(text: string): Instance {
  const lines = text.split(/\r?\n/);
  /** Rows of numbers below a title; column heads are left out. */
  const rowsBelow = (title: string): number[][] => {
    const at = lines.findIndex((line) => line.startsWith(title));
    const rest = lines.slice(at + 1);
    const rows = rest.slice(
      0,
      rest.findIndex((line) => line.startsWith('****')),
    );
    return rows.filter((line) => /^\s*\d/.test(line)).map(numbers);
  };
  const successors = rowsBelow('PRECEDENCE');
  const jobs = rowsBelow('REQUESTS');
  const [capacity] = rowsBelow('RESOURCEAVAIL');
  const duration = jobs.map((row) => row[2]!);
  return {
    duration,
    demand: jobs.map((row) => row.slice(3)),
    capacity: capacity ?? [],
    arcs: successors.flatMap((row) =>
      row.slice(3).map((to) => ({ from: row[0]! - 1, to: to - 1, lag: duration[row[0]! - 1]! })),
    ),
  };
}

/** A `.sch` file: nodes from 0, start-to-start lags in brackets, negative ones greatest lags. */
export function readSch(text: string): Instance {
  const lines = text.split(/\r?\n/).filter((line) => line.trim() !== '');
  const count = numbers(lines[0]!)[0]! + 2;
  const arcs = lines.slice(1, 1 + count).flatMap((line) => {
    const row = numbers(line);
    const [from, , degree] = [row[0]!, row[1]!, row[2]!];
    return row.slice(3, 3 + degree).map((to, k) => ({ from, to, lag: row[3 + degree + k]! }));
  });
  const rows = lines.slice(1 + count, 1 + 2 * count).map(numbers);
  return {
    duration: rows.map((row) => row[2]!),
    demand: rows.map((row) => row.slice(3)),
    capacity: numbers(lines[1 + 2 * count]!),
    arcs,
  };
}

/**
 * Units of time that no schedule needs to exceed: each activity adds at most its length or its largest
 * lag.
 */
export function horizonOf({ duration, arcs }: Instance): number {
  const most = [...duration];
  for (const { from, lag } of arcs) most[from] = Math.max(most[from]!, lag);
  return most.reduce((sum, units) => sum + units, 0);
}
