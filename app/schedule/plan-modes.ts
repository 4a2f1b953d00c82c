/** Modes as a pass takes them: by index, with the words of what they need; other jobs as stages that stand. */
import { modeId } from '../document/ids.ts';
import { memoByAll } from '../document/memo.ts';
import { intersect, workTable } from '../time/calendar.ts';
import type { Calendar } from '../time/instant.ts';
import type { ModeUse, PlanMode, PlanStage } from './compile.ts';
import { dominates } from './dominance.ts';
import { needOf, type Lanes, type Need } from './lanes.ts';
import { hoursOf, teamsOf, type Group, type Share } from './people.ts';
import { startsWithin } from './starts.ts';
import {
  wantsOwnAir,
  type Busy,
  type Mode,
  type Problem,
  type Relation,
  type StageSpec,
} from './problem.ts';

const NO_NEED: Need = { amounts: new Int32Array(0), mask: new Int32Array(0) };

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
  const starts = startsOf(spec, hours);
  const repair = spec.repair ?? (named !== undefined && !named.has(spec.id));
  // What runs through begins in an open minute: there its starts are all that its calendar says.
  const table = length.kind === 'work' ? hours : (starts ?? hours);
  return {
    index,
    spec,
    kind: length.kind === 'work' ? (length.unbroken ? 'unbroken' : 'work') : length.kind,
    minutes: length.kind === 'function' ? 0 : length.minutes,
    table: table ? workTable(table) : null,
    starts: starts && length.kind === 'work' ? workTable(starts) : null,
    endOf: length.kind === 'function' ? length.endOf : null,
    latestStart: length.kind === 'function' ? length.latestStart : null,
    uses: usesOf(spec, resourceIndex, team),
    team,
    need: NO_NEED,
    needsNothing: true,
    repair,
    warnings: Number(repair) + (spec.warnings ?? 0),
    overtimeMinutes: spec.overtimeMinutes ?? 0,
    air: wantsOwnAir(spec) ? stageAir : -1,
  };
}

/** Minutes at which a mode with start windows may begin, its hours counted; null: it has no windows. */
function startsOf({ starts, length }: Mode, hours: Calendar | null): Calendar | null {
  if (!starts || starts.length === 0) return null;
  const unbroken = length.kind === 'work' && length.unbroken && hours;
  const minutes = unbroken ? length.minutes : null;
  const windows = starts.map(({ open }) => open);
  return knownStarts([...(hours ? [hours] : []), ...windows], `${minutes}`, () => {
    const own = minutes === null ? hours : startsWithin(hours!, minutes);
    return [...(own ? [own] : []), ...windows].reduce(intersect);
  });
}

/** Modes of the same hours, windows and length, in one network after another, have the same starts. */
const knownStarts = memoByAll<Calendar>();

/** Modes named by conditions, by stage id. */
export function conditionNames(relations: readonly Relation[]): Map<string, Set<string>> {
  const named = new Map<string, Set<string>>();
  for (const { onlyIf } of relations) {
    if (!onlyIf) continue;
    const modes = named.get(onlyIf.stage) ?? new Set<string>();
    named.set(onlyIf.stage, modes.add(onlyIf.mode));
  }
  return named;
}

/** What the modes of one problem are laid out over. */
export interface ModeFrame {
  readonly problem: Problem;
  readonly resourceIndex: ReadonlyMap<string, number>;
  readonly groups: readonly Group[];
  readonly capacity: readonly number[];
  readonly lanes: Lanes;
  /** Modes named by conditions, by stage id. */
  readonly named: ReadonlyMap<string, ReadonlySet<string>>;
}

/** Modes of a stage whose needs the shop can ever meet, without those that others make useless. */
export function planModes(frame: ModeFrame, { id, modes }: StageSpec, air: number): PlanMode[] {
  const { problem, resourceIndex, groups, capacity, lanes } = frame;
  const named = frame.named.get(id);
  const span = { from: problem.from, to: problem.horizon };
  return modes
    .flatMap((mode, i) =>
      teamsOf(mode, groups).map((team) => planMode(mode, i, resourceIndex, named, air, team)),
    )
    .filter(({ uses }) =>
      uses.every((use) => use.resource >= 0 && use.amount <= capacity[use.resource]!),
    )
    .map((mode) => ({
      ...mode,
      need: needOf(lanes, mode.uses),
      needsNothing: mode.uses.length === 0,
    }))
    .filter((mode, _, all) => !all.some((other) => dominates(other, mode, span, named)));
}

/** Another job as a stage; it takes no more of a resource than there is. */
export function busyStage(
  { resourceIndex, capacity, lanes }: ModeFrame,
  block: Busy,
  index: number,
): PlanStage {
  const spec = busySpec(block);
  const mode = planMode(spec.modes[0]!, 0, resourceIndex, undefined, -1, []);
  const uses = mode.uses
    .filter(({ resource }) => resource >= 0)
    .map(({ resource, amount }) => ({ resource, amount: Math.min(amount, capacity[resource]!) }));
  const need = needOf(lanes, uses);
  const modes = [{ ...mode, uses, need, needsNothing: uses.length === 0 }];
  return { index, spec, modes, air: -1, rank: index, busy: true };
}

/** A stage with the ends of the busy blocks that hold it up as its release. */
export function heldUp(spec: StageSpec, { busy = [] }: Problem): StageSpec {
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
