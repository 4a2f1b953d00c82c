/** The search over all levers, bound to the planner. */
import type { Build, Library } from '../document/schema.ts';
import { leverEdit, leverEdits } from '../judge/levers.ts';
import { laterSlotIds } from '../judge/slotLevers.ts';
import { whyImpossible } from '../judge/possible.ts';
import {
  searchLevers,
  type Choice,
  type Screened,
  type SearchLimits,
  type SearchProgress,
  type SearchResult,
} from '../judge/search.ts';
import { chainChance, type ThreePoint } from '../judge/threePoint.ts';
import { codesWhere } from '../messages/findings.ts';
import { KeptPieces } from '../document/keptPieces.ts';
import { enumerateRoutes } from '../route/routes.ts';
import { compile } from '../schedule/compile.ts';
import { closes, type Mode, type Problem } from '../schedule/problem.ts';
import { dueOf, earliestStarts } from '../schedule/windows.ts';
import { MINUTES_PER_DAY, type Minute } from '../time/instant.ts';
import { contextOf, type PlanContext } from '../plan/context.ts';
import { LOOKUPS } from '../plan/lookups.ts';
import { wetFaultsOf } from '../plan/wetWindows.ts';
import { judgePinned } from './judgement.ts';
import { ODDS_REPLAYS } from '../judge/odds.ts';
import { oddsNow } from './odds.ts';
import { rangeOf } from './risks.ts';
import { draftRoute, planRoute, type RoutePlan } from '../plan/routePlan.ts';

const SEARCH_LIMITS: SearchLimits = {
  mostLooked: 5000,
  mostScreened: 2000,
  mostPlanned: 96,
  mostOdds: 12,
  mostOfOneCure: 4,
};
/** Later slots that are tried, in working days of the party. */
const SLOT_DAYS = [1, 2, 4] as const;

/**
 * Searches hardener and heat, of the whole build and cure by cure, hours, weekend, people, release, local
 * plies, the closing of the edge and the route together.
 * Yields after every few choices; the caller stops it by asking no further.
 */
export function* leverSearch(
  document: Build,
  shipped: Library,
  now: Minute,
  limits: SearchLimits = SEARCH_LIMITS,
): Generator<SearchProgress, SearchResult, void> {
  const context = contextOf(document, shipped, now);
  const { build, deadline, from } = context;
  const free: Build = { ...document, route: 'best' };
  const days = Math.max(0, deadline - from) / MINUTES_PER_DAY;
  const open = [
    ...leverEdits(free, shipped, LOOKUPS).map((edit) => edit.id),
    ...laterSlotIds(context, SLOT_DAYS),
  ];
  const plans = new Map<string, RoutePlan>();
  const kept = new KeptPieces(free);
  const tools = {
    screen: (levers: readonly string[], only?: ReadonlySet<string>) =>
      screen({ document: free, shipped, now, days, kept }, levers, only),
    plan: (choice: Screened) => planChoice(choice, shipped, now, plans),
    odds: (choice: Choice) => oddsOfChoice(choice, shipped, now, plans),
  };
  const wishes = { targetMassKg: build.part.targetMassKg, currency: build.currency };
  return yield* searchLevers(open, tools, limits, wishes);
}

interface ScreenInput {
  readonly document: Build;
  readonly shipped: Library;
  readonly now: Minute;
  /** For which heat and wages run. */
  readonly days: number;
  readonly kept: KeptPieces;
}

/** Every route that can be done with these levers applied; none when one of them is not open. */
function screen(
  { document, shipped, now, days, kept: pieces }: ScreenInput,
  levers: readonly string[],
  only?: ReadonlySet<string>,
): { looked: number; kept: Screened[] } {
  let changed = document;
  let addedMinor = 0;
  const labels: { id: string; label: string }[] = [];
  for (const id of levers) {
    const edit = leverEdit(changed, id, shipped, LOOKUPS, days);
    if (!edit) return { looked: 0, kept: [] };
    changed = edit.document;
    addedMinor += edit.addedMinor;
    labels.push({ id, label: edit.label });
  }
  changed = pieces.of(changed);
  const context = contextOf(changed, shipped, now);
  const routes = enumerateRoutes(context.part.layups).filter(
    (route) => only?.has(route.id) ?? true,
  );
  const kept = routes.flatMap((route) => {
    const draft = draftRoute(context, route);
    if (
      whyImpossible(context, draft, wetFaultsOf(context, draft)).some(
        (reason) => reason.severity === 'stop',
      )
    )
      return [];
    const plan = planRoute(context, draft, 0);
    return [
      {
        id: `${levers.join(',')} ${route.id}`,
        levers: labels,
        route: route.id,
        joints: route.joints,
        document: {
          ...changed,
          route: { joints: { ...route.joints } },
          levers: [...(document.levers ?? []), ...labels],
        },
        lateBound: lateBound(context, plan.network.problem),
        labourHours: plan.labourHours,
        costMinor: plan.materialCostMinor + addedMinor,
        massKg: plan.massKg,
        finish: plan.finish,
      },
    ];
  });
  return { looked: routes.length, kept };
}

/**
 * Lateness of the earliest starts that least lags allow with the largest team in the shop's hours,
 * whoever else needs it: no plan is less late. Infinity where none exists.
 */
function lateBound(context: PlanContext, problem: Problem): number {
  const compiled = compile(relaxed(context, problem));
  if (compiled.obstacles.length > 0) return Infinity;
  const windows = earliestStarts(compiled, { from: problem.from, modeOf: null, order: [] });
  if (windows.broken >= 0) return Infinity;
  let worst = -Infinity;
  for (const stage of compiled.stages) {
    const least = stage.modes[0]?.minutes ?? 0;
    const start = windows.earliest[stage.index]!;
    worst = Math.max(worst, start + least - dueOf(compiled, stage));
  }
  return worst;
}

/** One mode a stage, no resources, no greatest lags. */
function relaxed({ shopHours }: PlanContext, problem: Problem): Problem {
  const fastest = (modes: readonly Mode[]): Mode[] => {
    const [first] = modes;
    if (!first) return [];
    const best = modes.reduce((a, b) => (minutesOf(b) < minutesOf(a) ? b : a), first);
    return [{ ...best, uses: [], calendar: modes.length > 1 ? shopHours : best.calendar }];
  };
  return {
    ...problem,
    stages: problem.stages.map((stage) => ({ ...stage, modes: fastest(stage.modes) })),
    relations: problem.relations.filter((one) => !closes(one) && !one.onlyIf),
  };
}

const minutesOf = ({ length }: Mode): number => (length.kind === 'function' ? 0 : length.minutes);

/** What a choice says of itself by its joints and its lateness. */
const COVERED_BY_CHOICE = codesWhere((spec) => spec.saidByChoice);

type Plans = Map<string, RoutePlan>;

function planChoice(choice: Screened, shipped: Library, now: Minute, plans: Plans): Choice | null {
  const context = contextOf(choice.document, shipped, now);
  const { plan, findings } = judgePinned(context, choice.joints);
  if (plan.lateMinutes === null) return null;
  plans.set(choice.id, plan);
  const codes = findings
    .filter((one) => one.severity !== 'note' && !COVERED_BY_CHOICE.has(one.code))
    .map((one) => one.code);
  return {
    ...choice,
    labourHours: plan.labourHours,
    lateMinutes: plan.lateMinutes,
    fits: plan.schedule.fits,
    onTime: approximateChance(context, plan),
    onTimeCounted: false,
    codes: [...new Set(codes)].sort(),
  };
}

/** A chance by the critical stages alone: their spread against the room that is left. */
function approximateChance(context: PlanContext, plan: RoutePlan): number {
  const stages = new Map(plan.network.problem.stages.map((stage) => [stage.id, stage]));
  const points = plan.schedule.placed
    .filter((one) => one.critical && plan.network.personMinutes[one.stage] !== undefined)
    .map((one): ThreePoint => {
      const usual = one.end - one.start;
      const { low, high } = rangeOf(context, stages.get(one.stage)!);
      return { least: usual * low, usual, most: usual * high };
    });
  const planned = points.reduce((sum, point) => sum + point.usual, 0);
  return chainChance(points, planned - (plan.lateMinutes ?? 0));
}

function oddsOfChoice(choice: Choice, shipped: Library, now: Minute, plans: Plans): number {
  const context = contextOf(choice.document, shipped, now);
  const plan = plans.get(choice.id);
  return (plan && oddsNow(context, plan, { replays: ODDS_REPLAYS })?.onTime) ?? 0;
}
