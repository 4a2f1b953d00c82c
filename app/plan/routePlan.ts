/** Plans one route: its cures, its schedule, what it costs and which finish it can give. */
import { FINISHES, type ConsequenceRow, type Finish, type JointState } from '../build/schema.ts';
import type { Route } from '../route/types.ts';
import { buildNetwork, type Network } from '../schedule/network/network.ts';
import type { Schedule } from '../schedule/problem.ts';
import { solve } from '../schedule/solve.ts';
import type { PlanContext } from './context.ts';
import { settleCures, type SettledCure } from './cures.ts';
import { seedOf } from './seed.ts';

/** One route with its plan. */
export interface RoutePlan {
  readonly route: Route;
  readonly cures: readonly SettledCure[];
  readonly network: Network;
  readonly schedule: Schedule;
  /** Person-hours of hands-on work. */
  readonly labourHours: number;
  readonly materialCostMinor: number;
  readonly massKg: number;
  /** The best finish that this route may promise. */
  readonly finish: Finish;
}

/** What the joints of a route cost later, from the consequence table. */
export interface Consequences {
  readonly fairMinutes: number;
  readonly fillerKg: number;
  readonly extraHours: number;
  readonly finish: Finish;
}

const EVENT_OF_JOINT: Readonly<Record<JointState, ConsequenceRow['event'] | null>> = {
  apart: null,
  tack: 'joint-tack',
  'one-bag': 'joint-one-bag',
};

/** A route with its chemistry settled and its consequences counted, before any scheduling. */
export interface RouteDraft {
  readonly route: Route;
  readonly cures: readonly SettledCure[];
  readonly consequences: Consequences;
}

export const draftRoute = (context: PlanContext, route: Route): RouteDraft => ({
  route,
  cures: settleCures(context, route),
  consequences: consequencesOf(context, route),
});

const NOT_SCHEDULED: Schedule = {
  placed: [],
  obstacles: [],
  missedPins: [],
  end: null,
  fits: false,
  generated: 0,
  provenBest: false,
};

/** Plans a route within `schedules` generated schedules; with 0 it is costed but not scheduled. */
export function planRoute(context: PlanContext, draft: RouteDraft, schedules: number): RoutePlan {
  const { route, cures, consequences } = draft;
  const network = networkOf(context, draft);
  const seed = seedOf(context.build.id, route.id);
  const schedule = schedules > 0 ? solve(network.problem, { schedules, seed }) : NOT_SCHEDULED;
  const batches = cures.reduce(
    (sum, cure) => sum + Object.values(cure.batches).reduce((n, list) => n + list.length, 0),
    0,
  );
  const kit = context.part.kitFor(route.cures.length, batches);
  const minutes = Object.values(network.personMinutes).reduce((sum, m) => sum + m, 0);
  return {
    route,
    cures,
    network,
    schedule,
    labourHours: minutes / 60,
    materialCostMinor: Math.round(kit.reduce((sum, line) => sum + line.costMinor, 0)),
    massKg: context.part.countedMassKg + consequences.fillerKg,
    finish: consequences.finish,
  };
}

function networkOf(context: PlanContext, { route, cures, consequences }: RouteDraft): Network {
  return buildNetwork({
    build: context.build,
    library: context.library,
    part: context.part,
    route,
    cures,
    model: context.model,
    profile: context.profile,
    postCure: postCureSetup(context),
    extraFairMinutes: consequences.fairMinutes + consequences.extraHours * 60,
    personHours: context.personHours,
    outsideHours: context.outsideHours,
    from: context.from,
    due: context.deadline,
    horizon: context.horizon,
  });
}

/** A post-cure is planned where the part needs it, a plan for it exists and the tent gets hot enough. */
function postCureSetup({ build, tg, practice }: PlanContext) {
  const { postCure } = tg;
  if (!postCure.possible || tg.neededC <= roomTgC(build, practice)) return null;
  if (!build.room.tent || build.room.tent.maxC < postCure.holdC) return null;
  const afterGelMinutes = practice('postcure-after-gel-hours') * 60;
  return { minutes: Math.max(1, Math.round(postCure.minutes)), afterGelMinutes };
}

const roomTgC = (build: PlanContext['build'], practice: PlanContext['practice']): number =>
  Math.max(build.room.temperatureC.day, build.room.temperatureC.night) + practice('tg-over-cure-c');

function consequencesOf({ library, part, build }: PlanContext, route: Route): Consequences {
  // Only a merge that takes the outer skin along shows on the face; a cured skin hides the rest.
  const faced = route.cures.filter((cure) => cure.layups.some((layup) => layup.id === 'skin'));
  const events = faced.flatMap((cure) =>
    cure.joints.flatMap((state) => EVENT_OF_JOINT[state] ?? []),
  );
  const rows = events.flatMap(
    (event) => library.consequences.find((row) => row.event === event) ?? [],
  );
  const painted = build.part.finish === 'painted' ? 1 : 0;
  const sum = (value: (row: ConsequenceRow) => number) =>
    rows.reduce((total, row) => total + value(row), 0);
  return {
    fairMinutes: painted * sum((row) => row.fairMinutesPerM2) * part.areaM2,
    fillerKg: painted * sum((row) => row.fillerKgM2) * part.areaM2,
    extraHours: sum((row) => row.extraHours),
    finish: rows.reduce<Finish>((worst, row) => lowerFinish(worst, row.bestFinish), 'clear'),
  };
}

/** The less demanding of two finishes; clear demands most, hidden least. */
const lowerFinish = (a: Finish, b: Finish): Finish =>
  FINISHES[Math.max(FINISHES.indexOf(a), FINISHES.indexOf(b))]!;

/** True when a route that can give `best` can give `wanted`. */
export const gives = (best: Finish, wanted: Finish): boolean =>
  FINISHES.indexOf(best) <= FINISHES.indexOf(wanted);
