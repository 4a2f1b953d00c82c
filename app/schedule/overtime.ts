/** Overtime that a plan names and does not use. */
import type { Compiled, PlanMode, PlanStage } from './compile.ts';
import { endFrom, startFrom } from './length.ts';
import type { Assignment } from './place.ts';
import type { Problem } from './problem.ts';

/**
 * A copy of a plan in which nobody stays on for work that falls in the usual hours anyway: the same
 * spot in the mode of the same people without overtime.
 */
export function withoutIdleOvertime(compiled: Compiled, plan: Assignment): Assignment {
  const mode = compiled.stages.map((stage) => {
    const i = stage.index;
    const m = plan.mode[i]!;
    if ((stage.modes[m]?.overtimeMinutes ?? 0) === 0 || stage.spec.fixedStart !== null) return m;
    const plain = stage.modes.findIndex((other) => servesAs(compiled, stage, m, other, plan));
    return plain < 0 ? m : plain;
  });
  return { ...plan, start: [...plan.start], end: [...plan.end], mode };
}

/** True when a mode without overtime gives the same spot, under relations that ask no more. */
function servesAs(
  compiled: Compiled,
  stage: PlanStage,
  m: number,
  other: PlanMode,
  plan: Assignment,
): boolean {
  const i = stage.index;
  const mode = stage.modes[m]!;
  const start = plan.start[i]!;
  if (other.overtimeMinutes > 0 || other.repair !== mode.repair) return false;
  if (startFrom(other, start) !== start || endFrom(other, start) !== plan.end[i]!) return false;
  const asks = (index: number) =>
    compiled.arcsOf[i]!.filter((arc) => arc.ifStage === i && arc.ifMode === index)
      .map((arc) => `${arc.atLeast} ${arc.from} ${arc.to} ${arc.fromEnd} ${arc.lag}`)
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
export const withoutOvertime = (problem: Problem): Problem => ({
  ...problem,
  stages: problem.stages.map((stage) => ({
    ...stage,
    modes: stage.modes.filter((mode) => (mode.overtimeMinutes ?? 0) === 0),
  })),
});

export const offersOvertime = (problem: Problem): boolean =>
  problem.stages.some((stage) => stage.modes.some((mode) => (mode.overtimeMinutes ?? 0) > 0));
