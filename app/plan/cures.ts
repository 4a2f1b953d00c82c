/** Settles the chemistry of every cure of a route: its clock, its batches, its wet work. */
import { settleBatches } from '../cure/batches.ts';
import { cureClock } from '../cure/clock.ts';
import { potLifeOf } from '../cure/pot.ts';
import type { Batch, CureClock } from '../cure/types.ts';
import type { Layup } from '../part/types.ts';
import type { Route, RouteCure } from '../route/types.ts';
import type { CureSetup } from '../schedule/network/input.ts';
import { containingInterval } from '../time/calendar.ts';
import type { Minute } from '../time/instant.ts';
import type { PlanContext } from './context.ts';

/** A cure's chemistry with its batches, in the order of mixing. */
export interface SettledCure extends CureSetup {
  /** Batches of each layup, by layup id. */
  readonly batches: Readonly<Record<string, readonly Batch[]>>;
}

export function settleCures(context: PlanContext, route: Route): SettledCure[] {
  const clocks = clocksOf(context);
  return route.cures.map((cure) => {
    const clock = springs(context, cure) ? clocks.springing : clocks.plain;
    const batches: Record<string, readonly Batch[]> = {};
    const wetMinutes: Record<string, number> = {};
    for (const layup of cure.layups) {
      const own = batchesOf(context, layup);
      batches[layup.id] = own;
      wetMinutes[layup.id] =
        layup.personMinutes + own.length * context.practice('mix-minutes-per-batch');
    }
    const settled = { cure, clock, batches, wetMinutes };
    return { ...settled, gelCanBeSeen: gelCanBeSeen(context, settled) };
  });
}

/** Core drawn over a curve springs: its bag stays on longer. */
function springs(context: PlanContext, cure: RouteCure): boolean {
  const curved = context.build.part.zones.some((zone) => zone.core && zone.shape !== 'flat');
  return curved && cure.layups.some((layup) => layup.hasCore);
}

function clocksOf({ model, profile, hardener, practice }: PlanContext) {
  const options = { minimumC: hardener.minimumC };
  const { debag } = model.doseHours;
  const longer = debag === null ? null : debag * practice('core-springs-factor');
  const springing = { ...model, doseHours: { ...model.doseHours, debag: longer } };
  return {
    plain: cureClock(model, profile, options),
    springing: cureClock(springing, profile, options),
  };
}

function batchesOf(context: PlanContext, layup: Layup): Batch[] {
  const { hardener, model, practice, build } = context;
  return settleBatches({
    mixedG: layup.mixedG,
    wetMinutes: layup.personMinutes / handsOn(context, layup),
    hardener,
    potLifeMinutesAt: potLifeOf(hardener, model, practice),
    temperatureC: build.room.temperatureC.day,
    practice,
  });
}

/** People that can be on a layup at once. */
export const handsOn = ({ build }: PlanContext, layup: Layup): number =>
  Math.max(1, Math.min(layup.peopleMax, build.crew.length));

/** Fewest minutes from first mix to sealed bag of the layups that share one stretch. */
export const wetMinutesOf = (
  context: PlanContext,
  layups: readonly Layup[],
  wetMinutes: Readonly<Record<string, number>>,
): number => {
  const people = Math.max(...layups.map((layup) => handsOn(context, layup)));
  return Math.ceil(layups.reduce((sum, layup) => sum + wetMinutes[layup.id]!, 0) / people);
};

/** Days of starts that are tried to see whether anybody can be there at the gel. */
const INTERVALS_TRIED = 20;
const TRY_EVERY_MINUTES = 30;

/** True when some start within the shop's hours puts the gel within them too. */
function gelCanBeSeen(
  context: PlanContext,
  settled: { cure: RouteCure; clock: CureClock; wetMinutes: Readonly<Record<string, number>> },
): boolean {
  const last = settled.cure.layups.at(-1)!;
  const wet = wetMinutesOf(context, [last], settled.wetMinutes);
  const needed = wet + context.practice('watch-minutes');
  const ahead = context.shopHours.filter((hours) => hours.end > context.from);
  for (const hours of ahead.slice(0, INTERVALS_TRIED)) {
    const latest = hours.end - needed;
    for (let start = hours.start; start <= latest; start += TRY_EVERY_MINUTES) {
      if (somebodyThere(context, settled.clock.reached(start, 'gel'))) return true;
    }
  }
  return false;
}

/** True when the shop is manned at that minute, with time for a look. */
export function somebodyThere(context: PlanContext, minute: Minute | null): boolean {
  if (minute === null) return false;
  const hours = containingInterval(context.shopHours, minute);
  return hours !== null && hours.end - minute >= context.practice('gel-look-minutes');
}
