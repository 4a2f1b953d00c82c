/**
 * Every start in every mode of a tiny build, slot by slot, judged by the independent checker alone.
 * It shares no code with the engine.
 */
import { violations } from '../../app/schedule/check.ts';
import type { Placed, Problem } from '../../app/schedule/problem.ts';
import { SLOT_MINUTES } from './builds.ts';

/** What the engine minimises, in the stated order. */
export type ScoreParts = readonly [
  late: number,
  repairs: number,
  overtimeMinutes: number,
  end: number,
  sum: number,
];

/** The score of a placement, counted here and not by the engine. */
export function scoreParts(problem: Problem, placed: readonly Placed[]): ScoreParts {
  let [late, repairs, overtimeMinutes, end, sum] = [0, 0, 0, -Infinity, 0];
  for (const spot of placed) {
    const stage = problem.stages.find((s) => s.id === spot.stage)!;
    const mode = stage.modes.find((m) => m.id === spot.mode)!;
    late += Math.max(0, spot.end - Math.min(stage.due ?? problem.due, problem.due));
    repairs += (mode.repair === true ? 1 : 0) + (mode.warnings ?? 0);
    overtimeMinutes += mode.overtimeMinutes ?? 0;
    end = Math.max(end, spot.end);
    sum += spot.end - problem.from;
  }
  return [late, repairs, overtimeMinutes, end, sum];
}

const isLess = (a: ScoreParts, b: ScoreParts): boolean => {
  const k = a.findIndex((part, i) => part !== b[i]);
  return k >= 0 && a[k]! < b[k]!;
};

function spotsOf(problem: Problem, index: number): Placed[] {
  const stage = problem.stages[index]!;
  const alone: Problem = { ...problem, stages: [stage], relations: [], holds: [] };
  const spots: Placed[] = [];
  for (const mode of stage.modes) {
    for (let start = problem.from; start <= problem.horizon; start += SLOT_MINUTES) {
      for (let end = start; end <= problem.horizon; end += SLOT_MINUTES) {
        const spot = { stage: stage.id, mode: mode.id, start, end };
        if (violations(alone, [spot]).length > 0) continue;
        spots.push(spot);
        break;
      }
    }
  }
  return spots;
}

/** The problem of its first stages alone. */
function firstStages(problem: Problem, count: number): Problem {
  const stages = problem.stages.slice(0, count);
  const ids = new Set(stages.map(({ id }) => id));
  const relations = problem.relations.filter(({ from, to }) => ids.has(from) && ids.has(to));
  return { ...problem, stages, relations };
}

/**
 * The best score of all placements on the slots; null when none keeps every rule. A rule that some stages
 * break stays broken whatever is placed beside them, and no part of a score falls.
 */
export function enumerateBest(problem: Problem): ScoreParts | null {
  const choices = problem.stages.map((_, i) =>
    spotsOf(problem, i).sort((a, b) => a.end - b.end || a.start - b.start),
  );
  const soFar = problem.stages.map((_, i) => firstStages(problem, i + 1));
  let best: ScoreParts | null = null;
  const placed: Placed[] = [];
  const visit = (depth: number): void => {
    if (depth === choices.length) {
      best = scoreParts(problem, placed);
      return;
    }
    for (const spot of choices[depth]!) {
      placed.push(spot);
      const mayWin = best === null || isLess(scoreParts(problem, placed), best);
      if (mayWin && violations(soFar[depth]!, placed).length === 0) visit(depth + 1);
      placed.pop();
    }
  };
  visit(0);
  return best;
}
