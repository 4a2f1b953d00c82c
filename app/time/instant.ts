/** Time inside the planner: whole minutes of Unix UTC. No date library in inner loops. */

/** Whole minutes since 1970-01-01T00:00Z. */
export type Minute = number;

/** A half-open stretch of time, [start, end), in minutes of Unix UTC. */
export interface Interval {
  readonly start: Minute;
  readonly end: Minute;
}

/** Sorted, disjoint, non-touching intervals: a calendar expanded once. */
export type Calendar = readonly Interval[];

export const MINUTES_PER_HOUR = 60;
export const MINUTES_PER_DAY = 1440;
