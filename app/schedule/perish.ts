/** Pushes what perishes as late as possible once the rest of the plan stands. */
import { airOf, type Arc, type Compiled, type PlanMode, type PlanStage } from './compile.ts';
import { endFrom, FAR, NEVER, startToEndBy, startUpTo } from './length.ts';
import type { Assignment } from './serial.ts';
import { Air, Profile } from './profile.ts';
import { anchorBefore, arcCeiling, arcFloor, anchorFor, dueOf } from './windows.ts';

/** Moves perishable stages right in place; nothing else moves and nothing becomes late. */
export function pushPerishables(compiled: Compiled, plan: Assignment): void {
  const movable = compiled.stages.filter(
    (stage) => stage.spec.perishable && stage.spec.fixedStart === null,
  );
  if (movable.length === 0) return;
  movable.sort((a, b) => plan.start[b.index]! - plan.start[a.index]! || b.rank - a.rank);
  const { profiles, air } = book(compiled, plan);
  for (const stage of movable) {
    const [start, end] = [plan.start[stage.index]!, plan.end[stage.index]!];
    const uses = stage.modes[plan.mode[stage.index]!]!.uses;
    for (const use of uses) profiles[use.resource]!.add(start, end, -use.amount);
    const own = airOf(stage, plan.mode[stage.index]!);
    air.remove(own, start, end);
    if (!touchesHold(compiled, stage.index)) moveRight(compiled, plan, stage, profiles, air);
    const [newStart, newEnd] = [plan.start[stage.index]!, plan.end[stage.index]!];
    for (const use of uses) profiles[use.resource]!.add(newStart, newEnd, use.amount);
    air.add(own, newStart, newEnd);
  }
}

const touchesHold = (compiled: Compiled, i: number): boolean =>
  compiled.holds.some((hold) => hold.from === i || hold.to === i);

function book(compiled: Compiled, plan: Assignment): { profiles: Profile[]; air: Air } {
  const profiles = compiled.capacity.map(() => new Profile());
  const air = new Air(compiled.problem.airSettleMinutes);
  for (const stage of compiled.stages) {
    const i = stage.index;
    for (const use of stage.modes[plan.mode[i]!]?.uses ?? []) {
      profiles[use.resource]!.add(plan.start[i]!, plan.end[i]!, use.amount);
    }
    air.add(airOf(stage, plan.mode[i]!), plan.start[i]!, plan.end[i]!);
  }
  for (const hold of compiled.holds) {
    profiles[hold.resource]!.add(plan.start[hold.from]!, plan.end[hold.to]!, hold.amount);
  }
  return { profiles, air };
}

const isActive = (compiled: Compiled, plan: Assignment, arc: Arc): boolean =>
  arc.ifStage < 0 ||
  compiled.stages[arc.ifStage]!.modes[plan.mode[arc.ifStage]!]?.index === arc.ifMode;

function moveRight(
  compiled: Compiled,
  plan: Assignment,
  stage: PlanStage,
  profiles: readonly Profile[],
  air: Air,
): void {
  const i = stage.index;
  const mode = stage.modes[plan.mode[i]!]!;
  const original = plan.start[i]!;
  // Never later than the due moment, unless the stage is late already.
  let endBy = Math.max(dueOf(compiled, stage), plan.end[i]!);
  let startBy = FAR;
  for (const arc of compiled.arcsOf[i]!) {
    if (!isActive(compiled, plan, arc)) continue;
    if (arc.atLeast && arc.from === i && arc.to !== i) {
      const latest = anchorBefore(arc, plan.start[arc.to]!);
      if (arc.fromEnd) endBy = Math.min(endBy, latest);
      else startBy = Math.min(startBy, latest);
    } else if (!arc.atLeast && arc.to === i && arc.from !== i) {
      const anchor = arc.fromEnd ? plan.end[arc.from]! : plan.start[arc.from]!;
      startBy = Math.min(startBy, arcCeiling(arc, anchor));
    }
  }
  if (endBy === NEVER) return;
  let start = Math.min(startToEndBy(mode, endBy), startBy);
  while (start > original) {
    start = startUpTo(mode, start);
    if (start === NEVER || start <= original) return;
    const end = endFrom(mode, start);
    if (end === NEVER) return;
    const clear = latestClear(compiled, mode, profiles, air, start, end);
    if (clear === FAR) {
      if (holdsAt(compiled, plan, stage, start, end)) {
        plan.start[i] = start;
        plan.end[i] = end;
      }
      return;
    }
    start = Math.min(start - 1, startToEndBy(mode, clear));
  }
}

/** FAR when the spot is free; otherwise an end that clears what is in the way. */
function latestClear(
  compiled: Compiled,
  mode: PlanMode,
  profiles: readonly Profile[],
  air: Air,
  start: number,
  end: number,
): number {
  if (end <= start) return FAR;
  for (const use of mode.uses) {
    const room = compiled.capacity[use.resource]! - use.amount;
    const at = profiles[use.resource]!.lastConflict(start, end, room);
    if (at !== -1) return at;
  }
  const at = air.lastConflict(mode.air, start, end);
  return at === -1 ? FAR : at;
}

/** The relations that a later start might break the other way: all of them, at the new spot. */
function holdsAt(
  compiled: Compiled,
  plan: Assignment,
  stage: PlanStage,
  start: number,
  end: number,
): boolean {
  const i = stage.index;
  return compiled.arcsOf[i]!.every((arc) => {
    if (!isActive(compiled, plan, arc) || (arc.from !== i && arc.to !== i)) return true;
    const fromStart = arc.from === i ? start : plan.start[arc.from]!;
    const fromEnd = arc.from === i ? end : plan.end[arc.from]!;
    const target = arc.to === i ? start : plan.start[arc.to]!;
    const anchor = arc.fromEnd ? fromEnd : fromStart;
    return arc.atLeast
      ? target >= arcFloor(arc, anchor)
      : target <= arcCeiling(arc, anchor) || anchor >= anchorFor(arc, target);
  });
}
