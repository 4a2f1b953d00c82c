/**
 * Why a problem does not fit: smallest sets of facts that do not go together. Drop any one fact of
 * a set and the rest of the set fits; sets that share nothing are listed apart.
 */
import { compile } from './compile.ts';
import { exactSearch } from './exact.ts';
import { constraintsOf, without, type Constraint } from './constraints.ts';
import { ANY_LATE } from './objective.ts';
import type { Problem } from './problem.ts';
import { improvePlan } from './search.ts';
import { firstPlan } from './first.ts';

export interface Conflict {
  readonly facts: readonly Constraint[];
  /** True when it is proven that they do not fit together; false: no plan was found for them. */
  readonly proven: boolean;
}

export interface ExplainOptions {
  readonly seed: number;
  /** Schedules generated for each question whether a set of facts fits. */
  readonly schedules?: number;
}

const SCHEDULES_EACH = 60;
const MOST_CONFLICTS = 3;

type Verdict = 'fits' | 'does-not-fit' | 'no-plan-found';

/** Whether everything can be done in time; 'fits' always rests on a plan. */
export function verdictOf(problem: Problem, schedules: number, seed: number): Verdict {
  const compiled = compile(problem);
  if (compiled.obstacles.length > 0) return 'does-not-fit';
  const { from } = problem;
  const first = firstPlan(compiled, from);
  if (first.score?.late === 0) return 'fits';
  const nodes = Math.floor(schedules / 2);
  const exact = exactSearch(compiled, { from, nodes, better: ANY_LATE, stopWhenFits: true });
  if (exact.plan) return 'fits';
  if (exact.exhausted) return 'does-not-fit';
  if (!first.plan) return 'no-plan-found';
  const better = improvePlan(
    compiled,
    { plan: first.plan, score: first.score! },
    { from, schedules: schedules - nodes, seed, stopWhenFits: true },
  );
  return better.score.late === 0 ? 'fits' : 'no-plan-found';
}

/** Faults of the data itself, each a conflict of its own. */
function faultsOf(problem: Problem): Conflict[] {
  return compile(problem).obstacles.map((obstacle) => ({
    facts: [
      {
        kind: 'stage',
        about: [obstacle.stage],
        fact: { what: 'obstacle', obstacle: obstacle.args },
        relation: -1,
      },
    ],
    proven: true,
  }));
}

/**
 * The conflicts of a problem that does not fit; empty when it fits. Bounded in time: each fact is
 * asked about once for each conflict.
 */
export function explain(problem: Problem, options: ExplainOptions): Conflict[] {
  const faults = faultsOf(problem);
  if (faults.length > 0) return faults;
  const ask = (p: Problem) => verdictOf(p, options.schedules ?? SCHEDULES_EACH, options.seed);
  const conflicts: Conflict[] = [];
  let rest = problem;
  let facts = constraintsOf(problem);
  while (conflicts.length < MOST_CONFLICTS && ask(rest) !== 'fits') {
    const found = smallest(rest, facts, ask);
    if (found.facts.length === 0) break;
    conflicts.push(found);
    facts = facts.filter((fact) => !found.facts.includes(fact));
    rest = found.facts.reduce(without, rest);
  }
  return conflicts;
}

/** Drops every fact that can go while the rest still does not fit. */
function smallest(
  problem: Problem,
  facts: readonly Constraint[],
  ask: (problem: Problem) => Verdict,
): Conflict {
  let current = problem;
  const kept: Constraint[] = [];
  for (const fact of facts) {
    const next = without(current, fact);
    if (ask(next) === 'fits') kept.push(fact);
    else current = next;
  }
  return { facts: kept, proven: ask(current) === 'does-not-fit' };
}
