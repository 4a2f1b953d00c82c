/** The first good plan: one pass by urgency, repairs and overtime only where they help. */
import type { Compiled } from './compile.ts';
import { compareScores, scoreOf, type Score } from './objective.ts';
import { noCapableCrew, obstacleFor, windowObstacle } from './obstacles.ts';
import { placeByPriority, type Assignment } from './serial.ts';
import type { Obstacle } from './problem.ts';
import { earliestStarts, latestStarts } from './windows.ts';

export interface Found {
  readonly plan: Assignment | null;
  readonly score: Score | null;
  readonly obstacle: Obstacle | null;
  readonly generated: number;
}

/** Raises tried for a window that may lapse before its repair is taken. */
export const RAISES_BEFORE_REPAIR = 8;

/** Choices that a first plan may use, in order: repairs and overtime only where they help. */
const TIERS = [
  { raisesBeforeRepair: RAISES_BEFORE_REPAIR, allowOvertime: false },
  { raisesBeforeRepair: RAISES_BEFORE_REPAIR, allowOvertime: true },
  { raisesBeforeRepair: 0, allowOvertime: false },
  { raisesBeforeRepair: 0, allowOvertime: true },
] as const;

/** True when somebody may stay longer for some stage. */
export const hasOvertime = (compiled: Compiled): boolean =>
  compiled.stages.some((stage) => stage.modes.some((mode) => mode.overtimeMinutes > 0));

/** One good plan by urgency, from the stated moment on. */
export function firstPlan(compiled: Compiled, from: number): Found {
  const windows = earliestStarts(compiled, { from, modeOf: null, order: [] });
  if (windows.broken >= 0) {
    const own = brokenStage(compiled, windows.broken, from);
    const obstacle =
      windows.window && own.reason === 'beyond-horizon'
        ? windowObstacle(compiled, windows.window)
        : own;
    return { plan: null, score: null, obstacle, generated: 0 };
  }
  const priority = latestStarts(compiled, { from, modeOf: null, order: [] });
  const has = {
    repair: compiled.stages.some((stage) => stage.modes.some((mode) => mode.repair)),
    overtime: hasOvertime(compiled),
  };
  let best: Found = { plan: null, score: null, obstacle: null, generated: 0 };
  for (const tier of TIERS) {
    if ((tier.raisesBeforeRepair === 0 && !has.repair) || (tier.allowOvertime && !has.overtime))
      continue;
    const result = placeByPriority(compiled, priority, {
      from,
      modeOf: null,
      earliest: windows.earliest,
      ...tier,
    });
    const generated = best.generated + result.generated;
    if (!result.ok) {
      best = { ...best, obstacle: best.obstacle ?? result.obstacle, generated };
      continue;
    }
    const score = scoreOf(compiled, result.plan);
    const better = best.score === null || compareScores(score, best.score) < 0;
    best = better
      ? { plan: result.plan, score, obstacle: null, generated }
      : { ...best, generated };
    if (score.late === 0) break;
  }
  return best;
}

function brokenStage(compiled: Compiled, stage: number, from: number): Obstacle {
  const { spec, modes } = compiled.stages[stage]!;
  const mode = modes[0];
  const own = mode ? obstacleFor(compiled, stage, mode, from) : null;
  if (own && own.reason !== 'beyond-horizon') return own;
  const upstream = brokenUpstream(compiled, stage, from);
  if (upstream) return upstream;
  return own ?? noCapableCrew(spec);
}

/** Names the stage that never ends or can never begin: all that follow it would be late without end. */
function brokenUpstream(compiled: Compiled, stage: number, from: number): Obstacle | null {
  for (const i of compiled.topological) {
    if (i === stage) continue;
    const { modes } = compiled.stages[i]!;
    if (modes.length === 0) continue;
    const obstacles = modes.map((mode) => obstacleFor(compiled, i, mode, from));
    const [first] = obstacles;
    if (first && obstacles.every((o) => o.reason !== 'beyond-horizon')) return first;
  }
  return null;
}
