/** When the wet work of a bag may start in the days around its plan: the same windows that the plan obeys. */
import { layupStageId } from '../document/ids.ts';
import { containingInterval, nextOpen } from '../time/calendar.ts';
import { MINUTES_PER_DAY, type Minute } from '../time/instant.ts';
import type { PlanContext } from './context.ts';
import type { SettledCure } from './cures.ts';
import { bagByOf } from './cureTimes.ts';
import type { RoutePlan } from './routePlan.ts';
import { isGelAttended } from './wetWindows.ts';

/**
 * `good`: bag down in time, gel seen. `bag-late`: the wet work ends after the resin is due under vacuum.
 * `gel-unseen`: nobody is there when it gels. `off-hours`: no unbroken stretch of hours holds the work.
 */
export type StartState = 'good' | 'bag-late' | 'gel-unseen' | 'off-hours';

export interface StartHour {
  readonly at: Minute;
  readonly state: StartState;
  /** From the end of the wet work until the bag is due; negative: too late. null: not known. */
  readonly marginMinutes: number | null;
  readonly gel: Minute | null;
  /** When somebody can take the bag off; null: never. */
  readonly off: Minute | null;
}

/** From one start that is looked at to the next. */
export const START_STEP_MINUTES = 30;
const DAYS_BEFORE = 3;
const DAYS_AFTER = 5;

/** Start hours of the wet work that goes straight into each bag, by the id of its stage. */
export function startHoursOf(
  context: PlanContext,
  { cures, placed }: Pick<RoutePlan, 'cures' | 'placed'>,
): Record<string, readonly StartHour[]> {
  const hours: Record<string, readonly StartHour[]> = {};
  for (const settled of cures) {
    const wet = settled.cure.layups.flatMap(
      ({ id }) => placed.get(layupStageId('layup', id)) ?? [],
    );
    const last = wet.at(-1);
    if (last) hours[last.stage] = hoursOf(context, settled, last);
  }
  return hours;
}

function hoursOf(
  context: PlanContext,
  settled: SettledCure,
  { start, end }: { readonly start: Minute; readonly end: Minute },
): StartHour[] {
  const from = Math.max(context.now, start - DAYS_BEFORE * MINUTES_PER_DAY);
  const until = start + DAYS_AFTER * MINUTES_PER_DAY;
  const ahead = context.shopHours.filter((span) => span.end > from && span.start < until);
  return ahead.flatMap((span) => {
    const own: StartHour[] = [];
    for (let at = span.start; at < span.end; at += START_STEP_MINUTES) {
      if (at >= from) own.push(startHour(context, settled, at, end - start));
    }
    return own;
  });
}

function startHour(
  context: PlanContext,
  settled: SettledCure,
  at: Minute,
  wetMinutes: number,
): StartHour {
  const sealed = at + wetMinutes;
  const by = bagByOf(context, settled, at);
  const gel = settled.early.reached(at, 'gel');
  const fit = settled.clock.reached(sealed, 'debag');
  const marginMinutes = by === null ? null : by - sealed;
  const hours = containingInterval(context.shopHours, at);
  const fits = hours !== null && sealed + context.practice('watch-minutes') <= hours.end;
  const state: StartState = !fits
    ? 'off-hours'
    : marginMinutes !== null && marginMinutes < 0
      ? 'bag-late'
      : isGelAttended(context, gel)
        ? 'good'
        : 'gel-unseen';
  const off = fit === null ? null : nextOpen(context.shopHours, fit);
  return { at, state, marginMinutes, gel, off };
}
