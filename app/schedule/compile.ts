/** A problem in arrays: names become indices, relations become arcs, faults become obstacles. */
import { AIR_KINDS } from '../document/schema.ts';
import { relationWords } from '../messages/relations.ts';
import type { WorkTable } from '../time/calendar.ts';
import { cycleFaults, holdFaults, lagFaults, stageFaults } from './faults.ts';
import { lanesOf, needOf, type Lanes, type Need } from './lanes.ts';
import { groupsOf, type Group, type Share } from './people.ts';
import { busyStage, conditionNames, heldUp, planModes, type ModeFrame } from './plan-modes.ts';
import { precedenceOf } from './precedence.ts';
import {
  byRelation,
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
  /** Of work with start windows: the minutes at which it may begin; null where its calendar alone says. */
  readonly starts: WorkTable | null;
  readonly endOf: ((start: number) => number | null) | null;
  readonly latestStart: ((end: number) => number | null) | null;
  readonly uses: readonly ModeUse[];
  /** The uses in the words of a timeline. */
  readonly need: Need;
  readonly needsNothing: boolean;
  /** Of which groups its people are, where it asks for them by number. */
  readonly team: readonly Share[];
  readonly repair: boolean;
  /** What the mode adds to the warnings of a plan: one for a repair, and its own. */
  readonly warnings: number;
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
  const lanes = lanesOf(problem, capacity);
  const named = conditionNames(problem.relations);
  const stages = stagesOf({ problem, resourceIndex, groups, capacity, lanes, named });
  const arcs = problem.relations.map((relation) => compileArc(relation, problem, stageIndex));
  const arcsOf: Arc[][] = stages.map(() => []);
  const arcsInto: Arc[][] = stages.map(() => []);
  for (const arc of arcs) {
    for (const i of new Set([arc.from, arc.to, arc.ifStage])) if (i >= 0) arcsOf[i]!.push(arc);
    arcsInto[arc.to]!.push(arc);
  }
  const holds = (problem.holds ?? []).map((hold) => ({
    resource: resourceIndex.get(hold.resource) ?? -1,
    amount: hold.amount,
    need: holdNeed(lanes, capacity, resourceIndex.get(hold.resource) ?? -1, hold.amount),
    from: indexOrThrow(stageIndex, hold.from, 'a hold'),
    to: indexOrThrow(stageIndex, hold.to, 'a hold'),
  }));
  const { before, after, topological } = precedenceOf(stages.length, arcs, holds, problem);
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

/** Stages of the problem in its order, then its busy blocks. */
function stagesOf(frame: ModeFrame): PlanStage[] {
  const { problem } = frame;
  const ids = problem.stages.map((stage) => stage.id).sort(compareCodeUnits);
  const ranks = new Map(ids.map((id, rank) => [id, rank]));
  const own = problem.stages.map((spec, index): PlanStage => {
    const air = spec.air === null ? -1 : AIR_KINDS.indexOf(spec.air);
    return {
      index,
      spec: heldUp(spec, problem),
      modes: planModes(frame, spec, air),
      air,
      rank: ranks.get(spec.id)!,
      busy: false,
    };
  });
  const busy = problem.busy ?? [];
  return [...own, ...busy.map((block, k) => busyStage(frame, block, own.length + k))];
}
