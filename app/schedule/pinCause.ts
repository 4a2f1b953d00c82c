/** Which stage that is fixed by hand keeps another from starting sooner, straight or through others. */
import { explainStart, type Binding } from './binding.ts';
import type { Placed, Problem } from './problem.ts';

/**
 * The fixed stage behind each stage that waits for one, by stage id; a stage that is fixed itself, or
 * stands where it stands for other reasons alone, is left out.
 * @param placed a plan of the problem
 * @param byHand whether a person has fixed the start of that stage
 */
export function pinCauses(
  problem: Problem,
  placed: readonly Placed[],
  byHand: (stage: string) => boolean,
): Map<string, string> {
  const pinned = new Set(
    problem.stages
      .filter((stage) => byHand(stage.id) && standsAtPin(stage, placed))
      .map(({ id }) => id),
  );
  const causes = new Map<string, string>();
  if (pinned.size === 0) return causes;
  // In order of time: what a stage waits for has been looked at before it.
  for (const { stage } of placed.toSorted((a, b) => a.start - b.start || a.end - b.end)) {
    if (pinned.has(stage)) continue;
    const holders = holdersOf(problem, placed, stage);
    const direct = holders.find((id) => pinned.has(id));
    const cause = direct ?? holders.map((id) => causes.get(id)).find((id) => id !== undefined);
    if (cause !== undefined) causes.set(stage, cause);
  }
  return causes;
}

const standsAtPin = (
  { id, fixedEnd, fixedStart }: Problem['stages'][number],
  placed: readonly Placed[],
): boolean =>
  fixedEnd === null &&
  fixedStart !== null &&
  placed.some((spot) => spot.stage === id && spot.start === fixedStart);

/** The stages that keep it from the last earlier moment at which hands may begin. */
function holdersOf(problem: Problem, placed: readonly Placed[], id: string): string[] {
  const { minuteBefore, lastOpenBefore } = explainStart(problem, placed, id);
  return (lastOpenBefore ?? minuteBefore)?.bindings.flatMap(othersOf) ?? [];
}

function othersOf(binding: Binding): readonly string[] {
  switch (binding.kind) {
    case 'relation':
    case 'air':
      return [binding.other];
    case 'resource':
      return binding.others;
    default:
      return [];
  }
}
