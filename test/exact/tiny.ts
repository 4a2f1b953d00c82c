/** Builds so small that every placement can be tried. */
import type { Problem } from '../../app/schedule/problem.ts';
import { makeBuild, problemOfBuild } from './builds.ts';

/** The first stages of a build over two short days. */
export function tinyProblem(seed: number): Problem {
  const build = makeBuild(seed);
  const kept = new Set(build.stages.slice(0, 3).map((stage) => stage.id));
  return problemOfBuild({
    ...build,
    due: 30,
    horizon: 66,
    stages: build.stages
      .filter((stage) => kept.has(stage.id))
      .map((stage) => ({
        ...stage,
        release: stage.release % 20,
        due: null,
        modes: stage.modes.slice(0, 2).map((mode) => ({
          ...mode,
          amount: mode.kind === 'cure' ? 10 : Math.min(mode.amount, 5),
        })),
      })),
    relations: build.relations
      .filter((r) => kept.has(r.from) && kept.has(r.to) && r.onlyIf === null)
      .map((r) => ({ ...r, lag: r.type === 'at-most' ? r.lag % 25 : r.lag % 5 })),
    holds: [],
  });
}
