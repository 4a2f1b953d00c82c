/** From minutes and plans to the result that command, screen and paper share. */
import {
  layupStageId,
  publishedResource,
  readResourceId,
  readStageId,
  type StageRef,
} from '../document/ids.ts';
import { recordsInForce } from '../document/records.ts';
import {
  RESULT_VERSION,
  type CureResult,
  type Finding,
  type PlanResult,
  type RouteResult,
  type StageKind,
  type StageResult,
} from '../document/schema.ts';
import { heldStages, withheldStages } from '../judge/released.ts';
import { takenWords } from '../messages/ranking.ts';
import { marked } from '../messages/findings.ts';
import { closedBeforeStart, wordsOf, type Closings } from '../judge/merge.ts';
import { isPossible, takenReason, type JudgedRoute } from '../judge/rank.ts';
import type { Placed, PlacedWithFloat, StageSpec } from '../schedule/problem.ts';
import type { Minute } from '../time/instant.ts';
import { minuteToIso } from '../time/zone.ts';
import { leastSpareOf, nextDeadlineOf, spareOf } from './deadlines.ts';
import { breakdownOf, machiningTotal } from './breakdown.ts';
import { unknownsOf } from '../part/order.ts';
import { mixesOfCure } from './mixes.ts';
import { isInfused } from '../part/types.ts';
import type { PlanContext } from '../plan/context.ts';
import type { CureTimes } from '../plan/cureTimes.ts';
import { movedSincePrinted } from '../plan/replanPrinted.ts';
import type { RoutePlan } from '../plan/routePlan.ts';
import { resourcesTaken } from '../schedule/taken.ts';

export interface Judgement {
  readonly taken: RoutePlan;
  readonly times: readonly CureTimes[];
  readonly routes: readonly JudgedRoute[];
  /** Closing times by route id, as far as they have been worked out. */
  readonly closings: Closings;
  readonly findings: readonly Finding[];
  /** Chance of meeting the date by route id, 0 to 1, where it has been worked out. */
  readonly odds: ReadonlyMap<string, number>;
  /** Hottest that a cure gets by its own heat, C, by cure id, where it has been worked out. */
  readonly peaks: ReadonlyMap<string, number>;
}

export function resultOf(context: PlanContext, judgement: Judgement): PlanResult {
  const { build, now, deadline, part } = context;
  const { taken, times, findings } = judgement;
  const iso = (minute: Minute) => minuteToIso(minute, build.zone);
  const { placed } = taken;
  return {
    formatVersion: RESULT_VERSION,
    build: { id: build.id, name: build.name, zone: build.zone, currency: build.currency },
    now: iso(now),
    deadline: iso(deadline),
    fits: fits(context, judgement),
    lateMinutes: taken.lateness?.pastDateMinutes ?? null,
    route: {
      id: taken.route.id,
      cures: taken.route.cures.map((cure) => ({
        id: cure.id,
        name: cure.name,
        layups: cure.layups.map((layup) => layup.id),
      })),
      ...whyOf(context, judgement),
    },
    stages: stagesOf(context, taken, heldOf(context, judgement), iso),
    cures: times.map((cure) => cureResult(cure, judgement.peaks, iso)),
    mixes: times.flatMap((cure) => mixesOfCure(cure, placed, iso)),
    routes: judgement.routes.map((judged) => routeResult(context, judgement, judged, iso)),
    findings: findings.map(marked),
    nextDeadline: nextDeadlineOf(context, taken, judgement.closings),
    spare: spareOf(context, taken),
    ...(build.printed ? { moved: movedSincePrint(context, taken, iso) } : {}),
    ...searchOf(taken),
    totals: {
      labourHours: round(taken.labourHours, 1),
      materialCost: taken.materialCostMinor,
      massKg: round(part.layups.length > 0 ? taken.massKg : 0, 2),
      targetMassKg: build.part.targetMassKg,
      ...unknownsOf(taken.kit),
      machining: machiningTotal(build, taken.kit),
    },
    breakdown: breakdownOf(taken, build.part.targetIncludes),
  };
}

/** A first answer has not looked at all routes, and gives no reason yet. */
function whyOf({ build }: PlanContext, { taken, routes, closings }: Judgement) {
  const judged = routes.find(({ plan }) => plan.route.id === taken.route.id);
  if (closings.size === 0 || !judged) return {};
  const why = takenWords(takenReason(routes, judged, build.route !== 'best'));
  return why === '' ? {} : { why };
}

/** What starts at another moment than the printed schedule says. */
const movedSincePrint = (context: PlanContext, taken: RoutePlan, iso: Iso) =>
  movedSincePrinted(context, taken).map(({ stage, from, to }) => ({
    stage,
    from: iso(from),
    to: iso(to),
  }));

/** How good the plan is known to be; left out where there is none. */
function searchOf({ schedule }: RoutePlan): Pick<PlanResult, 'search'> {
  const { placed, provenBest, gapMinutes, generated } = schedule;
  if (placed.length === 0) return {};
  const gapHours = gapMinutes === undefined ? null : round(gapMinutes / 60, 1);
  return { search: { provenBest, gapHours: provenBest ? 0 : gapHours, schedules: generated } };
}

/** A plan fits when it meets the date and nothing says stop. */
function fits({ part }: PlanContext, { taken, findings }: Judgement): boolean {
  const stopped = findings.some((finding) => finding.severity === 'stop');
  return part.layups.length > 0 && taken.schedule.fits && !stopped;
}

type Iso = (minute: Minute) => string;

const orNull = (minute: Minute | null, iso: Iso): string | null =>
  minute === null ? null : iso(minute);

/** What keeps stages from the floor, by stage id. */
interface Held {
  readonly questions: ReturnType<typeof heldStages>;
  readonly unsafe: ReturnType<typeof withheldStages>;
}

const heldOf = ({ build, library }: PlanContext, { taken, findings }: Judgement): Held => ({
  questions: heldStages(build, library, taken.network.problem),
  unsafe: withheldStages(build, taken.route, taken.network.problem, findings),
});

/** Stages in the order of their starts; those that could not be placed last, without times. */
function stagesOf(context: PlanContext, plan: RoutePlan, held: Held, iso: Iso): StageResult[] {
  const specs = new Map(plan.network.problem.stages.map((stage) => [stage.id, stage]));
  const at = plan.placed;
  const isNeeded = ({ neededIf }: StageSpec): boolean =>
    !neededIf || neededIf.modes.includes(at.get(neededIf.stage)?.mode ?? '');
  const done = plan.schedule.placed.flatMap((one) => {
    const spec = specs.get(one.stage)!;
    return isNeeded(spec) ? [stageResult(context, plan, spec, one, held, iso)] : [];
  });
  const left = plan.network.problem.stages.filter((one) => !at.has(one.id) && isNeeded(one));
  return [...done, ...left.map((stage) => stageResult(context, plan, stage, null, held, iso))];
}

function stageResult(
  context: PlanContext,
  plan: RoutePlan,
  stage: StageSpec,
  placed: PlacedWithFloat | null,
  held: Held,
  iso: Iso,
): StageResult {
  const mode = stage.modes.find((one) => one.id === placed?.mode);
  const kept = (plan.network.problem.holds ?? []).filter(
    ({ through }) => placed !== null && through?.includes(stage.id),
  );
  const keptIds = kept.map(({ resource }) => resource);
  const taken = [...resourcesTaken(mode, placed), ...keptIds].flatMap(
    (id) => readResourceId(id) ?? [],
  );
  const float = placed?.floatMinutes ?? null;
  const unsafe = held.unsafe.get(stage.id);
  return {
    id: stage.id,
    name: stage.name,
    kind: stage.kind,
    cure: stage.cure,
    start: orNull(placed?.start ?? null, iso),
    end: orNull(placed?.end ?? null, iso),
    earliestStart: orNull(placed?.earliestStart ?? null, iso),
    latestStart: orNull(placed?.latestStart ?? null, iso),
    latestEnd: orNull(placed?.latestEnd ?? null, iso),
    floatHours: float === null ? null : round(float / 60, 1),
    critical: placed?.critical ?? false,
    people: taken.flatMap((one) => (one.kind === 'person' ? one.person : [])),
    gear: taken.flatMap(({ kind }) => (kind === 'person' ? [] : kind)),
    attended: attendedDuring(plan, readStageId(stage.id), placed, iso),
    waitsFor: [...(held.questions.get(stage.id) ?? [])],
    ...(unsafe ? { withheld: [...unsafe] } : {}),
    ...stateOf(context, stage, placed),
  };
}

/** Where a stage stands as the records have it; nothing of one that is still to come. */
function stateOf(
  { build, now }: PlanContext,
  { id, begun, fixedStart, kind }: StageSpec,
  placed: PlacedWithFloat | null,
): Pick<StageResult, 'state'> {
  const record = recordsInForce(build).get(id);
  if (record) return { state: record.end === null ? runningOr(kind, placed, now) : 'done' };
  if (begun) return { state: RUNS_ALONE.has(kind) ? 'done' : 'implied' };
  const began = fixedStart !== null && placed?.start === fixedStart && fixedStart < now;
  return began && RUNS_ALONE.has(kind) ? { state: runningOr(kind, placed, now) } : {};
}

const runningOr = (kind: StageKind, placed: PlacedWithFloat | null, now: Minute) =>
  RUNS_ALONE.has(kind) && placed !== null && placed.end <= now ? 'done' : 'running';

/** Over when its time is over, whether or not anybody writes that down. */
const RUNS_ALONE: ReadonlySet<StageKind> = new Set(['watched-vacuum', 'cure', 'wait', 'post-cure']);

/** The stretches of a cure or a post-cure at which somebody is beside it; none for other stages. */
function attendedDuring(
  { placed: all, tg }: RoutePlan,
  ref: StageRef | null,
  placed: Placed | null,
  iso: Iso,
) {
  if (ref?.what === 'post-cure' && placed) {
    const run = tg.choice?.runs.find(({ number }) => number === ref.number);
    const end = placed.start + (run?.attendedMinutes ?? 0);
    return end > placed.start ? [{ start: iso(placed.start), end: iso(end) }] : [];
  }
  if (ref?.what !== 'cure') return [];
  return (['watched-vacuum', 'gel-look'] as const).flatMap((what) => {
    const placed = all.get(layupStageId(what, ref.layup));
    return placed ? [{ start: iso(placed.start), end: iso(placed.end) }] : [];
  });
}

function cureResult(times: CureTimes, peaks: ReadonlyMap<string, number>, iso: Iso): CureResult {
  const peakC = peaks.get(times.cure.cure.id) ?? null;
  const { cure } = times.cure;
  const { minC, maxC } = times;
  return {
    id: cure.id,
    name: cure.name,
    ...(isInfused(cure.layups) ? { infused: true } : {}),
    temperatureC: minC === null || maxC === null ? null : { min: minC, max: maxC },
    firstMix: orNull(times.firstMix, iso),
    openUntil: orNull(times.open, iso),
    bagBy: orNull(times.bagBy, iso),
    gel: orNull(times.gel, iso),
    gelLatest: orNull(times.gelLatest, iso),
    debagFrom: orNull(times.debagFrom, iso),
    demouldFrom: orNull(times.demouldFrom, iso),
    sandFrom: orNull(times.sandFrom, iso),
    bondUntil: orNull(times.bondUntil, iso),
    fullFrom: orNull(times.fullFrom, iso),
    tgAtDemouldC: times.tgAtDemouldC === null ? null : round(times.tgAtDemouldC, 1),
    tgC: times.tgC === null ? null : round(times.tgC, 1),
    peakC: peakC === null ? null : round(peakC, 1),
  };
}

const endOf = ({ placed }: RoutePlan): Minute | null =>
  placed.size === 0 ? null : Math.max(...[...placed.values()].map(({ end }) => end));

function routeResult(
  context: PlanContext,
  { closings, routes, odds }: Judgement,
  judged: JudgedRoute,
  iso: Iso,
): RouteResult {
  const { plan, reasons } = judged;
  const closing = closings.get(plan.route.id);
  const possible = isPossible(judged);
  const last = closing?.minute ?? null;
  const closes = last === null || closedBeforeStart(context, last) ? null : last;
  return {
    id: plan.route.id,
    cures: plan.route.cures.map((cure) => cure.id),
    joints: { ...plan.route.joints },
    closes: orNull(closes, iso),
    closesProven: closing?.proven ?? false,
    closedBy: closing?.closedBy
      ? { ...closing.closedBy, resource: publishedResource(closing.closedBy.resource) }
      : null,
    open: possible && (closing ? closes !== null && closes >= context.now : plan.schedule.fits),
    possible,
    fits: possible && plan.schedule.fits,
    labourHours: round(plan.labourHours, 1),
    materialCost: plan.materialCostMinor,
    massKg: round(plan.massKg, 2),
    finish: plan.finish,
    onTime: odds.get(plan.route.id) ?? null,
    ready: orNull(endOf(plan), iso),
    spare: leastSpareOf(context, plan),
    findings: reasons.map(marked),
    closingWords: wordsOf(context, routes, closings, plan.route.id),
    price: plan.price.map(({ minutes, waitHoursAt20C: _waited, ...line }) => ({
      ...line,
      hours: round(minutes / 60, 1),
      fillerKg: round(line.fillerKg, 3),
    })),
  };
}

function round(value: number, digits: number): number {
  const scale = 10 ** digits;
  return Math.round(value * scale) / scale;
}
