/** Plans around the windows that recorded work has already missed: a record cannot be changed. */
import { compile } from './compile.ts';
import {
  closes,
  type Placed,
  type Problem,
  type Relation,
  type Schedule,
  type StageSpec,
} from './problem.ts';
import type { InterruptibleSearch } from './solve.ts';
import { arcCeiling, earliestStarts } from './windows.ts';

/** A greatest lag from something recorded that the plan could not keep. */
export interface MissedWindow {
  readonly relation: Relation;
  /** Minutes by which the plan misses it. */
  readonly byMinutes: number;
}

export interface SolvedAroundRecords {
  readonly schedule: Schedule;
  /** The problem as it was planned: without the windows that have passed. */
  readonly problem: Problem;
  readonly passed: readonly MissedWindow[];
}

/** Solves a problem; windows that depend on recorded stages and cannot hold are dropped one by one. */
export function* solveAroundRecords(
  whole: Problem,
  solve: (problem: Problem) => InterruptibleSearch<Schedule>,
): InterruptibleSearch<SolvedAroundRecords> {
  let problem = withoutPassed(whole);
  let schedule = yield* solve(problem);
  while (schedule.obstacles.some((obstacle) => obstacle.reason === 'window-cannot-hold')) {
    const next = nextToDrop(problem, schedule);
    if (!next) break;
    problem = without(problem, next);
    schedule = yield* solve(problem);
  }
  const gone = whole.relations.filter((relation) => !problem.relations.includes(relation));
  return { schedule, problem, passed: gone.flatMap((one) => missOf(one, schedule.placed)) };
}

const without = (problem: Problem, gone: Relation): Problem => ({
  ...problem,
  relations: problem.relations.filter((relation) => relation !== gone),
});

/** Greatest lags from a stage that has begun to one that has not. */
function windowsOfRecords({ stages, relations, from }: Problem): Relation[] {
  const begun = new Set(stages.filter((stage) => hasBegun(stage, from)).map(({ id }) => id));
  if (begun.size === 0) return [];
  return relations.filter(
    (relation) => closes(relation) && begun.has(relation.from) && !begun.has(relation.to),
  );
}

/** Recorded; or fixed to a minute that is here or gone: nobody can begin it later. */
const hasBegun = (stage: StageSpec, from: number): boolean =>
  stage.begun === true ||
  stage.fixedEnd !== null ||
  (stage.fixedStart !== null && stage.fixedStart <= from);

/**
 * Without the windows that are missed even if no resource were scarce: by lengths and lags alone their
 * target cannot start early enough.
 */
function withoutPassed(problem: Problem): Problem {
  const windows = new Set(windowsOfRecords(problem));
  if (windows.size === 0) return problem;
  const compiled = compile(problem);
  if (compiled.obstacles.length > 0) return problem;
  const free = compile({
    ...problem,
    relations: problem.relations.filter((relation) => !windows.has(relation)),
  });
  const { earliest } = earliestStarts(free, { from: problem.from, modeOf: null, order: [] });
  const passed = new Set(
    compiled.arcs
      .filter(({ spec }) => windows.has(spec))
      .filter((arc) => {
        const { fixedStart, fixedEnd } = compiled.stages[arc.from]!.spec;
        const anchor = arc.fromEnd ? fixedEnd : fixedStart;
        return anchor !== null && earliest[arc.to]! > arcCeiling(arc, anchor);
      })
      .map((arc) => arc.spec),
  );
  return passed.size === 0
    ? problem
    : { ...problem, relations: problem.relations.filter((relation) => !passed.has(relation)) };
}

/** The window to drop next: that of the stage that found no place, or else the first there is. */
function nextToDrop(problem: Problem, { obstacles }: Schedule): Relation | undefined {
  const windows = windowsOfRecords(problem);
  return windows.find(({ to }) => obstacles.some(({ stage }) => stage === to)) ?? windows[0];
}

function missOf(relation: Relation, placed: readonly Placed[]): MissedWindow[] {
  const [from, to] = [relation.from, relation.to].map((id) => placed.find((p) => p.stage === id));
  if (!from || !to) return [];
  if (relation.onlyIf && !placed.some((p) => isMode(p, relation.onlyIf!))) return [];
  const anchor = relation.anchor === 'end' ? from.end : from.start;
  const bound =
    typeof relation.lag === 'number' ? anchor + relation.lag : relation.lag.apply(anchor);
  const byMinutes = bound === null ? 0 : to.start - bound;
  return byMinutes > 0 ? [{ relation, byMinutes }] : [];
}

const isMode = (placed: Placed, { stage, mode }: { stage: string; mode: string }): boolean =>
  placed.stage === stage && placed.mode === mode;
