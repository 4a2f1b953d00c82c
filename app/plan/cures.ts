/** Settles the chemistry of every cure of a route: its clock, its batches, its wet work. */
import { settleBatches, type BatchNeed } from '../cure/batches.ts';
import { cureClock, type StatefulClock } from '../cure/clock.ts';
import { putOff } from '../cure/fit.ts';
import { peakOf, potLifeOf } from '../cure/pot.ts';
import type { Batch, CureClock } from '../cure/types.ts';
import { crewMinutes } from '../part/labour.ts';
import type { Layup } from '../part/types.ts';
import { stretchesOf } from '../route/routes.ts';
import type { Route, RouteCure } from '../route/types.ts';
import type { CureSetup } from '../schedule/network/input.ts';
import { containingInterval } from '../time/calendar.ts';
import type { Minute } from '../time/instant.ts';
import type { PlanContext } from './context.ts';

/** A cure's chemistry with its batches, in the order of mixing. */
export interface SettledCure extends CureSetup {
  readonly clock: StatefulClock;
  /** Batches of each layup, by layup id. */
  readonly batches: Readonly<Record<string, readonly Batch[]>>;
}

export function settleCures(context: PlanContext, route: Route): SettledCure[] {
  const { clocks } = sharedOf(context);
  return route.cures.map((cure) => {
    const clock = springs(context, cure) ? clocks.springing : clocks.plain;
    const batches: Record<string, readonly Batch[]> = {};
    const wetMinutes: Record<string, number> = {};
    for (const layup of cure.layups) {
      const own = sharedOf(context).batches(layup);
      batches[layup.id] = own;
      wetMinutes[layup.id] =
        layup.personMinutes + own.length * context.practice('mix-minutes-per-batch');
    }
    const settled = { cure, clock, batches, wetMinutes };
    return { ...settled, gelCanBeSeen: gelCanBeSeen(context, settled) };
  });
}

/** What all routes of one build share; worked out once. */
interface Shared {
  readonly clocks: ReturnType<typeof clocksOf>;
  readonly batches: (layup: Layup) => readonly Batch[];
}
const sharedByContext = new WeakMap<PlanContext, Shared>();

function sharedOf(context: PlanContext): Shared {
  let shared = sharedByContext.get(context);
  if (!shared) {
    const { model, practice } = context;
    const cup = { potLifeMinutesAt: potLifeOf(model, practice), peakCAt: peakOf(model, practice) };
    const settled = new Map<string, readonly Batch[]>();
    const batches = (layup: Layup): readonly Batch[] => {
      const own = settled.get(layup.id) ?? batchesOf(context, layup, cup);
      settled.set(layup.id, own);
      return own;
    };
    shared = { clocks: clocksOf(context), batches };
    sharedByContext.set(context, shared);
  }
  return shared;
}

/** Core drawn over a curve springs: its bag stays on longer. */
function springs(context: PlanContext, cure: RouteCure): boolean {
  const curved = context.build.part.zones.some((zone) => zone.core && zone.shape !== 'flat');
  return curved && cure.layups.some((layup) => layup.hasCore);
}

function clocksOf({ clock, model, profile, hardener, practice }: PlanContext) {
  const springing = putOff(model, { debag: practice('core-springs-factor') });
  return {
    plain: clock,
    springing: cureClock(springing, profile, { minimumC: hardener.minimumC }),
  };
}

function batchesOf(
  context: PlanContext,
  layup: Layup,
  cup: Pick<BatchNeed, 'potLifeMinutesAt' | 'peakCAt'>,
): Batch[] {
  const { hardener, practice, build } = context;
  return settleBatches({
    mixedG: layup.mixedG,
    wetMinutes: crewMinutes(layup.personMinutes, handsOn(context, layup), context.library),
    hardener,
    ...cup,
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
  const together = layups.reduce((sum, layup) => sum + wetMinutes[layup.id]!, 0);
  return Math.ceil(crewMinutes(together, people, context.library));
};

/** Days of starts that are tried to see whether anybody can be there at the gel. */
const INTERVALS_TRIED = 20;
const TRY_EVERY_MINUTES = 30;

/** True when some start within the shop's hours puts the gel of the bag within them too. */
function gelCanBeSeen(
  context: PlanContext,
  settled: Pick<SettledCure, 'cure' | 'clock' | 'wetMinutes'>,
): boolean {
  const stretches = stretchesOf(settled.cure).map((layups) =>
    wetMinutesOf(context, layups, settled.wetMinutes),
  );
  const ahead = context.shopHours.filter((hours) => hours.end > context.from);
  return ahead.slice(0, INTERVALS_TRIED).some((hours) => {
    for (let start = hours.start; start < hours.end; start += TRY_EVERY_MINUTES) {
      if (somebodyThere(context, bagGel(context, settled.clock, stretches, start))) return true;
    }
    return false;
  });
}

/**
 * Gel of the bag when the first stretch starts at `start`, each next one once the one before has
 * gelled; null when a stretch, or the watched hour after the last, does not fit the shop's hours.
 */
function bagGel(
  context: PlanContext,
  clock: CureClock,
  stretches: readonly number[],
  start: Minute,
): Minute | null {
  let from = start;
  for (const [i, minutes] of stretches.entries()) {
    const watch = i === stretches.length - 1 ? context.practice('watch-minutes') : 0;
    const hours = containingInterval(context.shopHours, from);
    const gel = clock.reached(from, 'gel');
    if (!hours || gel === null || from + minutes + watch > hours.end) return null;
    if (i === stretches.length - 1) return gel;
    from = Math.max(from + minutes, gel);
  }
  return null;
}

/** True when the shop is manned at that minute, with time for a look. */
export function somebodyThere(context: PlanContext, minute: Minute | null): boolean {
  if (minute === null) return false;
  const hours = containingInterval(context.shopHours, minute);
  return hours !== null && hours.end - minute >= context.practice('gel-look-minutes');
}
