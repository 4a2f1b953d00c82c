/** Earliest and latest starts of a plan by passes over its own resource order, and the float. */
import { workBetween } from '../time/calendar.ts';
import type { Compiled } from './compile.ts';
import { endFrom, NEVER } from './length.ts';
import { resourceOrder } from './order.ts';
import { peopleOf } from './people.ts';
import type { Assignment } from './serial.ts';
import type { PlacedWithFloat } from './problem.ts';
import { bindingDates } from './tight.ts';
import { earliestStarts, latestStarts, type OrderArc } from './windows.ts';

export interface PlanPasses {
  readonly earliest: readonly number[];
  readonly latest: readonly number[];
  readonly order: readonly OrderArc[];
  /** Stage indices by start, ties by id. */
  readonly sequence: readonly number[];
}

/** Forward pass from `from` and backward pass from the due moments over the plan's order. */
export function planPasses(problem: Compiled, plan: Assignment): PlanPasses {
  const compiled = withMovedPins(problem, plan);
  const options = passOptions(compiled, plan);
  return {
    earliest: earliestStarts(compiled, options).earliest,
    latest: latestStarts(compiled, options),
    order: options.order,
    sequence: options.sequence,
  };
}

function passOptions(compiled: Compiled, plan: Assignment) {
  const { stages, problem } = compiled;
  const sequence = stages
    .map((stage) => stage.index)
    .sort((a, b) => plan.start[a]! - plan.start[b]! || stages[a]!.rank - stages[b]!.rank);
  const modeOf = stages.map((stage) => (stage.modes.length ? plan.mode[stage.index]! : -1));
  return { from: problem.from, modeOf, order: resourceOrder(compiled, plan), sequence };
}

/** The backward half alone: latest starts by the plan's own order. */
export function latestByOrder(problem: Compiled, plan: Assignment): number[] {
  const compiled = withMovedPins(problem, plan);
  return latestStarts(compiled, passOptions(compiled, plan));
}

/** A pin that was moved is fixed where the plan has it. */
function withMovedPins(compiled: Compiled, plan: Assignment): Compiled {
  if (plan.missedPins.length === 0) return compiled;
  const moved = new Set(plan.missedPins.map((pin) => pin.stage));
  const stages = compiled.stages.map((stage) =>
    moved.has(stage.spec.id)
      ? { ...stage, spec: { ...stage.spec, fixedStart: plan.start[stage.index]! } }
      : stage,
  );
  return { ...compiled, stages };
}

/** Float of one stage: open minutes of its own calendar, elapsed where it has none. */
function floatOf(
  compiled: Compiled,
  plan: Assignment,
  i: number,
  from: number,
  to: number,
): number {
  const mode = compiled.stages[i]!.modes[plan.mode[i]!];
  const calendar = mode && mode.spec.length.kind === 'work' ? mode.spec.calendar : null;
  if (!calendar) return to - from;
  return to >= from ? workBetween(calendar, from, to) : -workBetween(calendar, to, from);
}

/** The plan in start order with each stage's room to move. */
export function withFloats(compiled: Compiled, plan: Assignment): PlacedWithFloat[] {
  const passes = planPasses(compiled, plan);
  const floats = compiled.stages.map((stage, i) => {
    if (stage.spec.fixedStart !== null || passes.latest[i] === NEVER) return null;
    return floatOf(compiled, plan, i, passes.earliest[i]!, passes.latest[i]!);
  });
  const people = peopleOf(compiled, plan);
  const dates = bindingDates(withMovedPins(compiled, plan), plan, passes);
  const least = Math.min(...floats.filter((minutes) => minutes !== null));
  const shown = passes.sequence.filter((i) => !compiled.stages[i]!.busy);
  return shown.map((i) => {
    const { spec, modes } = compiled.stages[i]!;
    const mode = modes[plan.mode[i]!];
    const fixed = spec.fixedStart !== null;
    const latest = passes.latest[i]!;
    return {
      stage: spec.id,
      mode: mode?.spec.id ?? '',
      start: plan.start[i]!,
      end: plan.end[i]!,
      ...(people.has(i) ? { people: people.get(i)! } : {}),
      earliestStart: fixed ? plan.start[i]! : passes.earliest[i]!,
      latestStart: fixed ? plan.start[i]! : latest === NEVER ? null : latest,
      latestEnd: fixed ? plan.end[i]! : mode && latest !== NEVER ? endFrom(mode, latest) : null,
      floatMinutes: floats[i]!,
      boundBy: dates[i]! < 0 ? null : compiled.stages[dates[i]!]!.spec.id,
      critical: floats[i] !== null && floats[i] === least,
    };
  });
}
