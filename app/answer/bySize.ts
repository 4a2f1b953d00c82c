/** What a large build is not given so that its answer comes in time, and the note that says so. */
import type { Finding } from '../document/schema.ts';
import { finding } from '../messages/findings.ts';
import { schedulesFor, type RoutePlan } from '../plan/routePlan.ts';
import { forSize, ORDINARY_STAGES } from '../schedule/forSize.ts';

/** Ways out that are looked at: no ordinary build has so many. Beyond its size one look takes a second. */
const MOST_WAYS_OUT = 150;
const MOST_OF_LARGE = 40;
const LEAST_OF_LARGE = 4;

const stagesOf = ({ network }: Pick<RoutePlan, 'network'>): number => network.problem.stages.length;

/** How many ways out are looked at for a plan. */
export function mostWaysOut(plan: RoutePlan): number {
  const stages = stagesOf(plan);
  return stages > ORDINARY_STAGES ? forSize(MOST_OF_LARGE, stages, LEAST_OF_LARGE) : MOST_WAYS_OUT;
}

/**
 * Said where less was tried than for an ordinary build.
 * @param schedules what an ordinary build is given
 * @param waysOut those that were not looked at
 */
export function searchedInPart(plan: RoutePlan, schedules: number, waysOut: number): Finding[] {
  const stages = stagesOf(plan);
  const tried = schedulesFor(stages, schedules);
  if (tried === schedules && waysOut === 0) return [];
  return [finding('searched-in-part', { stages, tried, usually: schedules, waysOut })];
}
