/** Faults of the data itself, found without placing anything. */
import { noCapableCrew } from './obstacles.ts';
import type { Arc, PlanHold, PlanStage } from './compile.ts';
import { closes, type Obstacle, type Problem } from './problem.ts';

/** Stages that nobody can do, or that want more than there is. */
export function stageFaults(problem: Problem, stages: readonly PlanStage[]): Obstacle[] {
  const capacity = new Map(problem.resources.map((resource) => [resource.id, resource]));
  return stages.flatMap(({ spec, modes }): Obstacle[] => {
    if (modes.length > 0 || (spec.fixedStart !== null && spec.fixedEnd !== null)) return [];
    const lacking = spec.modes[0]?.uses.find(
      (use) => use.amount > (capacity.get(use.resource)?.capacity ?? 0),
    );
    if (!lacking) return [noCapableCrew(spec)];
    const resource = capacity.get(lacking.resource);
    return [
      {
        stage: spec.id,
        reason: 'no-capacity',
        args: {
          what: 'too-little',
          stage: spec.name,
          needs: lacking.amount,
          of: resource?.name ?? lacking.resource,
          there: resource?.capacity ?? 0,
        },
      },
    ];
  });
}

/** Holds of more than there is. */
export function holdFaults(problem: Problem, holds: readonly PlanHold[]): Obstacle[] {
  return holds
    .filter((hold) => hold.resource < 0 || hold.amount > problem.resources[hold.resource]!.capacity)
    .map((hold): Obstacle => {
      const from = problem.stages[hold.from]!;
      return {
        stage: from.id,
        reason: 'no-capacity',
        args: {
          what: 'keeps-too-much',
          stage: from.name,
          keeps: hold.amount,
          of: problem.resources[hold.resource]?.name ?? 'what is not there',
          until: problem.stages[hold.to]!.name,
        },
      };
    });
}

/** Stages that wait for one another in a ring; `topological` holds those that do not. */
export function cycleFaults(
  stages: readonly PlanStage[],
  before: readonly (readonly number[])[],
  topological: readonly number[],
): Obstacle[] {
  if (topological.length === stages.length) return [];
  const cycle = findCycle(before, new Set(topological));
  const names = [...cycle, cycle[0]!].map((i) => stages[i]!.spec.name);
  return [
    {
      stage: stages[cycle[0]!]!.spec.id,
      reason: 'cycle',
      args: { what: 'ring', stages: names },
    },
  ];
}

/** One cycle among the stages that never became free, in order. */
function findCycle(before: readonly (readonly number[])[], done: ReadonlySet<number>): number[] {
  let at = before.findIndex((_, i) => !done.has(i));
  const seen = new Map<number, number>();
  const path: number[] = [];
  while (!seen.has(at)) {
    seen.set(at, path.length);
    path.push(at);
    at = before[at]!.find((i) => !done.has(i))!;
  }
  return path.slice(seen.get(at)).reverse();
}

/** Two stages whose greatest lag is below their least one. */
export function lagFaults(stages: readonly PlanStage[], arcs: readonly Arc[]): Obstacle[] {
  const plain = arcs.filter((arc) => arc.map === null && arc.ifStage < 0 && arc.from !== arc.to);
  const least = plain.filter((arc) => !closes(arc.spec));
  return plain
    .filter((arc) => !arc.atLeast && !bothFixed(stages, arc))
    .flatMap((greatest): Obstacle[] => {
      const against = least.find(
        (arc) =>
          arc.from === greatest.from &&
          arc.to === greatest.to &&
          contradicts(stages, arc, greatest),
      );
      if (!against) return [];
      const [from, to] = [stages[greatest.from]!.spec, stages[greatest.to]!.spec];
      const args = {
        what: 'lags-cross',
        from: from.name,
        to: to.name,
        mostMinutes: greatest.lag,
        leastMinutes: against.lag,
      } as const;
      return [{ stage: to.id, reason: 'window-cannot-hold', args }];
    });
}

const bothFixed = (stages: readonly PlanStage[], { from, to }: Arc): boolean =>
  stages[from]!.spec.fixedStart !== null && stages[to]!.spec.fixedStart !== null;

/** True when no start of the target keeps both: a source ends no sooner than its shortest mode. */
function contradicts(stages: readonly PlanStage[], least: Arc, greatest: Arc): boolean {
  const lengths = stages[least.from]!.modes.map((mode) => mode.minutes);
  const shortest = lengths.length > 0 ? Math.min(...lengths) : 0;
  const between = Number(least.fromEnd) - Number(greatest.fromEnd);
  // A greatest lag from the end of a source that may take any length says nothing of its start.
  return between >= 0 && least.lag + between * shortest > greatest.lag;
}
