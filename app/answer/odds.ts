/** The odds of a plan: its own network replayed with longer work, another room temperature and mishaps. */
import { normalBelow, quantileAt, threePointQuantiles } from '../judge/threePoint.ts';
import { oddsOf, type Odds, type StageCost } from '../judge/odds.ts';
import { FAR } from '../schedule/length.ts';
import type { Problem } from '../schedule/problem.ts';
import { withRoomOffset, type PlanContext } from '../plan/context.ts';
import { settleCures } from '../plan/cures.ts';
import { replayer, type Replayer } from './replay.ts';
import { risksOf, slotsOf, type StageRisk } from './risks.ts';
import { problemOf, type RoutePlan } from '../plan/routePlan.ts';
import { seedOf } from '../plan/seed.ts';

export interface OddsOptions {
  readonly replays: number;
  /** Finished builds of the shop's own behind its records. */
  readonly ownBuilds?: number;
  /** Also works out what each stage costs. */
  readonly costs?: boolean;
}

export interface OddsProgress {
  readonly done: number;
  readonly total: number;
}

/** Replays between two yields. */
const CHUNK = 200;
const QUANTILE_STEPS = 2048;

/**
 * Replays a placed plan and yields after every few hundred replays; the caller stops by asking no further.
 * The same document gives the same odds: seeds come from its id and the route, draws from a count.
 * @returns null when the plan is not placed
 */
export function* replayOdds(
  context: PlanContext,
  plan: RoutePlan,
  options: OddsOptions,
): Generator<OddsProgress, Odds | null, void> {
  const { placed } = plan.schedule;
  if (placed.length === 0) return null;
  const total = options.replays + (options.costs ? COSTLIEST * COST_REPLAYS : 0);
  const game = simulationOf(context, plan);
  const ends = new Float64Array(options.replays);
  const blame = new Float64Array(game.machine.stages.length);
  for (let replay = 0; replay < options.replays; replay++) {
    ends[replay] = game.play(replay, -1);
    game.blame(blame, ends[replay]!);
    if ((replay + 1) % CHUNK === 0) yield { done: replay + 1, total };
  }
  let done = options.replays;
  const costs: StageCost[] = [];
  for (const stage of options.costs ? costliest(blame) : []) {
    costs.push(costOf(game, plan, stage, ends));
    yield { done: (done += COST_REPLAYS), total };
  }
  return oddsOf({
    ends,
    never: FAR,
    deadline: context.deadline,
    plannedEnd: plan.schedule.end,
    zone: context.build.zone,
    costs,
    ownBuilds: options.ownBuilds ?? 0,
    ownBuildsNeeded: context.practice('odds-own-builds'),
  });
}

/** All of `replayOdds` at once. */
export function oddsNow(context: PlanContext, plan: RoutePlan, options: OddsOptions): Odds | null {
  const run = replayOdds(context, plan, options);
  for (;;) {
    const step = run.next();
    if (step.done) return step.value;
  }
}

/** Stages whose cost is worked out, and the replays that each is worked out with. */
const COSTLIEST = 8;
const COST_REPLAYS = 300;

const costliest = (blame: Float64Array): number[] =>
  [...blame.keys()]
    .filter((stage) => blame[stage]! > 0)
    .sort((a, b) => blame[b]! - blame[a]! || a - b)
    .slice(0, COSTLIEST);

/** The same replays with one stage as planned: the days gained are what that stage costs. */
function costOf(game: Simulation, plan: RoutePlan, stage: number, ends: Float64Array): StageCost {
  const replays = Math.min(COST_REPLAYS, ends.length);
  let minutes = 0;
  let counted = 0;
  for (let replay = 0; replay < replays; replay++) {
    const without = game.play(replay, stage);
    if (ends[replay]! >= FAR || without >= FAR) continue;
    minutes += ends[replay]! - without;
    counted++;
  }
  const id = game.machine.stages[stage]!;
  const spec = plan.network.problem.stages.find((one) => one.id === id)!;
  // An outside job is named with its length: what costs here is the party.
  const name = spec.kind === 'outside' ? spec.name.replace(/, \d.*$/, '') : spec.name;
  return { stage: id, name, days: counted === 0 ? 0 : minutes / counted / 1440 };
}

interface Simulation {
  readonly machine: Replayer;
  /** Plays one replay with stage `calm` as planned (-1: none); the end of the last stage. */
  readonly play: (replay: number, calm: number) => number;
  /** Adds each stage's overrun of the last replay, where the end was late, to its blame. */
  readonly blame: (blame: Float64Array, end: number) => void;
}

function simulationOf(context: PlanContext, plan: RoutePlan): Simulation {
  const { problem } = plan.network;
  const machine = replayer(problem, plan.schedule.placed, slotsOf(context, problem));
  const risks = risksOf(context, plan);
  const seed = seedOf(context.build.id, plan.route.id, 'odds');
  const quantilesOf = quantileTables();
  const rooms = roomsOf(context, plan);
  const plannedEnd = plan.schedule.end ?? 0;
  let level = rooms.middle;
  const play = (replay: number, calm: number): number => {
    const room = rooms.levelAt(uniform(seed, replay, ROOM_KEY, 0));
    if (room !== level) machine.useChemistryOf(rooms.problemAt((level = room)));
    for (let i = 0; i < risks.length; i++) {
      const minutes = machine.planned[i]!;
      const risk = i === calm ? null : risks[i]!;
      machine.minutes[i] = risk ? drawn(risk, minutes, replay, i) : minutes;
    }
    return machine.run();
  };
  const drawn = (risk: StageRisk, minutes: number, replay: number, stage: number): number => {
    let length = Math.max(1, minutes - risk.averagedMinutes);
    if (risk.range && risk.range.high > risk.range.low) {
      const { low, high } = risk.range;
      const table = quantilesOf((1 - low) / (high - low));
      length *= low + quantileAt(table, uniform(seed, replay, stage, 1)) * (high - low);
    }
    for (const mishap of risk.mishaps) {
      if (uniform(seed, replay, mishap.key, 2) >= mishap.chance) continue;
      const share = uniform(seed, replay, mishap.key, 3);
      length += mishap.leastMinutes + share * (mishap.mostMinutes - mishap.leastMinutes);
    }
    return Math.max(1, Math.round(length));
  };
  const blame = (sums: Float64Array, end: number): void => {
    if (end <= plannedEnd) return;
    for (let i = 0; i < sums.length; i++) {
      const over = machine.minutes[i]! - machine.planned[i]!;
      if (over > 0) sums[i]! += (over / Math.max(1, machine.planned[i]!)) * Math.min(over, 2880);
    }
  };
  return { machine, play, blame };
}

/** Quantiles of work whose likely length lies at a share of its range; most rows have the same share. */
function quantileTables(): (usualShare: number) => Float64Array {
  const tables = new Map<number, Float64Array>();
  return (usualShare) => {
    const key = Math.round(usualShare * 1000) / 1000;
    const known = tables.get(key);
    if (known) return known;
    const made = threePointQuantiles(key, QUANTILE_STEPS);
    tables.set(key, made);
    return made;
  };
}

/** A number in [0, 1) for a seed, a replay, a subject and a use of it: no draw depends on another. */
function uniform(seed: number, replay: number, key: number, use: number): number {
  let mixed = seed ^ Math.imul(replay + 1, 0x9e3779b1) ^ Math.imul(key * 4 + use + 1, 0x85ebca6b);
  mixed = Math.imul(mixed ^ (mixed >>> 16), 0x7feb352d);
  mixed = Math.imul(mixed ^ (mixed >>> 15), 0x846ca68b);
  return ((mixed ^ (mixed >>> 16)) >>> 0) / 4_294_967_296;
}
const ROOM_KEY = 1_000_003;

// ---------------------------------------------------------------------------------------------
// The room

/** The room's temperature varies in steps of half its spread, up to twice the spread either way. */
const ROOM_STEPS_EACH_SIDE = 4;
const STEP_SHARE = 0.5;

function roomsOf(context: PlanContext, plan: RoutePlan) {
  const spreadK = context.practice('room-spread-k');
  const levels = spreadK > 0 ? 2 * ROOM_STEPS_EACH_SIDE + 1 : 1;
  const middle = (levels - 1) / 2;
  const upTo = Array.from({ length: levels }, (_, i) =>
    i === levels - 1 ? 1 : normalBelow((i - middle + 0.5) * STEP_SHARE),
  );
  const known = new Map<number, Problem>([[middle, plan.network.problem]]);
  const problemAt = (level: number): Problem => {
    const own = known.get(level);
    if (own) return own;
    const made = inRoom(context, plan, (level - middle) * STEP_SHARE * spreadK);
    known.set(level, made);
    return made;
  };
  const levelAt = (share: number): number => upTo.findIndex((limit) => share < limit);
  return { middle, levelAt, problemAt };
}

const shiftedRooms = new WeakMap<PlanContext, Map<number, PlanContext>>();

/** One context for every room that is tried: all routes share its clocks. */
function shiftedRoom(context: PlanContext, offK: number): PlanContext {
  const rooms = shiftedRooms.get(context) ?? new Map<number, PlanContext>();
  shiftedRooms.set(context, rooms);
  const shifted = rooms.get(offK) ?? withRoomOffset(context, offK);
  rooms.set(offK, shifted);
  return shifted;
}

/** The plan's problem with the chemistry of a room that is so many kelvin off; same stages. */
function inRoom(context: PlanContext, plan: RoutePlan, offK: number): Problem {
  const shifted = shiftedRoom(context, offK);
  const isHeld = plan.cures.some(({ asIfHeldC }) => asIfHeldC !== null);
  const settled = settleCures(shifted, plan.route, isHeld);
  const cures = plan.cures.map((cure, i) => ({
    ...cure,
    clock: settled[i]!.clock,
    early: settled[i]!.early,
    laid: settled[i]!.laid,
    laidEarly: settled[i]!.laidEarly,
  }));
  return problemOf(shifted, { ...plan, cures });
}
