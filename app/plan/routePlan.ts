/** Plans one route: its cures, its schedule, what it costs and which finish it can give. */
import { begunStages, recordedJoints } from '../document/records.ts';
import { hardenersOf } from '../document/hardener.ts';
import { layupStageId } from '../document/ids.ts';
import type { Finish } from '../document/schema.ts';
import {
  consequencesOf,
  fillChoice,
  type Consequences,
  type FillChoice,
  type ConsequenceLine,
} from './consequences.ts';
import { deliveriesOf, type Delivery } from '../part/deliveries.ts';
import type { KitLine, Layup } from '../part/types.ts';
import { massInState, weightRows, type WeightRow } from '../part/weight.ts';
import { routeOf, stretchesOf } from '../route/routes.ts';
import { contradictionOf, type Contradiction } from '../route/begun.ts';
import type { Route } from '../route/types.ts';
import type { NetworkInput, PostCureSetup } from '../schedule/network/input.ts';
import { handsOf } from '../schedule/network/crew.ts';
import { forSize } from '../schedule/forSize.ts';
import { buildNetwork, type Network } from '../schedule/network/network.ts';
import type { Placed, PlacedWithFloat, Problem, Schedule, StageSpec } from '../schedule/problem.ts';
import { scheduleOf } from '../schedule/solve.ts';
import { runToEnd, mapYields, type Lazy, type Interruptible } from '../schedule/generators.ts';
import type { MissedWindow } from '../schedule/history.ts';
import { MINUTES_PER_HOUR, type Calendar, type Minute } from '../time/instant.ts';
import type { PlanContext } from './context.ts';
import { settleCures, type SettledCure } from './cures.ts';
import { abradedIn, type AbradedSurface } from './abraded.ts';
import { postCureOf, tgNeedOf, type TgNeed } from './glass.ts';
import { helperCalls, type HelperCall } from './helper.ts';
import { unseenGels, type UnseenGel } from './gelWatch.ts';
import {
  handsShortOf,
  leftOverBreakOf,
  modeAt,
  type HandsShort,
  type LeftOverBreak,
} from './handsShort.ts';
import { sharedAirOf, type SharedAir } from './sharedAir.ts';
import { heatStartsOf, warmUpOf } from './heatHours.ts';
import { pastHoursOf, type PastHours } from './inOpenTime.ts';
import { latenessOf, type Lateness } from './lateness.ts';
import { labourEntries, type LabourEntry } from './labour.ts';
import { overtimeHours } from './overtime.ts';
import { minutesOf } from './postCure.ts';
import { routeSchedule } from './routeSchedule.ts';
import { seedOf } from './seed.ts';
import { deliverySetups } from './suppliers.ts';
import { inPlannedHands, personMinutesByStage } from './wetWork.ts';

/** One route with its plan. */
export interface RoutePlan {
  readonly route: Route;
  readonly cures: readonly SettledCure[];
  readonly network: Network;
  readonly consequences: Consequences;
  readonly schedule: Schedule;
  /** Windows that recorded work has missed. */
  readonly passed: readonly MissedWindow[];
  /** How late it is; null: not planned. */
  readonly lateness: Lateness | null;
  /** Minutes late at the worst moment that is due; negative: to spare. null: not planned. */
  readonly lateMinutes: number | null;
  /** Person-hours of hands-on work, what happens only sometimes at its average. */
  readonly labourHours: number;
  /** What the hours are made up of; they add up to them. */
  readonly labour: readonly LabourEntry[];
  /** What has a price, minor units. */
  readonly materialCostMinor: number;
  /** Everything to buy, filler of the route included. */
  readonly kit: readonly KitLine[];
  /** What of it is to order, supplier by supplier. */
  readonly deliveries: readonly Delivery[];
  /** In the state that the target counts. */
  readonly massKg: number;
  readonly weight: readonly WeightRow[];
  /** Filler that the route asks for on top of the part's own fairing, kg. */
  readonly fillerKg: number;
  /** The best finish that this route may promise. */
  readonly finish: Finish;
  readonly price: readonly ConsequenceLine[];
  /** One heavy fill against several thin ones; null where the table does not tell. */
  readonly fill: FillChoice | null;
  /** The glass transition that the part needs and gets. */
  readonly tg: TgNeed;
  /** What is placed, by stage id. */
  readonly placed: ReadonlyMap<string, PlacedWithFloat>;
  /** Surfaces that the plan abrades because it lets them go stale, in the order of the plan. */
  readonly abraded: readonly AbradedSurface[];
  /** Wet work that no stretch of the crew's hours holds. */
  readonly pastHours: readonly PastHours[];
  /** Work with fewer people than it takes, though the crew has them. */
  readonly handsShort: readonly HandsShort[];
  readonly leftOverBreak: readonly LeftOverBreak[];
  /** Release and spray beside other work. */
  readonly sharedAir: readonly SharedAir[];
  /** Bags that gel with nobody there. */
  readonly unseenGels: readonly UnseenGel[];
  /** When a helper by the hour is to be there. */
  readonly helperCalls: readonly HelperCall[];
}

/** A route with its chemistry settled and its consequences counted, before any scheduling. */
export interface RouteDraft {
  readonly route: Route;
  readonly cures: readonly SettledCure[];
  /** Layups of each cure that are laid in one go, in order. */
  readonly stretches: readonly (readonly (readonly Layup[])[])[];
  readonly consequences: Consequences;
  /** What the floor's records have settled otherwise. */
  readonly contradiction: Contradiction | null;
}

/** A route with its chemistry settled and its consequences counted, not yet scheduled. */
export const draftRoute = (context: PlanContext, route: Route): RouteDraft => ({
  route,
  contradiction: contradictionIn(context, route),
  cures: settleCures(context, route),
  stretches: route.cures.map(stretchesOf),
  consequences: consequencesOf({ ...context, route }),
});

function contradictionIn({ build, part }: PlanContext, route: Route): Contradiction | null {
  const begun = begunStages(build);
  if (begun.size === 0) return null;
  const joints = recordedJoints(build) ?? (build.route === 'best' ? null : build.route.joints);
  const chosen = joints && routeOf(part.layups, joints);
  return contradictionOf(route, begun, chosen);
}

const NOT_SCHEDULED: Schedule = {
  placed: [],
  obstacles: [],
  missedPins: [],
  end: null,
  fits: false,
  generated: 0,
  provenBest: false,
};

/** Schedules that even the largest network has where it is searched. */
const LEAST_SCHEDULES = 100;

/** Schedules that a network of so many stages has of those given. */
export const schedulesFor = (stages: number, schedules: number): number =>
  forSize(schedules, stages, LEAST_SCHEDULES);

/** Plans a route within `schedules` generated schedules; with 0 it is costed but not scheduled. */
export const planRoute = (context: PlanContext, draft: RouteDraft, schedules: number): RoutePlan =>
  runToEnd(planRouteSteps(context, draft, schedules));

/** The same as a generator: yields every better plan as it is found, and null where it may be stopped. */
export function* planRouteSteps(
  context: PlanContext,
  draft: RouteDraft,
  schedules: number,
): Interruptible<Lazy<RoutePlan>, RoutePlan> {
  const network = networkOf(context, draft);
  if (schedules <= 0) return withSchedule(context, draft, network, NOT_SCHEDULED);
  const seed = seedOf(context.build.id, draft.route.id);
  const most = schedulesFor(network.problem.stages.length, schedules);
  const steps = routeSchedule(context, network.problem, { schedules: most, seed });
  const { schedule, problem, passed } = yield* mapYields(
    steps,
    (better) => () => withSchedule(context, draft, network, better()),
  );
  return withSchedule(context, draft, { ...network, problem }, schedule, passed);
}

/** A route with a plan that is known already; null when the plan breaks a rule of it. */
export function plannedAs(
  context: PlanContext,
  draft: RouteDraft,
  placed: readonly Placed[],
): RoutePlan | null {
  const network = networkOf(context, draft);
  const schedule = scheduleOf(network.problem, placed);
  return schedule && withSchedule(context, draft, network, schedule);
}

function withSchedule(
  context: PlanContext,
  { route, cures: settled, consequences }: RouteDraft,
  laid: Network,
  schedule: Schedule,
  passed: readonly MissedWindow[] = [],
): RoutePlan {
  const cures = handsPlanned(settled, laid, schedule);
  const network = {
    ...laid,
    problem: namedAsDone(laid.problem, schedule),
    personMinutes: { ...laid.personMinutes, ...personMinutesByStage(cures) },
  };
  const batches = cures.reduce(
    (sum, cure) => sum + Object.values(cure.batches).reduce((n, list) => n + list.length, 0),
    0,
  );
  const layupIds = route.cures.map((cure) => ({ layups: cure.layups.map(({ id }) => id) }));
  const hardeners = hardenersOf(context.build, layupIds);
  const { fillerKg } = consequences;
  const kit = context.part.kitFor(route.cures.length, batches, hardeners, fillerKg);
  const lateness = latenessOf(context.deadline, network.problem, schedule);
  const abraded = abradedIn(network, schedule, context.build.zone);
  const price = [...consequences.lines, ...lapsed(context, abraded.length)];
  const labour = labourEntries(context, network, consequences, price);
  const weight = weightRows(context.part.massKg, fillerKg);
  const placed = new Map(schedule.placed.map((one) => [one.stage, one]));
  return {
    route,
    cures,
    network,
    consequences,
    schedule,
    passed,
    lateness,
    lateMinutes: lateness?.worstMinutes ?? null,
    labourHours: labour.reduce((sum, entry) => sum + entry.personMinutes, 0) / 60,
    labour,
    materialCostMinor: kit.reduce((sum, line) => sum + (line.costMinor ?? 0), 0),
    kit,
    deliveries: deliveriesOf(context.build, kit),
    massKg: massInState(weight, context.build.part.targetIncludes),
    weight,
    fillerKg,
    finish: consequences.finish,
    price,
    fill: fillChoice(context.library, context.part.areaM2),
    tg: tgNeedOf(context, cures, ({ cure }) => sealedAt(schedule, cure)),
    placed,
    abraded,
    pastHours: pastHoursOf(context, cures, network, schedule),
    handsShort: handsShortOf(network, schedule),
    leftOverBreak: leftOverBreakOf(network, schedule),
    sharedAir: sharedAirOf(network, schedule),
    unseenGels: unseenGels(context, cures, placed),
    helperCalls: helperCalls(context, cures, placed),
  };
}

/** The cures with the batches of the hands that a schedule has on each stretch. */
function handsPlanned(
  cures: readonly SettledCure[],
  { problem }: Network,
  { placed }: Schedule,
): readonly SettledCure[] {
  if (placed.length === 0) return cures;
  const spots = new Map(placed.map((spot) => [spot.stage, spot]));
  const specs = new Map(problem.stages.map((spec) => [spec.id, spec]));
  return inPlannedHands(cures, ({ id }) => {
    const stage = layupStageId('layup', id);
    const mode = modeAt(specs.get(stage)?.modes ?? [], spots.get(stage));
    return mode ? handsOf(mode) : null;
  });
}

/** The problem with each stage called what it is in the mode that the schedule takes. */
function namedAsDone(problem: Problem, { placed }: Schedule): Problem {
  const taken = new Map(placed.map(({ stage, mode }) => [stage, mode]));
  const nameOf = ({ id, modes, name }: StageSpec): string =>
    modes.find((mode) => mode.name !== undefined && mode.id === taken.get(id))?.name ?? name;
  if (problem.stages.every((stage) => nameOf(stage) === stage.name)) return problem;
  return { ...problem, stages: problem.stages.map((stage) => ({ ...stage, name: nameOf(stage) })) };
}

/** Fresh surfaces that the plan let go stale, each abraded again. */
function lapsed({ library }: PlanContext, times: number): ConsequenceLine[] {
  const row = library.consequences.find((one) => one.event === 'bond-window-missed');
  if (!row || times === 0) return [];
  return [
    {
      event: row.event,
      name: times === 1 ? row.name : `${row.name}, ${times} times`,
      chance: 1,
      minutes: times * row.extraHours * 60,
      fillerKg: 0,
      waitHoursAt20C: row.waitHoursAt20C,
      bestFinish: row.bestFinish,
    },
  ];
}

/** Lengths and lags of a route whose chemistry has been settled otherwise; when its wet work may begin is left open. */
export const problemOf = (
  context: PlanContext,
  draft: Pick<RouteDraft, 'route' | 'cures' | 'consequences'>,
): Problem => buildNetwork({ ...inputOf(context, draft), lengthsOnly: true }).problem;

const networkOf = (
  context: PlanContext,
  draft: Pick<RouteDraft, 'route' | 'cures' | 'consequences'>,
): Network => buildNetwork(inputOf(context, draft));

function inputOf(
  context: PlanContext,
  { route, cures, consequences }: Pick<RouteDraft, 'route' | 'cures' | 'consequences'>,
): NetworkInput {
  return {
    build: context.build,
    library: context.library,
    part: context.part,
    route,
    cures: cures.map((cure) => ({ ...cure, heatStarts: programmeStarts(context, cure) })),
    // After demould, coats and fillers dry in the room's air.
    profile: context.room.air,
    postCures: postCureSetups(context, cures),
    warmUp: warmUpOf(context),
    extraFairMinutes: consequences.sureMinutes,
    extraWaitHoursAt20C: consequences.sureWaitHoursAt20C,
    personHours: context.personHours,
    personOvertime: overtimeHours(context),
    outsideHours: context.outsideHours,
    deliveries: deliverySetups(context, route.cures.length),
    now: context.now,
    from: context.from,
    due: Math.min(context.deadline, context.horizon),
    horizon: context.horizon,
  };
}

/** The post-cures of the part, each with the minutes at which the shop may begin it. */
function postCureSetups(context: PlanContext, cures: readonly SettledCure[]): PostCureSetup[] {
  const afterGelMinutes = context.practice('postcure-after-gel-hours') * MINUTES_PER_HOUR;
  const runs = postCureOf(context, cures).choice?.runs ?? [];
  return runs.map(({ number, place, plan, starts }) => ({
    number,
    place,
    minutes: minutesOf(plan),
    afterGelMinutes,
    starts,
  }));
}

/** When the heat of a programme may begin; null: at any time, or no minute would keep the shop's rule. */
function programmeStarts(context: PlanContext, { heatMinutes }: SettledCure): Calendar | null {
  if (!heatMinutes) return null;
  const starts = heatStartsOf(context, { minutes: heatMinutes, attendedMinutes: 0 });
  return starts.length === 0 ? null : starts;
}

/** When the bag of a cure is down in a schedule: the end of its last wet stretch. */
function sealedAt({ placed }: Schedule, { layups }: SettledCure['cure']): Minute | null {
  const wet = new Set(layups.map(({ id }) => layupStageId('layup', id)));
  return placed.findLast(({ stage }) => wet.has(stage))?.end ?? null;
}
