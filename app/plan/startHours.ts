/** When the wet work of a bag may start in the days around its plan: the same windows that the plan obeys. */
import { bagDueOf } from '../cure/bag-due.ts';
import { layupStageId } from '../document/ids.ts';
import { milestoneMap } from '../schedule/network/builder.ts';
import { arrivals, attendance, settleMinutesOf } from '../schedule/network/wetHours.ts';
import type { MonotoneMap, PlacedWithFloat } from '../schedule/problem.ts';
import { shift, startsInOrder, startsReaching, startsWithin } from '../schedule/starts.ts';
import { containingInterval, intersect, nextOpen, subtract } from '../time/calendar.ts';
import { MINUTES_PER_DAY, type Calendar, type Interval, type Minute } from '../time/instant.ts';
import type { PlanContext } from './context.ts';
import type { SettledCure } from './cures.ts';
import { bagByOf } from './cureTimes.ts';
import { modeAt } from './handsShort.ts';
import type { RoutePlan } from './routePlan.ts';
import { wetHours } from './wetWindows.ts';

/**
 * `good`: bag down in time, gel seen. `bag-late`: the wet work ends after the resin is due under vacuum.
 * `gel-unseen`: nobody is there when it gels. `on-arrival`: people have only just come in. `off-hours`:
 * no unbroken stretch of hours holds the work and the watch after it.
 */
export type StartState = 'good' | 'bag-late' | 'gel-unseen' | 'on-arrival' | 'off-hours';

/** Minutes on end that are alike, exact to the minute. */
export interface StartHour {
  readonly at: Minute;
  /** The first minute that is no longer so. */
  readonly until: Minute;
  readonly state: StartState;
  /** Of a start at `at`: from the end of the wet work until the bag is due; negative: too late. null: not known. */
  readonly marginMinutes: number | null;
  readonly gel: Minute | null;
  /** When somebody can take the bag off; null: never. */
  readonly off: Minute | null;
}

const DAYS_BEFORE = 3;
const DAYS_AFTER = 5;

/** Start hours of the wet work that goes straight into each bag, by the id of its stage. */
export function startHoursOf(
  context: PlanContext,
  { cures, placed, network }: Pick<RoutePlan, 'cures' | 'placed' | 'network'>,
): Record<string, readonly StartHour[]> {
  const hours: Record<string, readonly StartHour[]> = {};
  const specs = new Map(network.problem.stages.map((spec) => [spec.id, spec]));
  for (const settled of cures) {
    const wet = settled.cure.layups.flatMap(
      ({ id }) => placed.get(layupStageId('layup', id)) ?? [],
    );
    const last = wet.at(-1);
    if (!last) continue;
    const mode = modeAt(specs.get(last.stage)?.modes ?? [], last);
    hours[last.stage] = hoursOf(context, settled, last, mode?.calendar ?? context.shopHours);
  }
  return hours;
}

/** @param team hours of those who do it in the plan */
function hoursOf(
  context: PlanContext,
  settled: SettledCure,
  { start, end }: Pick<PlacedWithFloat, 'start' | 'end'>,
  team: Calendar,
): StartHour[] {
  const from = Math.max(context.now, start - DAYS_BEFORE * MINUTES_PER_DAY);
  const around = intersect(team, [{ start: from, end: start + DAYS_AFTER * MINUTES_PER_DAY }]);
  const states = statesOf(context, settled, team, around, end - start);
  const edges = [
    ...new Set(states.flatMap(({ minutes }) => withinSpan(minutes, around).flatMap(edgesOf))),
  ].toSorted((a, b) => a - b);
  return around.flatMap((span) => {
    const cuts = [span.start, ...edges.filter((edge) => edge > span.start && edge < span.end)];
    const own: StartHour[] = [];
    cuts.forEach((at, i) => {
      const until = cuts[i + 1] ?? span.end;
      const state = states.find(({ minutes }) => !containingInterval(minutes, at))?.state ?? 'good';
      const before = own.at(-1);
      if (before?.state === state) own[own.length - 1] = { ...before, until };
      else own.push({ at, until, state, ...momentsOf(context, settled, at, end - start) });
    });
    return own;
  });
}

const edgesOf = ({ start, end }: Interval): Minute[] => [start, end];

/** Those of some intervals that touch the days which others span. */
function withinSpan(minutes: Calendar, around: Calendar): Calendar {
  const [from, to] = [around[0]?.start ?? 0, around.at(-1)?.end ?? 0];
  return minutes.filter(({ start, end }) => end > from && start < to);
}

/** What a start must keep, each with the minutes that do; the first that fails says why. */
function statesOf(
  context: PlanContext,
  settled: SettledCure,
  team: Calendar,
  around: Calendar,
  wetMinutes: number,
): { readonly state: StartState; readonly minutes: Calendar }[] {
  const { watched, gels } = attendance(wetHours(context));
  const due = bagDueOf(settled.early, context.practice);
  const gel = milestoneMap(settled.early, 'gel');
  const fits = startsWithin(team, wetMinutes);
  const inTime =
    due.apply(context.from) === null
      ? around
      : startsInOrder(shift(wetMinutes), due, around, (failed) =>
          due.notBefore(failed + 1, wetMinutes),
        );
  return [
    { state: 'off-hours', minutes: intersect(fits, startsReaching(shift(wetMinutes), watched)) },
    { state: 'bag-late', minutes: inTime },
    { state: 'gel-unseen', minutes: startsReaching(gel, seenFrom(gels, gel, around)) },
    {
      state: 'on-arrival',
      minutes: subtract(around, arrivals(team, settleMinutesOf(context.library))),
    },
  ];
}

/** Without those of some moments that come before or after whatever is begun in these days. */
function seenFrom(moments: Calendar, map: MonotoneMap, around: Calendar): Calendar {
  if (around.length === 0) return [];
  const first = map.apply(around[0]!.start) ?? -Infinity;
  const last = map.apply(around.at(-1)!.end) ?? Infinity;
  return moments.filter(({ start, end }) => end > first && start <= last);
}

/** What comes of a start. */
function momentsOf(
  context: PlanContext,
  settled: SettledCure,
  at: Minute,
  wetMinutes: number,
): Pick<StartHour, 'marginMinutes' | 'gel' | 'off'> {
  const by = bagByOf(context, settled, at);
  const fit = settled.clock.reached(at + wetMinutes, 'debag');
  return {
    marginMinutes: by === null ? null : by - at - wetMinutes,
    gel: settled.early.reached(at, 'gel'),
    off: fit === null ? null : nextOpen(context.shopHours, fit),
  };
}
