/** The pipeline as one pure function: document + library + now -> plan. */
import type { Build, Library } from '../document/schema.ts';
import { curveOf } from '../plan/curve.ts';
import { contextOf, type PlanContext } from '../plan/context.ts';
import { judgeSteps } from './judgement.ts';
import { movesSincePrinted } from './moves.ts';
import { resultOf, type Judgement } from './result.ts';
import { batchesOfCure } from './mixes.ts';
import { runToEnd, mapYields, type Lazy, type Interruptible } from '../schedule/generators.ts';
import type { CureDetail, Effort, PlanDetail, PlanOutcome, RouteSums } from '../plan/outcome.ts';
import { glassOf } from '../plan/cureGlass.ts';
import type { CureTimes } from '../plan/cureTimes.ts';
import type { RoutePlan } from '../plan/routePlan.ts';
import { shownOf } from '../plan/shown.ts';
import { workBetween } from '../time/calendar.ts';
import type { Minute } from '../time/instant.ts';
import { formatsOf, stepsWordedAs, wordedAs } from '../units/formats.ts';

/**
 * Plans a build.
 * @param document a Build that `readBuild` accepted; what it leaves out is assumed
 * @param library the shipped or the shop's library; rows frozen in the document win
 * @param now minutes of Unix UTC
 * @returns the same bytes for the same input, whatever the machine's clock and zone
 * @throws MissingRow when the document names a row that neither library holds
 */
export const plan = (document: Build, library: Library, now: Minute, effort: Effort): PlanOutcome =>
  runToEnd(planSteps(document, library, now, effort));

/**
 * The same as a generator: yields the first good plan, every better one, and last the whole answer. Null
 * marks a point at which the caller may stop it, by asking no further.
 */
export function* planSteps(
  document: Build,
  library: Library,
  now: Minute,
  effort: Effort,
): Interruptible<Lazy<PlanOutcome>, PlanOutcome> {
  const own = formatsOf(document);
  const steps = stepsWordedAs(own, unworded(document, library, now, effort));
  return yield* mapYields(steps, (outcome) => () => wordedAs(own, outcome));
}

/** Words its messages in whatever formats are asked for. */
function* unworded(
  document: Build,
  library: Library,
  now: Minute,
  effort: Effort,
): Interruptible<Lazy<PlanOutcome>, PlanOutcome> {
  const context = contextOf(document, library, now);
  const outcomeOf = (judgement: Judgement): PlanOutcome => ({
    result: resultOf(context, judgement),
    detail: detailOf(context, judgement),
  });
  const steps = judgeSteps(context, document, library, effort);
  return outcomeOf(yield* mapYields(steps, (judgement) => () => outcomeOf(judgement())));
}

function detailOf(context: PlanContext, { taken, times, routes }: Judgement): PlanDetail {
  const { placed, end } = taken.schedule;
  const starts = placed.map((one) => one.start);
  const stages = new Map(taken.network.problem.stages.map((stage) => [stage.id, stage]));
  return {
    build: context.build,
    library: context.library,
    assumptions: context.assumptions,
    part: context.part,
    model: context.model,
    profile: context.profile,
    air: context.room.air,
    cures: Object.fromEntries(
      times.map((cure) => [cure.cure.cure.id, chemistryDetail(taken, cure)]),
    ),
    span: {
      start: Math.min(context.now, ...starts),
      end: Math.max(context.deadline, end ?? context.deadline),
    },
    now: context.now,
    deadline: context.deadline,
    shopHours: context.shopHours,
    personHours: context.personHours,
    outsideHours: context.outsideHours,
    curves: times.flatMap((cure) => curveOf(cure) ?? []),
    batches: Object.fromEntries(taken.cures.map((cure) => [cure.cure.id, batchesOfCure(cure)])),
    kit: taken.kit,
    labour: taken.labour,
    weight: taken.weight,
    routes: Object.fromEntries(
      [...routes.map(({ plan: one }) => one), taken].map((one) => [one.route.id, sumsOf(one)]),
    ),
    workMinutes: Object.fromEntries(
      placed.map((one) => {
        const mode = stages.get(one.stage)?.modes.find((m) => m.id === one.mode);
        // Heat begins in some minutes alone and then runs through: its calendar holds no work.
        const calendar = mode?.length.kind === 'work' ? mode.calendar : null;
        const minutes = calendar ? workBetween(calendar, one.start, one.end) : one.end - one.start;
        return [one.stage, minutes];
      }),
    ),
    tg: taken.tg,
    before: taken.network.before,
    ...(context.build.printed ? { moves: movesSincePrinted(context, taken) } : {}),
    shown: shownOf(context, taken),
    modes: Object.fromEntries(placed.map((one) => [one.stage, one.mode])),
  };
}

const sumsOf = ({ kit, labour, weight, price, cures }: RoutePlan): RouteSums => ({
  price,
  kit,
  labour,
  weight,
  bags: cures.length,
  batches: cures.reduce((sum, cure) => sum + batchesOfCure(cure).length, 0),
});

function chemistryDetail(plan: RoutePlan, all: CureTimes): CureDetail {
  const { cure, ...times } = all;
  const { sealed } = times;
  const { hardener, model, heat, heatMinutes, profileAt } = cure;
  return {
    hardener: hardener.id,
    model,
    profile: profileAt(sealed ?? 0),
    heat:
      heat === null || sealed === null
        ? null
        : { start: sealed, end: sealed + (heatMinutes ?? 0), hottestC: heat.hottestC },
    times,
    glass: glassOf(plan, all),
  };
}
