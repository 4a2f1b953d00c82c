/** Overtime: where it is asked for, and where a plan names it without need. */
import type { Compiled, PlanMode, PlanStage } from './compile.ts';
import { endFrom, startFrom } from './length.ts';
import type { Assignment } from './serial.ts';
import type { Problem, Schedule } from './problem.ts';
import type { InterruptibleSearch } from './solve.ts';

/**
 * A copy of a plan in which nobody stays on for work that falls in the usual hours anyway: the same
 * spot in the mode of the same people without overtime.
 */
export function withoutIdleOvertime(compiled: Compiled, plan: Assignment): Assignment {
  const mode = compiled.stages.map((stage) => {
    const i = stage.index;
    const m = plan.mode[i]!;
    if ((stage.modes[m]?.overtimeMinutes ?? 0) === 0 || stage.spec.fixedStart !== null) return m;
    const plain = stage.modes.findIndex((other) =>
      isEquivalentMode(compiled, stage, m, other, plan),
    );
    return plain < 0 ? m : plain;
  });
  return { ...plan, start: [...plan.start], end: [...plan.end], mode };
}

/** True when a mode without overtime gives the same spot, under relations that ask no more. */
function isEquivalentMode(
  compiled: Compiled,
  stage: PlanStage,
  m: number,
  other: PlanMode,
  plan: Assignment,
): boolean {
  const i = stage.index;
  const mode = stage.modes[m]!;
  const start = plan.start[i]!;
  if (other.overtimeMinutes > 0 || other.warnings !== mode.warnings) return false;
  if (startFrom(other, start) !== start || endFrom(other, start) !== plan.end[i]!) return false;
  const asks = (index: number) =>
    compiled.arcsOf[i]!.filter((arc) => arc.ifStage === i && arc.ifMode === index)
      .map((arc) => `${arc.spec.type} ${arc.from} ${arc.to} ${arc.fromEnd} ${arc.lag}`)
      .join();
  const sameUses =
    other.uses.length === mode.uses.length &&
    other.uses.every((use, k) => {
      const own = mode.uses[k]!;
      return use.resource === own.resource && use.amount === own.amount;
    });
  return sameUses && asks(other.index) === asks(mode.index);
}

/** The problem as it is when nobody stays on. */
const withoutOvertime = (problem: Problem): Problem => ({
  ...problem,
  stages: problem.stages.map((stage) => ({
    ...stage,
    modes: stage.modes.filter((mode) => (mode.overtimeMinutes ?? 0) === 0),
  })),
});

const offersOvertime = (problem: Problem): boolean =>
  problem.stages.some((stage) => stage.modes.some((mode) => (mode.overtimeMinutes ?? 0) > 0));

/** Overtime is asked for only where a date is missed without it, and kept only where it helps. */
export function* usualHoursFirst(
  problem: Problem,
  solve: (problem: Problem) => InterruptibleSearch<Schedule>,
): InterruptibleSearch<Schedule> {
  if (!offersOvertime(problem)) return yield* solve(problem);
  const usual = yield* solve(withoutOvertime(problem));
  if (usual.fits) return usual;
  const longer = yield* solve(problem);
  if (usual.placed.length === 0) return longer;
  if (longer.placed.length === 0) return usual;
  return worstLateness(problem, longer) < worstLateness(problem, usual) ? longer : usual;
}

/** Minutes late at the worst moment that is due. */
function worstLateness(problem: Problem, { placed, missedPins }: Schedule): number {
  const dues = new Map(problem.stages.map((stage) => [stage.id, stage.due ?? problem.due]));
  const late = placed.map(({ stage, end }) => end - Math.min(dues.get(stage)!, problem.due));
  return Math.max(0, ...late, ...missedPins.map((pin) => pin.byMinutes));
}
