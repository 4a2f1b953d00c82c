/** Wet work that does not fit the resin: open time too short, tack that falls outside the shop's hours. */
import { bagDueOf } from '../cure/bag-due.ts';
import { layupStageId } from '../document/ids.ts';
import { memoByAll } from '../document/memo.ts';
import type { Layup } from '../part/types.ts';
import { stretchesOf } from '../route/routes.ts';
import { crewOf, type Crew } from '../schedule/network/crew.ts';
import { wetStretches } from '../schedule/network/wetStretches.ts';
import {
  arrivals,
  attendance,
  settleMinutesOf,
  type WetHours,
} from '../schedule/network/wetHours.ts';
import { wetStarts, type WetStretch } from '../schedule/network/wetStarts.ts';
import type { Mode } from '../schedule/problem.ts';
import { startsWithin } from '../schedule/starts.ts';
import { containingInterval } from '../time/calendar.ts';
import type { Minute } from '../time/instant.ts';
import type { PlanContext } from './context.ts';
import type { SettledCure } from './cures.ts';
import type { OpenTimeWay } from '../messages/openTime.ts';
import { wayIntoOpenTime } from './inOpenTime.ts';
import { overtimeHours } from './overtime.ts';
import type { RouteDraft, RoutePlan } from './routePlan.ts';

type Stretch = readonly Layup[];

/** A stretch that takes longer than its first ply leaves for it. */
export interface OpenTimeShort {
  readonly layups: Stretch;
  /** From first mix to sealed bag. */
  readonly wetMinutes: number;
  readonly openMinutes: number;
  /** From first mix to the moment at which the bag is due. */
  readonly fullVacuumMinutes: number;
  readonly way: OpenTimeWay | null;
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
  return cures.map((settled, i) =>
    knownFaults([context, settled.inHands], '', () => faultsOf(context, settled, stretches[i]!)),
  );
}

/** Routes that share a cure share what is wrong with it. */
const knownFaults = memoByAll<WetFaults>();

const hoursOf = new WeakMap<PlanContext, WetHours>();

/** The hours that the rules about the start of wet work are asked of. */
export function wetHours(context: PlanContext): WetHours {
  const known = hoursOf.get(context);
  if (known) return known;
  const { library, personHours, from, horizon } = context;
  const personOvertime = overtimeHours(context);
  const hours = { library, personHours, personOvertime, from, horizon };
  hoursOf.set(context, hours);
  return hours;
}

/**
 * True when somebody is there for a first look at a bag that may gel from `gel` on: at that minute, or
 * by the time the next look is due.
 */
export function isGelAttended(context: PlanContext, gel: Minute | null): boolean {
  if (gel === null) return false;
  return containingInterval(attendance(wetHours(context)).gels, gel) !== null;
}

/** By the hands and hours that the plan has as well. */
function faultsOf(
  context: PlanContext,
  settled: SettledCure,
  stretches: readonly Stretch[],
): WetFaults {
  const start = context.shopHours.find(({ end }) => end > context.from)?.start;
  if (start === undefined) return { openTimeShort: [], tackMissed: [] };
  const { modes, laid } = wetStretches(crewFor(context), wetHours(context), settled);
  return {
    openTimeShort: stretches.flatMap((layups, i) => {
      if (!laid[i]!.leftOff.includes('bag-down')) return [];
      const wetMinutes = Math.min(...modes[i]!.map(minutesOf));
      const open = openTimeFrom(context, settled, start);
      const way = wayIntoOpenTime(context, settled, layups, open.fullVacuumMinutes);
      return [{ layups, wetMinutes, ...open, way }];
    }),
    // Fewer layups on tack are no harder to lay: where all of them hold, none of the first ones fails.
    tackMissed: laid.some(missesTack) ? tackMissed(context, settled, stretches, modes) : [],
  };
}

const missesTack = ({ leftOff }: WetStretch): boolean => leftOff.includes('tack-in-hours');

function crewFor(context: PlanContext): Crew {
  const { personHours, personOvertime } = wetHours(context);
  return crewOf(personHours, context.library, personOvertime);
}

const minutesOf = ({ length }: Mode): number => (length.kind === 'work' ? length.minutes : 0);

/** What the film leaves for wet work begun at `mixed`; its open time is known. */
function openTimeFrom(
  context: PlanContext,
  { early }: SettledCure,
  mixed: Minute,
): Pick<OpenTimeShort, 'openMinutes' | 'fullVacuumMinutes'> {
  const due = bagDueOf(early, context.practice).apply(mixed)!;
  return { openMinutes: early.reached(mixed, 'open')! - mixed, fullVacuumMinutes: due - mixed };
}

/** The first layup that cannot begin between gel and tack-free of the one below, in the shop's hours. */
function tackMissed(
  context: PlanContext,
  settled: SettledCure,
  stretches: readonly Stretch[],
  modes: readonly (readonly Mode[])[],
): TackMissed[] {
  const fails = stretches.findIndex((_layups, i) => {
    if (i === 0) return false;
    const laid = wetStarts(wetHours(context), settled, modes.slice(0, i + 1));
    return laid.some(missesTack);
  });
  if (fails < 0) return [];
  const [before, next] = [stretches[fails - 1]!, stretches[fails]!];
  return [{ before, next, isSecond: fails === 1, example: exampleOf(context, settled, modes[0]!) }];
}

/** What a first mix in the first hours that hold the stretch would give. */
function exampleOf(
  { from }: PlanContext,
  { laid, laidEarly }: SettledCure,
  modes: readonly Mode[],
): TackMissed['example'] {
  const starts = modes.flatMap((mode) => {
    const first = startsWithin(mode.calendar!, minutesOf(mode)).find(({ end }) => end > from);
    return first ? [first.start] : [];
  });
  if (starts.length === 0) return null;
  const mixed = Math.min(...starts);
  const [gel, tackFree] = [laid.reached(mixed, 'gel'), laidEarly.reached(mixed, 'tackFree')];
  return gel === null || tackFree === null ? null : { mixed, gel, tackFree };
}

/** Wet work of a plan, not begun yet, that starts against a rule about when. */
export type BrokenStart =
  | {
      readonly rule: 'bag-down';
      readonly layups: Stretch;
      readonly mixed: Minute;
      readonly sealed: Minute;
      readonly due: Minute;
    }
  | {
      readonly rule: 'mix-after-arrival';
      readonly layups: Stretch;
      readonly mixed: Minute;
      readonly pinned: boolean;
      readonly settleMinutes: number;
    };

/** Rules that the plan breaks, in the order of its cures. */
export function brokenStarts(
  context: PlanContext,
  { cures, network, placed }: Pick<RoutePlan, 'cures' | 'network' | 'placed'>,
): BrokenStart[] {
  const { build, library, practice } = context;
  const begun = new Set(build.records.map(({ stage }) => stage));
  const specs = new Map(network.problem.stages.map((spec) => [spec.id, spec]));
  const settleMinutes = settleMinutesOf(library);
  return cures.flatMap(({ cure, early }) =>
    stretchesOf(cure).flatMap((layups): BrokenStart[] => {
      const stage = layupStageId('layup', layups[0]!.id);
      const spot = placed.get(stage);
      if (!spot || begun.has(stage)) return [];
      const { start: mixed, end: sealed } = spot;
      const due = bagDueOf(early, practice).apply(mixed);
      const out: BrokenStart[] = [];
      if (due !== null && sealed > due) {
        out.push({ rule: 'bag-down', layups, mixed, sealed, due });
      }
      const spec = specs.get(stage);
      const calendar = spec?.modes.find(({ id }) => id === spot.mode)?.calendar ?? [];
      if (containingInterval(arrivals(calendar, settleMinutes), mixed)) {
        const pinned = spec?.fixedStart === mixed;
        out.push({ rule: 'mix-after-arrival', layups, mixed, pinned, settleMinutes });
      }
      return out;
    }),
  );
}
