/**
 * The plain case: whole lengths, constant capacities, lags from start to start. What is left of a
 * scheduling problem once calendars, cures and modes are out of the way.
 */
export interface PlainArc {
  readonly from: number;
  readonly to: number;
  /** start(to) >= start(from) + lag; negative for a greatest lag the other way. */
  readonly lag: number;
}

export interface PlainModel {
  /** Length of each activity. */
  readonly duration: readonly number[];
  /** `demand[i][k]` of resource k while activity i runs. */
  readonly demand: readonly (readonly number[])[];
  readonly capacity: readonly number[];
  readonly arcs: readonly PlainArc[];
}

/** What a search of the plain case hands back. */
export interface PlainResult {
  /** Starts by activity, from 0; null when none was found. */
  readonly starts: readonly number[] | null;
  /** End of the last activity; null when none was found. */
  readonly makespan: number | null;
  readonly lowerBound: number;
  /** True when it was proven that no schedule exists. */
  readonly infeasible: boolean;
  readonly generated: number;
}

export interface PlainEffort {
  /** Most schedules generated: each pass, partial or full, and each search node. */
  readonly schedules: number;
  readonly seed: number;
  readonly shouldStop?: () => boolean;
}

/** True when every arc is a plain precedence: start to start by at least the length. */
export const isPrecedenceOnly = (model: PlainModel): boolean =>
  model.arcs.every((arc) => arc.lag === model.duration[arc.from]);
