/** What the bench shows: the step that is now, what else could be stamped, what comes next, and its clocks. */
import type { PlanOutcome } from '../../plan/outcome.ts';
import type { Minute } from '../../time/instant.ts';
import { nearestClock, runningClocks, type BenchClock } from './clocks.ts';
import { isNeverStamped, openSteps, type Step } from './steps.ts';

export interface Bench {
  readonly steps: readonly Step[];
  /** What the key stamps; null: nothing is left. */
  readonly current: Step | null;
  /** Steps that could be stamped now, one of each stage, the current one among them. */
  readonly choices: readonly Step[];
  /** What comes once the current one is stamped. */
  readonly next: Step | null;
  readonly clocks: readonly BenchClock[];
  readonly clock: BenchClock | null;
  /** True while resin is wet or curing: the computer may not sleep. */
  readonly curing: boolean;
}

const MOST_CHOICES = 6;

/**
 * The bench at a moment.
 * @param picked key of the step that somebody chose; the first of the plan where it is none of them
 */
export function benchAt(outcome: PlanOutcome, now: Minute, picked: string | null): Bench {
  const steps = openSteps(outcome);
  const first = new Map<string, Step>();
  for (const step of steps) if (!first.has(step.stage)) first.set(step.stage, step);
  const open = [...first.values()].filter((step) => isReady(outcome, step));
  const choices = open.slice(0, MOST_CHOICES);
  const current = choices.find(({ key }) => key === picked) ?? choices[0] ?? null;
  const clocks = runningClocks(outcome);
  return {
    steps,
    current,
    choices,
    next:
      steps.find((step) => step.key !== current?.key && isAfter(step, current, choices)) ?? null,
    clocks,
    clock: nearestClock(clocks, now),
    curing: clocks.length > 0,
  };
}

/** Nothing that must come before it is still to begin; a gel is looked for once its bag is down. */
function isReady({ result, detail }: PlanOutcome, { stage, stamp }: Step): boolean {
  const stages = new Map(result.stages.map((one) => [one.id, one]));
  const hasBegun = (id: string): boolean => stages.get(id)?.state !== undefined;
  const cleared = (id: string): boolean =>
    (detail.before?.[id] ?? []).every((earlier) => {
      const one = stages.get(earlier);
      if (!one || hasBegun(earlier)) return true;
      return isNeverStamped(one.kind) && cleared(earlier);
    });
  if (stamp !== 'gel') return cleared(stage);
  const cure = stages.get(stage)?.cure;
  const layups = result.stages.filter((one) => one.kind === 'layup' && one.cure === cure);
  return layups.every(({ state }) => state === 'done' || state === 'implied');
}

/** The next step of the plan, past the current one. */
const isAfter = (step: Step, current: Step | null, choices: readonly Step[]): boolean =>
  current === null ||
  step.stage === current.stage ||
  choices.includes(step) ||
  (step.at ?? 0) >= (current.at ?? 0);
