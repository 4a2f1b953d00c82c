/** How much of a count of schedules or nodes a network gets: one takes with the square of its stages. */

/** Up to so many stages a search has all that it is given: every ordinary build has fewer. */
export const ORDINARY_STAGES = 130;

/** The count for a network of so many stages, so that all of them together take no longer than for an ordinary one. */
export function forSize(count: number, stages: number, least = 1): number {
  if (stages <= ORDINARY_STAGES) return count;
  const share = (ORDINARY_STAGES / stages) ** 2;
  return Math.min(count, Math.max(least, Math.floor(count * share)));
}
