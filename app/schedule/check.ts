/**
 * The independent checker: reads a problem and a placement and lists every rule that is broken.
 * It shares nothing with the engine but the types, and counts minute by minute where that is plain.
 */
import { relationWords } from '../messages/relations.ts';
import type { Calendar, Minute } from '../time/instant.ts';
import {
  byRelation,
  ownAirOf,
  type Mode,
  type Placed,
  type Problem,
  type StageSpec,
} from './problem.ts';

/** Plain sentences, one for each broken rule; empty when the placement keeps all of them. */
export function violations(problem: Problem, placed: readonly Placed[]): string[] {
  const out: string[] = [];
  const spots = new Map(placed.map((spot) => [spot.stage, spot]));
  if (spots.size !== placed.length) out.push('a stage is placed twice');
  for (const spot of placed) {
    if (!problem.stages.some((stage) => stage.id === spot.stage)) {
      out.push(`${spot.stage} is not in the problem`);
    }
  }
  for (const stage of problem.stages) {
    const spot = spots.get(stage.id);
    if (!spot) out.push(`${stage.id} is not placed`);
    else checkStage(problem, stage, spot, out);
  }
  checkRelations(problem, spots, out);
  checkCapacities(problem, spots, out);
  checkAir(problem, spots, out);
  return out;
}

const modeOf = (stage: StageSpec, spot: Placed): Mode | undefined =>
  stage.modes.find((mode) => mode.id === spot.mode);

function checkStage(problem: Problem, stage: StageSpec, spot: Placed, out: string[]): void {
  const mode = modeOf(stage, spot);
  const recorded = stage.fixedStart !== null && spot.start === stage.fixedStart;
  if (recorded && stage.fixedEnd !== null) {
    if (spot.end !== stage.fixedEnd) out.push(`${stage.id} does not end when it was recorded`);
    return;
  }
  if (stage.fixedStart !== null && spot.start < stage.fixedStart) {
    out.push(`${stage.id} starts before its fixed start`);
  }
  if (!mode) {
    out.push(`${stage.id} is in no mode of its own`);
    return;
  }
  if (!recorded && spot.start < problem.from) out.push(`${stage.id} starts before the plan does`);
  if (!recorded && stage.release !== null && spot.start < stage.release) {
    out.push(`${stage.id} starts before its release`);
  }
  for (const block of recorded ? [] : (problem.busy ?? [])) {
    if (block.holdsUp?.includes(stage.id) && spot.start < block.end) {
      out.push(`${stage.id} starts before ${block.what} has ended`);
    }
  }
  if (!recorded && spot.end > problem.horizon) out.push(`${stage.id} ends after the horizon`);
  checkPeople(problem, stage, mode, spot, recorded, out);
  checkLength(problem, stage, mode, spot, recorded, out);
}

/** Of each list as many as asked for, in the order of the lists, nobody twice. */
function checkPeople(
  problem: Problem,
  stage: StageSpec,
  mode: Mode,
  { people = [] }: Placed,
  recorded: boolean,
  out: string[],
): void {
  if (recorded) return;
  let at = 0;
  for (const { people: able, count } of mode.anyOf ?? []) {
    const chosen = people.slice(at, at + count);
    at += count;
    const known = chosen.every(
      (id) => able.includes(id) && problem.resources.some((resource) => resource.id === id),
    );
    if (chosen.length < count || !known) out.push(`${stage.id} lacks people of its list`);
  }
  if (people.length !== at) out.push(`${stage.id} has people it does not ask for`);
  if (new Set(people).size !== people.length) out.push(`${stage.id} has somebody twice`);
}

/** Hours that a mode and those who do it have in common; null: always. */
function hoursOf(problem: Problem, mode: Mode, { people = [] }: Placed): Calendar | null {
  let common = mode.calendar;
  const own = people
    .map((id) => problem.resources.find((resource) => resource.id === id)?.calendar ?? null)
    .filter((calendar) => calendar !== null);
  for (const calendar of own) {
    common = common
      ? common.flatMap((a) =>
          calendar
            .map((b) => ({ start: Math.max(a.start, b.start), end: Math.min(a.end, b.end) }))
            .filter((span) => span.end > span.start),
        )
      : calendar;
  }
  return common;
}

const openMinutes = (calendar: Calendar, from: Minute, to: Minute): number =>
  calendar.reduce(
    (sum, span) => sum + Math.max(0, Math.min(span.end, to) - Math.max(span.start, from)),
    0,
  );

const opensAt = (calendar: Calendar, minute: Minute): boolean =>
  calendar.some((span) => span.start <= minute && minute < span.end);

function checkLength(
  problem: Problem,
  stage: StageSpec,
  mode: Mode,
  spot: Placed,
  recorded: boolean,
  out: string[],
): void {
  const { length } = mode;
  const calendar = hoursOf(problem, mode, spot);
  if (length.kind === 'function') {
    const end = length.endOf(spot.start);
    if (end !== spot.end) out.push(`${stage.id} ends at ${spot.end}, its cure at ${String(end)}`);
  } else if (length.kind === 'elapsed' || calendar === null || length.unbroken) {
    if (spot.end - spot.start !== length.minutes) out.push(`${stage.id} has the wrong length`);
  } else if (length.minutes > 0) {
    const done = openMinutes(calendar, spot.start, spot.end);
    const before = openMinutes(calendar, spot.start, spot.end - 1);
    if (done !== length.minutes || before >= length.minutes) {
      out.push(`${stage.id} has ${done} open minutes for ${length.minutes} of work`);
    }
  } else if (spot.end !== spot.start) out.push(`${stage.id} has no work and yet a length`);
  if (recorded) return;
  for (const { open, why } of mode.starts ?? []) {
    if (!opensAt(open, spot.start)) {
      out.push(`${stage.id} starts against "${relationWords(why)}"`);
    }
  }
  if (calendar === null) return;
  if (length.kind === 'work' && length.unbroken) {
    const inside = calendar.some((span) => span.start <= spot.start && spot.end <= span.end);
    if (!inside) out.push(`${stage.id} is broken by a pause`);
  } else if (!(length.kind === 'work' && length.minutes === 0) && !opensAt(calendar, spot.start)) {
    out.push(`${stage.id} starts while nobody is in`);
  }
}

function checkRelations(problem: Problem, spots: ReadonlyMap<string, Placed>, out: string[]): void {
  const stageById = new Map(problem.stages.map((stage) => [stage.id, stage]));
  const isFixed = (id: string) => {
    const fixed = stageById.get(id)?.fixedStart ?? null;
    return fixed !== null && spots.get(id)?.start === fixed;
  };
  for (const relation of problem.relations) {
    const [from, to] = [spots.get(relation.from), spots.get(relation.to)];
    if (!from || !to) continue;
    if (relation.onlyIf && spots.get(relation.onlyIf.stage)?.mode !== relation.onlyIf.mode)
      continue;
    if (isFixed(relation.from) && isFixed(relation.to)) continue;
    const anchor = relation.anchor === 'end' ? from.end : from.start;
    const bound =
      typeof relation.lag === 'number' ? anchor + relation.lag : relation.lag.apply(anchor);
    const kept = byRelation(relation.type, {
      'at-least': bound !== null && to.start >= bound,
      'at-most': bound === null || to.start <= bound,
    });
    if (!kept)
      out.push(
        `"${relationWords(relation.why)}" is broken between ${relation.from} and ${relation.to}`,
      );
  }
}

interface Stretch {
  readonly who: string;
  readonly start: Minute;
  readonly end: Minute;
  readonly amount: number;
  readonly fixed: boolean;
}

function stretchesOf(
  problem: Problem,
  spots: ReadonlyMap<string, Placed>,
  resource: string,
): Stretch[] {
  const out: Stretch[] = [];
  for (const stage of problem.stages) {
    const spot = spots.get(stage.id);
    const fixed = stage.fixedStart !== null && spot?.start === stage.fixedStart;
    if (spot?.people?.includes(resource)) {
      out.push({ who: stage.id, start: spot.start, end: spot.end, amount: 1, fixed });
    }
    for (const use of spot ? (modeOf(stage, spot)?.uses ?? []) : []) {
      if (use.resource !== resource || use.amount <= 0) continue;
      out.push({ who: stage.id, start: spot!.start, end: spot!.end, amount: use.amount, fixed });
    }
  }
  for (const hold of problem.holds ?? []) {
    const [from, to] = [spots.get(hold.from), spots.get(hold.to)];
    if (hold.resource !== resource || !from || !to) continue;
    out.push({
      who: `${hold.from} to ${hold.to}`,
      start: from.start,
      end: to.end,
      amount: hold.amount,
      fixed: false,
    });
  }
  for (const block of problem.busy ?? []) {
    if (block.resource !== resource) continue;
    const capacity = problem.resources.find(({ id }) => id === resource)?.capacity ?? 0;
    const { start, end } = block;
    out.push({
      who: block.what,
      start,
      end,
      amount: Math.min(block.amount, capacity),
      fixed: true,
    });
  }
  return out.filter((stretch) => stretch.end > stretch.start);
}

/** What was recorded may have overbooked the shop; nothing planned may add to that. */
function checkCapacities(
  problem: Problem,
  spots: ReadonlyMap<string, Placed>,
  out: string[],
): void {
  for (const resource of problem.resources) {
    const stretches = stretchesOf(problem, spots, resource.id);
    for (const { start } of stretches) {
      const running = stretches.filter((other) => other.start <= start && start < other.end);
      const used = running.reduce((sum, other) => sum + other.amount, 0);
      if (used > resource.capacity && running.some((other) => !other.fixed)) {
        out.push(
          `${resource.id} is used ${used} times at ${start} and there is ${resource.capacity}`,
        );
        break;
      }
    }
  }
}

function checkAir(problem: Problem, spots: ReadonlyMap<string, Placed>, out: string[]): void {
  const users = problem.stages.flatMap((stage) => {
    const spot = spots.get(stage.id);
    if (!spot || ownAirOf(stage, spot) === null) return [];
    return [{ stage, spot, fixed: stage.fixedStart !== null && spot.start === stage.fixedStart }];
  });
  const settle = problem.airSettleMinutes;
  users.forEach((a, k) => {
    for (const b of users.slice(k + 1)) {
      if (a.stage.air === b.stage.air || (a.fixed && b.fixed)) continue;
      const apart = a.spot.end + settle <= b.spot.start || b.spot.end + settle <= a.spot.start;
      if (!apart) out.push(`${a.stage.id} and ${b.stage.id} share the room's air`);
    }
  });
}
