/** Wet work that does not fit the resin: open time too short, tack that falls outside the shop's hours. */
import type { Layup } from '../part/types.ts';
import type { Interval, Minute } from '../time/instant.ts';
import type { PlanContext } from './context.ts';
import { wetMinutesOf, type SettledCure } from './cures.ts';
import { bagByOf } from './cureTimes.ts';
import type { RouteDraft } from './routePlan.ts';

type Stretch = readonly Layup[];

/** A stretch that takes longer than its first ply leaves for it. */
export interface OpenTimeShort {
  readonly layups: Stretch;
  /** From first mix to sealed bag. */
  readonly wetMinutes: number;
  readonly openMinutes: number;
  /** From first mix to the moment at which full vacuum is wanted. */
  readonly fullVacuumMinutes: number;
}

/** A stretch that nobody can lay between gel and tack-free of the one below. */
export interface TackMissed {
  readonly before: Stretch;
  readonly next: Stretch;
  /** True when the stretch below is the first of its cure. */
  readonly isSecond: boolean;
  /** What a first mix in the first hours that hold the stretch below would give; null: no such hours. */
  readonly example: {
    readonly mixed: Minute;
    readonly gel: Minute;
    readonly tackFree: Minute;
  } | null;
}

export interface WetFaults {
  readonly openTimeShort: readonly OpenTimeShort[];
  readonly tackMissed: readonly TackMissed[];
}

/** What of a route's wet work does not fit the resin and the shop's hours, cure by cure. */
export function wetFaultsOf(
  context: PlanContext,
  { cures, stretches }: Pick<RouteDraft, 'cures' | 'stretches'>,
): WetFaults[] {
  return cures.map((settled, i) => ({
    openTimeShort: openTimeShort(context, settled, stretches[i]!),
    tackMissed: tackMissed(context, settled, stretches[i]!),
  }));
}

/** The wet work of every bag must be over while its oldest resin still flows. */
function openTimeShort(
  context: PlanContext,
  settled: SettledCure,
  stretches: readonly Stretch[],
): OpenTimeShort[] {
  const start = context.shopHours.find((hours) => hours.end > context.from)?.start;
  if (start === undefined) return [];
  const open = settled.early.reached(start, 'open');
  if (open === null) return [];
  const fullVacuumMinutes = Math.max(0, bagByOf(context, settled, start)! - start);
  return stretches.flatMap((layups) => {
    const wetMinutes = wetMinutesOf(context, layups, settled.wetMinutes);
    if (wetMinutes <= fullVacuumMinutes) return [];
    return [{ layups, wetMinutes, openMinutes: open - start, fullVacuumMinutes }];
  });
}

/** Working days of starts tried for a next layup that must meet the tack of the last. */
const DAYS_TRIED = 7;
const TRY_EVERY_MINUTES = 20;

/** Every layup laid on tack begins between gel and tack-free of the one below, in the shop's hours. */
function tackMissed(
  context: PlanContext,
  settled: SettledCure,
  stretches: readonly Stretch[],
): TackMissed[] {
  if (stretches.length < 2) return [];
  const watch = context.practice('watch-minutes');
  const minutes = stretches.map((layups, i) => {
    const wet = wetMinutesOf(context, layups, settled.wetMinutes);
    return i === stretches.length - 1 ? wet + watch : wet;
  });
  const ahead = context.shopHours.filter((hours) => hours.end > context.from);
  const chain: TackChain = {
    late: settled.laid,
    early: settled.laidEarly,
    minutes,
    ahead: ahead.slice(0, DAYS_TRIED * 2),
  };
  if (chain.ahead.length === 0) return [];
  const fails = stretches.findIndex((_layups, i) => i > 0 && !canMeetTackWindow(chain, i));
  if (fails < 0) return [];
  const [before, next] = [stretches[fails - 1]!, stretches[fails]!];
  return [{ before, next, isSecond: fails === 1, example: exampleOf(chain) }];
}

function exampleOf({ late, early, minutes, ahead }: TackChain): TackMissed['example'] {
  const mixed = ahead.find((hours) => hours.end - hours.start >= minutes[0]!)?.start;
  if (mixed === undefined) return null;
  const [gel, tackFree] = [late.reached(mixed, 'gel'), early.reached(mixed, 'tackFree')];
  return gel === null || tackFree === null ? null : { mixed, gel, tackFree };
}

interface TackChain {
  /** Of the film in the room, no bag is over it yet: gelled for certain, and still sure to tack. */
  readonly late: SettledCure['laid'];
  readonly early: SettledCure['laidEarly'];
  /** Unbroken minutes of each stretch. */
  readonly minutes: readonly number[];
  readonly ahead: readonly Interval[];
}

/** True when some start of the first stretch lets all up to `last` be laid on tack. */
function canMeetTackWindow(chain: TackChain, last: number): boolean {
  return chain.ahead.some((hours) => {
    const latest = hours.end - chain.minutes[0]!;
    for (let start = hours.start; start <= latest; start += TRY_EVERY_MINUTES) {
      if (canContinue(chain, 0, start, last)) return true;
    }
    return false;
  });
}

/** True when the stretches after `at`, begun at `start`, can follow one on the tack of the other. */
function canContinue(chain: TackChain, at: number, start: Minute, last: number): boolean {
  if (at === last) return true;
  const gel = chain.late.reached(start, 'gel');
  const tackFree = chain.early.reached(start, 'tackFree');
  if (gel === null || tackFree === null) return false;
  const from = Math.max(gel, start + chain.minutes[at]!);
  for (const hours of chain.ahead) {
    if (hours.start > tackFree) break;
    const earliest = Math.max(from, hours.start);
    const latest = Math.min(tackFree, hours.end - chain.minutes[at + 1]!);
    if (latest < earliest) continue;
    const middle = Math.floor((earliest + latest) / 2);
    if ([earliest, middle, latest].some((next) => canContinue(chain, at + 1, next, last)))
      return true;
  }
  return false;
}
