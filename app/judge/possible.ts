/** Why a route cannot be done at all, whatever the date. */
import type { Finding } from '../build/schema.ts';
import { capital, dayAndTime, elapsed, listed } from '../messages/words.ts';
import type { PlanContext } from '../plan/context.ts';
import { wetMinutesOf, type SettledCure } from '../plan/cures.ts';
import type { RouteDraft } from '../plan/routePlan.ts';
import type { Layup } from '../part/types.ts';
import type { Interval, Minute } from '../time/instant.ts';
import { gives } from './consequences.ts';
import { finding } from './finding.ts';

type Stretches = RouteDraft['stretches'][number];

/** Reasons against the route; empty when it can be done. */
export function whyImpossible(context: PlanContext, draft: RouteDraft): Finding[] {
  return [
    ...finishReason(context, draft),
    ...draft.cures.flatMap((cure, i) => {
      const stretches = draft.stretches[i]!;
      return [...openTime(context, cure, stretches), ...tackWindow(context, cure, stretches)];
    }),
  ];
}

function finishReason({ build }: PlanContext, { cures, consequences }: RouteDraft): Finding[] {
  const wanted = build.part.finish;
  if (gives(consequences.finish, wanted)) return [];
  const merged = cures.find((settled) => settled.cure.joints.length > 0);
  const message =
    `A ${wanted} finish shows the fibre, and fibre cured wet under core moves: ` +
    `${merged?.cure.name.toLowerCase() ?? 'this route'} can only be promised ${consequences.finish}.`;
  return [
    finding('finish-not-reachable', 'stop', message, { numbers: { best: consequences.finish } }),
  ];
}

/** The wet work of every bag must be over while its oldest resin still flows. */
function openTime(context: PlanContext, settled: SettledCure, stretches: Stretches): Finding[] {
  const start = context.shopHours.find((hours) => hours.end > context.from)?.start;
  if (start === undefined) return [];
  const open = settled.clock.reached(start, 'open');
  if (open === null) return [];
  const fraction = context.practice('full-vacuum-fraction');
  const allowed = Math.floor((open - start) * fraction);
  return stretches.flatMap((layups) => {
    const needed = wetMinutesOf(context, layups, settled.wetMinutes);
    if (needed <= allowed) return [];
    const message =
      `${capital(layupNames(layups))}: ${elapsed(needed)} from first mix to sealed bag, but the ` +
      `first ply is open ${elapsed(open - start)}, so full vacuum is wanted after ` +
      `${elapsed(allowed)}.`;
    const numbers = {
      wetMinutes: needed,
      openMinutes: open - start,
      fullVacuumMinutes: allowed,
    };
    return [
      finding('open-time-short', 'stop', message, { stage: `layup:${layups[0]!.id}`, numbers }),
    ];
  });
}

const layupNames = (layups: readonly Layup[]): string =>
  layups.map((layup) => layup.name.toLowerCase()).join(' + ');

/** Working days of starts tried for a next layup that must meet the tack of the last. */
const DAYS_TRIED = 10;
const TRY_EVERY_MINUTES = 15;

/** A layup laid on tack begins between gel and tack-free of the one below, in the shop's hours. */
function tackWindow(context: PlanContext, settled: SettledCure, stretches: Stretches): Finding[] {
  const ahead = context.shopHours
    .filter((hours) => hours.end > context.from)
    .slice(0, DAYS_TRIED * 2);
  const watch = context.practice('watch-minutes');
  const watchedAfter = (i: number) => (i + 2 === stretches.length ? watch : 0);
  return stretches.slice(1).flatMap((next, i) => {
    const before = stretches[i]!;
    const pair = {
      clock: settled.clock,
      wetMinutes: wetMinutesOf(context, before, settled.wetMinutes),
      nextMinutes: wetMinutesOf(context, next, settled.wetMinutes) + watchedAfter(i),
    };
    if (ahead.length === 0 || somebodyMeets(pair, ahead)) return [];
    const start = ahead.find((hours) => hours.end - hours.start >= pair.wetMinutes)?.start;
    const message = `${capital(layupNames(next))} on the tacky ${layupNames(before)}: ${tackWords(
      context,
      pair,
      start ?? null,
    )}`;
    return [finding('tack-out-of-hours', 'stop', message, { stage: `layup:${next[0]!.id}` })];
  });
}

interface TackPair {
  readonly clock: SettledCure['clock'];
  readonly wetMinutes: number;
  readonly nextMinutes: number;
}

function somebodyMeets(pair: TackPair, ahead: readonly Interval[]): boolean {
  for (const hours of ahead) {
    const latest = hours.end - pair.wetMinutes;
    for (let start = hours.start; start <= latest; start += TRY_EVERY_MINUTES) {
      const gel = pair.clock.reached(start, 'gel');
      const tackFree = pair.clock.reached(start, 'tackFree');
      if (gel === null || tackFree === null) return false;
      const from = Math.max(gel, start + pair.wetMinutes);
      if (fitsWithin(from, tackFree, pair.nextMinutes, ahead)) return true;
    }
  }
  return false;
}

/** True when unbroken work can begin within [from, until] in one stretch of the shop's hours. */
const fitsWithin = (
  from: Minute,
  until: Minute,
  minutes: number,
  ahead: readonly Interval[],
): boolean =>
  ahead.some((hours) => {
    const start = Math.max(from, hours.start);
    return start <= until && start + minutes <= hours.end;
  });

function tackWords(context: PlanContext, pair: TackPair, start: Minute | null): string {
  const none = 'no start in the shop’s hours lets somebody lay it between gel and tack-free.';
  if (start === null) return none;
  const times = [pair.clock.reached(start, 'gel'), pair.clock.reached(start, 'tackFree')];
  if (times[0] == null || times[1] == null) return none;
  const { zone } = context.build;
  const [gel, free] = [dayAndTime(times[0], zone), dayAndTime(times[1], zone)];
  const at = listed([`gels ${gel}`, `is tack-free ${free}`]);
  return `mixed ${dayAndTime(start, zone)} it ${at}; ${none}`;
}
