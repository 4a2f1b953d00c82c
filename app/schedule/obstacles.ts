/** Why a stage finds no place, in words. */
import type { Arc, Compiled, PlanMode } from './compile.ts';
import { endFrom, FAR, NEVER } from './length.ts';
import type { Obstacle } from './problem.ts';

/** Names a greatest lag that nothing can hold. */
export function windowObstacle(c: Compiled, arc: Arc): Obstacle {
  const [from, to] = [c.stages[arc.from]!.spec, c.stages[arc.to]!.spec];
  return {
    stage: to.id,
    reason: 'window-cannot-hold',
    detail: `${arc.spec.why}: ${from.name} and ${to.name} cannot be brought close enough.`,
  };
}

/** Names why a mode finds no spot: its calendar, its end, or the horizon. */
export function obstacleFor(c: Compiled, i: number, mode: PlanMode, from: number): Obstacle {
  const { spec } = c.stages[i]!;
  const longest = mode.table
    ? mode.table.start.reduce(
        (best, start, k) =>
          mode.table!.end[k]! > from
            ? Math.max(best, mode.table!.end[k]! - Math.max(start, from))
            : best,
        0,
      )
    : FAR;
  const need = mode.kind === 'unbroken' ? mode.minutes : 1;
  if (longest < need) {
    return {
      stage: spec.id,
      reason: 'never-fits-calendar',
      detail:
        longest === 0
          ? `Nobody is in on any day for ${spec.name}.`
          : `${spec.name} needs ${hoursText(mode.minutes)} in one stretch; the longest open stretch is ${hoursText(longest)}.`,
    };
  }
  if (mode.kind === 'function' && endFrom(mode, Math.max(from, c.problem.from)) === NEVER) {
    return {
      stage: spec.id,
      reason: 'never-ends',
      detail: `${spec.name} never gets there at this temperature.`,
    };
  }
  return {
    stage: spec.id,
    reason: 'beyond-horizon',
    detail: `${spec.name} finds no place before the end of the plan's calendar.`,
  };
}

const hoursText = (minutes: number): string => `${Math.round(minutes / 6) / 10} h`;
