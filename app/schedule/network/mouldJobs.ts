/** Other jobs in the mould: from the release coats to demould it is kept, nights and waits included. */
import { resourceId } from '../../document/ids.ts';
import type { StageKind } from '../../document/schema.ts';
import { compile } from '../compile.ts';
import { endFrom, NEVER } from '../length.ts';
import type { Busy, Problem, StageSpec } from '../problem.ts';
import { earliestStarts } from '../windows.ts';

const MOULD = resourceId({ kind: 'mould' });

/** Done to the mould before its release coats: another job may come between. */
const BEFORE_RELEASE: ReadonlySet<StageKind> = new Set(['mould', 'seal', 'bag-test']);

const keepsMould = ({ kind, modes }: StageSpec): boolean =>
  !BEFORE_RELEASE.has(kind) &&
  modes.some((mode) => mode.uses.some((use) => use.resource === MOULD));

/**
 * A job that takes every mould comes before the release coats or after demould. Where demould cannot
 * be reached before it begins, all that keeps the mould waits for its end. A part that lies in the mould
 * already is left there, and so is one that was pinned to its moment by hand.
 */
export function roundMouldJobs(problem: Problem): Problem {
  const there = problem.resources.find(({ id }) => id === MOULD)?.capacity ?? 0;
  const jobs = (problem.busy ?? [])
    .filter(({ resource, amount }) => resource === MOULD && amount >= there)
    .sort((a, b) => a.start - b.start || a.end - b.end);
  const settled = problem.stages.some((stage) => keepsMould(stage) && stage.fixedStart !== null);
  return settled ? problem : jobs.reduce(roundOne, problem);
}

function roundOne(problem: Problem, job: Busy): Problem {
  if (leavesMould(problem) <= job.start) return problem;
  const holdsUp = problem.stages.filter(keepsMould).map(({ id }) => id);
  const busy = problem.busy!.map((one) => (one === job ? { ...one, holdsUp } : one));
  return { ...problem, busy };
}

/** The earliest end of what keeps the mould if nobody and nothing were scarce. */
function leavesMould(problem: Problem): number {
  const compiled = compile(problem);
  const { from } = problem;
  const { earliest } = earliestStarts(compiled, { from, modeOf: null, order: [] });
  const ends = compiled.stages
    .filter(({ spec, busy }) => !busy && keepsMould(spec))
    .map(({ modes, index }) => {
      const own = modes.map((mode) => endFrom(mode, earliest[index]!)).filter((t) => t !== NEVER);
      return own.length > 0 ? Math.min(...own) : from;
    });
  return Math.max(from, ...ends);
}
