/** How late a plan is: against the unveiling, and of every stage against its own due moment. */
import type { Problem, Schedule } from '../schedule/problem.ts';
import type { Minute } from '../time/instant.ts';

/** All in minutes; negative: to spare. */
export interface Lateness {
  /** From the unveiling to the end of the plan. */
  readonly pastDateMinutes: number;
  /** The worst of that and of every stage that has a due moment of its own, as a booked slot. */
  readonly worstMinutes: number;
  /** Stages that end after their own due moment, by how much. */
  readonly lateStages: ReadonlyMap<string, number>;
}

/**
 * The only place where lateness is worked out for a plan.
 * @param deadline the unveiling
 * @returns null for a plan that places nothing
 */
export function latenessOf(
  deadline: Minute,
  { stages }: Pick<Problem, 'stages'>,
  { placed, end }: Pick<Schedule, 'placed' | 'end'>,
): Lateness | null {
  if (end === null) return null;
  const dues = new Map(stages.map((stage) => [stage.id, stage.due]));
  const overs = placed.flatMap(({ stage, end: done }): [string, number][] => {
    const due = dues.get(stage) ?? null;
    return due === null ? [] : [[stage, done - due]];
  });
  const pastDateMinutes = end - deadline;
  return {
    pastDateMinutes,
    worstMinutes: Math.max(pastDateMinutes, ...overs.map(([, over]) => over)),
    lateStages: new Map(overs.filter(([, over]) => over > 0)),
  };
}
