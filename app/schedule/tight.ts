/** Along which tie a stage cannot start later: what follows a plan's latest starts to the date behind them. */
import type { Compiled } from './compile.ts';
import type { PlanPasses } from './floats.ts';
import { endFrom, NEVER, startToEndBy, startUpTo } from './length.ts';
import type { Assignment } from './serial.ts';
import { anchorBefore, arcCeiling, binds, dueOf, fixedEndOf } from './windows.ts';

/** The stage that holds another at its latest start, and the resource handed on between them. */
export interface Tie {
  readonly to: number;
  /** Index of the resource; -1 for the room's air; null for a relation. */
  readonly resource: number | null;
}

/**
 * The stage for whose sake a stage cannot start later than its latest start: first the one that takes a
 * resource over from it, then the one that a relation ties it to.
 * @returns null where nothing but its own date, or nothing at all, holds it
 */
export function tieOf(
  compiled: Compiled,
  plan: Assignment,
  { latest, order }: PlanPasses,
  i: number,
): Tie | null {
  const mode = compiled.stages[i]!.modes[plan.mode[i]!];
  if (!mode || latest[i] === NEVER) return null;
  const endsBy = (end: number) => startToEndBy(mode, end) === latest[i];
  const startsBy = (minute: number) => startUpTo(mode, minute) === latest[i];
  const handed = order.find(
    ({ from, to, gap }) => from === i && latest[to] !== NEVER && endsBy(latest[to]! - gap),
  );
  if (handed) return { to: handed.to, resource: handed.resource };
  const before = compiled.arcs.find((arc) => {
    if (!arc.atLeast || arc.from !== i || !binds(arc, compiled, plan.mode)) return false;
    const anchor = anchorBefore(arc, latest[arc.to]!);
    return arc.fromEnd ? endsBy(anchor) : startsBy(anchor);
  });
  if (before) return { to: before.to, resource: null };
  const window = compiled.arcsInto[i]!.find((arc) => {
    if (arc.atLeast || !binds(arc, compiled, plan.mode) || latest[arc.from] === NEVER) return false;
    const anchor = arc.fromEnd ? latestEnd(compiled, plan, latest, arc.from) : latest[arc.from]!;
    return startsBy(arcCeiling(arc, anchor));
  });
  return window ? { to: window.from, resource: null } : null;
}

function latestEnd(
  compiled: Compiled,
  plan: Assignment,
  latest: readonly number[],
  i: number,
): number {
  const stage = compiled.stages[i]!;
  const mode = stage.modes[plan.mode[i]!];
  return stage.spec.fixedStart !== null || !mode
    ? fixedEndOf(stage, mode)
    : endFrom(mode, latest[i]!);
}

/**
 * For each stage, the stage whose own date its latest start depends on: a booked slot, a pin, its own due
 * moment; -1 where that is the date of the whole plan.
 */
export function bindingDates(
  compiled: Compiled,
  plan: Assignment,
  passes: PlanPasses,
): readonly number[] {
  const found = new Map<number, number>();
  const dateOf = (i: number): number => {
    const known = found.get(i);
    if (known !== undefined) return known;
    // A ring of ties ends at the date of the whole plan.
    found.set(i, -1);
    const date = ownDate(compiled, plan, passes, i) ?? tied(i);
    found.set(i, date);
    return date;
  };
  const tied = (i: number): number => {
    const tie = tieOf(compiled, plan, passes, i);
    return tie ? dateOf(tie.to) : -1;
  };
  return compiled.stages.map((_, i) => dateOf(i));
}

/** The stage itself where its own date holds it, -1 for the plan's date, null where neither does. */
function ownDate(
  compiled: Compiled,
  plan: Assignment,
  { latest }: PlanPasses,
  i: number,
): number | null {
  const stage = compiled.stages[i]!;
  if (stage.spec.fixedStart !== null) return i;
  const mode = stage.modes[plan.mode[i]!];
  if (!mode || startToEndBy(mode, dueOf(compiled, stage)) !== latest[i]) return null;
  const { due } = stage.spec;
  return due !== null && due <= compiled.problem.due ? i : -1;
}
