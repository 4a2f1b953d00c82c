/** Why a stage finds no place. */
import type { Arc, Compiled, PlanMode } from './compile.ts';
import { endFrom, FAR, NEVER } from './length.ts';
import type { Obstacle, StageSpec } from './problem.ts';

/** Nobody there can do it, or not enough of them. */
export const noCapableCrew = ({ id, name }: StageSpec): Obstacle => ({
  stage: id,
  reason: 'no-mode',
  args: { what: 'nobody-can', stage: name },
});

/** What it needs is kept by others, which wait for it themselves. */
export const gearDeadlock = ({ id, name }: StageSpec): Obstacle => ({
  stage: id,
  reason: 'no-capacity',
  args: { what: 'gear-in-a-ring', stage: name },
});

/** Names a greatest lag that nothing can hold. */
export function windowObstacle(c: Compiled, arc: Arc): Obstacle {
  const [from, to] = [c.stages[arc.from]!.spec, c.stages[arc.to]!.spec];
  return {
    stage: to.id,
    reason: 'window-cannot-hold',
    args: { what: 'too-far-apart', why: arc.spec.why, from: from.name, to: to.name },
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
      args:
        longest === 0
          ? { what: 'nobody-in', stage: spec.name }
          : {
              what: 'stretch-too-short',
              stage: spec.name,
              needsMinutes: mode.minutes,
              longestMinutes: longest,
            },
    };
  }
  if (mode.kind === 'function' && endFrom(mode, Math.max(from, c.problem.from)) === NEVER) {
    return {
      stage: spec.id,
      reason: 'never-ends',
      args: { what: 'never-ends', stage: spec.name },
    };
  }
  return {
    stage: spec.id,
    reason: 'beyond-horizon',
    args: { what: 'beyond-calendar', stage: spec.name },
  };
}
