/** Reads a scheduling problem as the plain case, where it is one. */
import type { Compiled } from '../compile.ts';
import type { PlainArc, PlainModel } from './model.ts';

/** Largest problem whose lags are closed in one matrix. */
const MOST_ACTIVITIES = 400;

/**
 * The model of a problem without calendars, cures, choices, air, holds, pins and due moments of
 * single stages; null when it has any of them. Activity 0 is the beginning, stage i is i + 1.
 */
export function plainModelOf(compiled: Compiled): PlainModel | null {
  const { problem, stages, arcs, holds } = compiled;
  if (holds.length > 0 || stages.length === 0 || stages.length > MOST_ACTIVITIES) return null;
  const isPlain = stages.every(
    ({ spec, modes }) =>
      modes.length === 1 &&
      spec.modes.length === 1 &&
      modes[0]!.table === null &&
      modes[0]!.kind !== 'function' &&
      Number.isInteger(modes[0]!.minutes) &&
      spec.air === null &&
      spec.due === null &&
      spec.fixedStart === null &&
      !spec.perishable,
  );
  const plainArcs = arcs.every((arc) => arc.map === null && arc.ifStage < 0);
  if (!isPlain || !plainArcs || problem.horizon - problem.from > 100_000) return null;
  const minutes = stages.map((stage) => stage.modes[0]!.minutes);
  const end = stages.length + 1;
  const out: PlainArc[] = stages.flatMap(({ spec }, i) => [
    { from: 0, to: i + 1, lag: Math.max(0, (spec.release ?? problem.from) - problem.from) },
    { from: i + 1, to: end, lag: minutes[i]! },
  ]);
  for (const arc of arcs) {
    const lag = arc.lag + (arc.fromEnd ? minutes[arc.from]! : 0);
    out.push(
      arc.atLeast
        ? { from: arc.from + 1, to: arc.to + 1, lag }
        : { from: arc.to + 1, to: arc.from + 1, lag: -lag },
    );
  }
  const none = problem.resources.map(() => 0);
  const demand = stages.map((stage) => {
    const row = [...none];
    for (const use of stage.modes[0]!.uses) row[use.resource]! += use.amount;
    return row;
  });
  return {
    duration: [0, ...minutes, 0],
    demand: [none, ...demand, none],
    capacity: problem.resources.map((resource) => resource.capacity),
    arcs: out,
  };
}
