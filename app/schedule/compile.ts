/** A problem in arrays: names become indices, relations become arcs, faults become obstacles. */
import { modeId } from '../document/ids.ts';
import { AIR_KINDS } from '../document/schema.ts';
import { relationWords } from '../messages/relations.ts';
import { workTable, type WorkTable } from '../time/calendar.ts';
import { cycleFaults, holdFaults, lagFaults, stageFaults } from './faults.ts';
import { lanesOf, needOf, type Lanes, type Need } from './lanes.ts';
import { dominates } from './dominance.ts';
import { groupsOf, hoursOf, teamsOf, type Group, type Share } from './people.ts';
import {
  byRelation,
  type Busy,
  type IsAtLeast,
  type Mode,
  type MonotoneMap,
  type Obstacle,
  type Problem,
  type Relation,
  type StageSpec,
} from './problem.ts';

export interface ModeUse {
  readonly resource: number;
  readonly amount: number;
}

/** One usable mode, manned by one choice of groups. `index` is its place in the spec; `table` is its calendar, null for any time. */
export interface PlanMode {
  readonly index: number;
  readonly spec: Mode;
  readonly kind: 'elapsed' | 'work' | 'unbroken' | 'function';
  readonly minutes: number;
  readonly table: WorkTable | null;
  readonly endOf: ((start: number) => number | null) | null;
  readonly latestStart: ((end: number) => number | null) | null;
  readonly uses: readonly ModeUse[];
  /** The uses in the words of a timeline. */
  readonly need: Need;
  readonly needsNothing: boolean;
  /** Of which groups its people are, where it asks for them by number. */
  readonly team: readonly Share[];
  readonly repair: boolean;
  readonly overtimeMinutes: number;
  /** Index into AIR_KINDS of what it does to the room's air; -1 for nothing. */
  readonly air: number;
}

export interface PlanStage {
  readonly index: number;
  readonly spec: StageSpec;
  /** Modes whose needs the shop can ever meet. */
  readonly modes: readonly PlanMode[];
  /** What it does to the air where its mode says nothing else. */
  readonly air: number;
  /** Position by id in code-unit order: breaks ties. */
  readonly rank: number;
  /** Another job that has a resource: it stands where it is and is no part of the plan's answer. */
  readonly busy: boolean;
}

/** start(to) >= f(start or end of from), or start(to) <= f(...). `map` null: add `lag`. */
export interface Arc {
  readonly atLeast: IsAtLeast;
  readonly from: number;
  readonly to: number;
  readonly fromEnd: boolean;
  readonly lag: number;
  readonly map: MonotoneMap | null;
  /** Stage and mode index on which it hangs; -1: holds always. */
  readonly ifStage: number;
  readonly ifMode: number;
  readonly spec: Relation;
}

export interface PlanHold {
  readonly resource: number;
  readonly amount: number;
  readonly need: Need;
  readonly from: number;
  readonly to: number;
}

export interface Compiled {
  readonly problem: Problem;
  /** Those of the problem in its order, then its busy blocks. */
  readonly stages: readonly PlanStage[];
  /** Of the problem's resources, and behind them of groups of people. */
  readonly capacity: readonly number[];
  readonly groups: readonly Group[];
  readonly lanes: Lanes;
  readonly arcs: readonly Arc[];
  /** Arcs that touch a stage, as source, target or condition. */
  readonly arcsOf: readonly (readonly Arc[])[];
  /** Arcs by their target. */
  readonly arcsInto: readonly (readonly Arc[])[];
  /** Stages that must stand before a stage is looked at, and those that wait for it. */
  readonly before: readonly (readonly number[])[];
  readonly after: readonly (readonly number[])[];
  /** Stages in an order in which `before` comes first. */
  readonly topological: readonly number[];
  readonly holds: readonly PlanHold[];
  readonly obstacles: readonly Obstacle[];
}

/** The usable mode of a stage that does a placed one: same id, same people; -1 for none. */
export const modeOfPlaced = (
  { modes }: PlanStage,
  { mode, people }: { readonly mode: string; readonly people?: readonly string[] | undefined },
): number =>
  modes.findIndex(
    ({ spec, team }) =>
      spec.id === mode &&
      (!people ||
        team.every(
          ({ group, count }) => people.filter((id) => group.people.includes(id)).length >= count,
        )),
  );

const compareCodeUnits = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

/** What a stage does to the air in the mode with this index. */
export const airOf = (stage: PlanStage, mode: number): number =>
  stage.modes[mode]?.air ?? stage.air;

const NOTHING: Need = { amounts: new Int32Array(0), mask: new Int32Array(0) };

/** What a mode takes, each resource once; index -1 for one that does not exist. */
function usesOf(
  spec: Mode,
  resourceIndex: ReadonlyMap<string, number>,
  team: readonly Share[],
): ModeUse[] {
  const amounts = new Map<number, number>();
  for (const { group, count } of team) {
    amounts.set(group.resource, (amounts.get(group.resource) ?? 0) + count);
  }
  for (const { resource, amount } of spec.uses) {
    if (amount <= 0) continue;
    const k = resourceIndex.get(resource) ?? -1;
    amounts.set(k, (amounts.get(k) ?? 0) + amount);
  }
  return [...amounts].map(([resource, amount]) => ({ resource, amount }));
}

function planMode(
  spec: Mode,
  index: number,
  resourceIndex: ReadonlyMap<string, number>,
  named: ReadonlySet<string> | undefined,
  stageAir: number,
  team: readonly Share[],
): PlanMode {
  const { length } = spec;
  const hours = hoursOf(spec, team);
  return {
    index,
    spec,
    kind: length.kind === 'work' ? (length.unbroken ? 'unbroken' : 'work') : length.kind,
    minutes: length.kind === 'function' ? 0 : length.minutes,
    table: hours ? workTable(hours) : null,
    endOf: length.kind === 'function' ? length.endOf : null,
    latestStart: length.kind === 'function' ? length.latestStart : null,
    uses: usesOf(spec, resourceIndex, team),
    team,
    need: NOTHING,
    needsNothing: true,
    repair: spec.repair ?? (named !== undefined && !named.has(spec.id)),
    overtimeMinutes: spec.overtimeMinutes ?? 0,
    air: spec.keepsAirClean ? -1 : stageAir,
  };
}

/** Modes named by conditions, by stage id. */
function conditionNames(relations: readonly Relation[]): Map<string, Set<string>> {
  const named = new Map<string, Set<string>>();
  for (const { onlyIf } of relations) {
    if (!onlyIf) continue;
    const modes = named.get(onlyIf.stage) ?? new Set<string>();
    named.set(onlyIf.stage, modes.add(onlyIf.mode));
  }
  return named;
}

function indexOrThrow(index: ReadonlyMap<string, number>, id: string, what: string): number {
  const found = index.get(id);
  if (found === undefined) throw new Error(`${what} names a stage that does not exist: ${id}`);
  return found;
}

function compileArc(spec: Relation, problem: Problem, index: ReadonlyMap<string, number>): Arc {
  const what = `relation "${relationWords(spec.why)}"`;
  const ifStage = spec.onlyIf ? indexOrThrow(index, spec.onlyIf.stage, what) : -1;
  return {
    atLeast: byRelation(spec.type, { 'at-least': true, 'at-most': false }),
    from: indexOrThrow(index, spec.from, what),
    to: indexOrThrow(index, spec.to, what),
    fromEnd: spec.anchor === 'end',
    lag: typeof spec.lag === 'number' ? spec.lag : 0,
    map: typeof spec.lag === 'number' ? null : spec.lag,
    ifStage,
    ifMode:
      ifStage < 0
        ? -1
        : problem.stages[ifStage]!.modes.findIndex((mode) => mode.id === spec.onlyIf!.mode),
    spec,
  };
}

/** True when the target cannot begin before the source does: the source is placed first. */
const orders = (arc: Arc): boolean =>
  arc.atLeast && arc.from !== arc.to && (arc.map !== null || arc.lag >= 0);

/** A zero lag from start to start, at the plan's own beginning at least. */
const mayMeet = (arc: Arc, { from }: Problem): boolean =>
  !arc.fromEnd && (arc.map ? arc.map.apply(from) === from : arc.lag === 0);

function addOrder(before: number[][], after: number[][], { from, to }: Arc): void {
  if (before[to]!.includes(from)) return;
  before[to]!.push(from);
  after[from]!.push(to);
}

function leadsTo(after: readonly (readonly number[])[], from: number, to: number): boolean {
  const seen = new Set([from]);
  const open = [from];
  for (let at = open.pop(); at !== undefined; at = open.pop()) {
    for (const next of after[at]!) {
      if (next === to) return true;
      if (!seen.has(next)) open.push(next);
      seen.add(next);
    }
  }
  return false;
}

/** Kahn's order; what is left over lies on or behind a cycle. */
function topologicalOrder(
  before: readonly (readonly number[])[],
  after: readonly (readonly number[])[],
): number[] {
  const waiting = before.map((list) => list.length);
  const order = waiting.flatMap((count, i) => (count === 0 ? [i] : []));
  for (let k = 0; k < order.length; k++) {
    for (const next of after[order[k]!]!) if (--waiting[next]! === 0) order.push(next);
  }
  return order;
}

/** A hold of more than there is needs nothing here: it is a fault of the data. */
function holdNeed(
  lanes: Lanes,
  capacity: readonly number[],
  resource: number,
  amount: number,
): Need {
  if (resource < 0 || amount > capacity[resource]!) return needOf(lanes, []);
  return needOf(lanes, [{ resource, amount }]);
}

/** A stage with the ends of the busy blocks that hold it up as its release. */
function heldUp(spec: StageSpec, { busy = [] }: Problem): StageSpec {
  const ends = busy.filter((block) => block.holdsUp?.includes(spec.id)).map(({ end }) => end);
  return ends.length === 0 ? spec : { ...spec, release: Math.max(spec.release ?? 0, ...ends) };
}

/** A busy block as a stage that was fixed long ago: every search books it before it looks at others. */
function busySpec({ id, what, resource, amount, start, end }: Busy): StageSpec {
  const mode: Mode = {
    id: modeId({ by: 'itself' }),
    uses: [{ resource, amount }],
    calendar: null,
    length: { kind: 'elapsed', minutes: end - start },
  };
  return {
    id: `busy ${id}`,
    name: what,
    kind: 'own',
    cure: null,
    modes: [mode],
    release: null,
    due: null,
    fixedStart: start,
    fixedEnd: end,
    air: null,
    perishable: false,
  };
}

/**
 * Turns names into indices and checks what can be checked without placing anything.
 * @throws Error when a relation or hold names a stage that does not exist.
 */
export function compile(problem: Problem): Compiled {
  const stageIndex = new Map(problem.stages.map((stage, i) => [stage.id, i]));
  const resourceIndex = new Map(problem.resources.map((resource, i) => [resource.id, i]));
  const groups = groupsOf(problem);
  const capacity = [
    ...problem.resources.map((resource) => resource.capacity),
    ...groups.filter(({ people }) => people.length > 1).map(({ people }) => people.length),
  ];
  const named = conditionNames(problem.relations);
  const ranks = new Map(
    problem.stages
      .map((stage) => stage.id)
      .sort(compareCodeUnits)
      .map((id, rank) => [id, rank]),
  );
  const lanes = lanesOf(problem, capacity);
  const span = { from: problem.from, to: problem.horizon };
  const stages = problem.stages.map((spec, index): PlanStage => {
    const air = spec.air === null ? -1 : AIR_KINDS.indexOf(spec.air);
    const modes = spec.modes
      .flatMap((mode, i) =>
        teamsOf(mode, groups).map((team) =>
          planMode(mode, i, resourceIndex, named.get(spec.id), air, team),
        ),
      )
      .filter((mode) =>
        mode.uses.every((use) => use.resource >= 0 && use.amount <= capacity[use.resource]!),
      )
      .map((mode) => ({
        ...mode,
        need: needOf(lanes, mode.uses),
        needsNothing: mode.uses.length === 0,
      }))
      .filter(
        (mode, _, all) => !all.some((other) => dominates(other, mode, span, named.get(spec.id))),
      );
    return {
      index,
      spec: heldUp(spec, problem),
      modes,
      air,
      rank: ranks.get(spec.id)!,
      busy: false,
    };
  });
  for (const block of problem.busy ?? []) {
    const index = stages.length;
    const spec = busySpec(block);
    const known = { index, spec, air: -1, rank: index, busy: true };
    const mode = planMode(spec.modes[0]!, 0, resourceIndex, undefined, -1, []);
    const uses = mode.uses
      .filter(({ resource }) => resource >= 0)
      .map(({ resource, amount }) => ({ resource, amount: Math.min(amount, capacity[resource]!) }));
    const need = needOf(lanes, uses);
    stages.push({ ...known, modes: [{ ...mode, uses, need, needsNothing: uses.length === 0 }] });
  }
  const arcs = problem.relations.map((relation) => compileArc(relation, problem, stageIndex));
  const arcsOf: Arc[][] = stages.map(() => []);
  const arcsInto: Arc[][] = stages.map(() => []);
  const before: number[][] = stages.map(() => []);
  const after: number[][] = stages.map(() => []);
  for (const arc of arcs) {
    for (const i of new Set([arc.from, arc.to, arc.ifStage])) if (i >= 0) arcsOf[i]!.push(arc);
    arcsInto[arc.to]!.push(arc);
  }
  for (const arc of arcs.filter((a) => orders(a) && !mayMeet(a, problem)))
    addOrder(before, after, arc);
  // Two stages may be held to one start by a zero lag each way: that is no cycle.
  for (const arc of arcs.filter((a) => orders(a) && mayMeet(a, problem))) {
    if (!leadsTo(after, arc.to, arc.from)) addOrder(before, after, arc);
  }
  const holds = (problem.holds ?? []).map((hold) => ({
    resource: resourceIndex.get(hold.resource) ?? -1,
    amount: hold.amount,
    need: holdNeed(lanes, capacity, resourceIndex.get(hold.resource) ?? -1, hold.amount),
    from: indexOrThrow(stageIndex, hold.from, 'a hold'),
    to: indexOrThrow(stageIndex, hold.to, 'a hold'),
  }));
  for (const hold of holds) {
    if (hold.from === hold.to || before[hold.to]!.includes(hold.from)) continue;
    before[hold.to]!.push(hold.from);
    after[hold.from]!.push(hold.to);
  }
  const topological = topologicalOrder(before, after);
  const obstacles = [
    ...stageFaults(problem, stages),
    ...holdFaults(problem, holds),
    ...cycleFaults(stages, before, topological),
    ...lagFaults(stages, arcs),
  ];
  return {
    problem,
    stages,
    capacity,
    groups,
    lanes,
    arcs,
    arcsOf,
    arcsInto,
    before,
    after,
    topological,
    holds,
    obstacles,
  };
}
