/** Why a route cannot be done at all, whatever the date. */
import type { Finding } from '../build/schema.ts';
import { capital, dayAndTime, elapsed, listed } from '../messages/words.ts';
import type { PlanContext } from '../plan/context.ts';
import { wetMinutesOf, type SettledCure } from '../plan/cures.ts';
import { bagByOf } from '../plan/cureTimes.ts';
import type { RouteDraft } from '../plan/routePlan.ts';
import { wantedFinish } from '../build/finish.ts';
import type { Layup } from '../part/types.ts';
import type { Interval, Minute } from '../time/instant.ts';
import { gives } from './consequences.ts';
import { finding } from './finding.ts';

type Stretches = RouteDraft['stretches'][number];

/** Reasons against the route; empty when it can be done. */
export function whyImpossible(context: PlanContext, draft: RouteDraft): Finding[] {
  return [
    ...begunReason(draft),
    ...finishReason(context, draft),
    ...draft.cures.flatMap((cure, i) => {
      const stretches = draft.stretches[i]!;
      return [...openTime(context, cure, stretches), ...tackWindow(context, cure, stretches)];
    }),
  ];
}

/** History stands: what was laid apart cannot be merged, nor what was merged parted. */
function begunReason({ contradiction, route }: RouteDraft): Finding[] {
  if (!contradiction) return [];
  const nameOf = (id: string) =>
    route.cures.flatMap((cure) => cure.layups).find((layup) => layup.id === id)?.name ?? id;
  const [before, after] = [nameOf(contradiction.before), nameOf(contradiction.after)];
  const message = contradiction.apart
    ? `${capital(after.toLowerCase())} and ${before.toLowerCase()} have already been laid apart.`
    : `${capital(after.toLowerCase())} has already been laid with the ${before.toLowerCase()} still wet.`;
  return [
    finding('route-begun-otherwise', 'stop', message, {
      numbers: { before: contradiction.before, after: contradiction.after },
    }),
  ];
}

function finishReason({ build }: PlanContext, { cures, consequences }: RouteDraft): Finding[] {
  const wanted = wantedFinish(build);
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
  const allowed = Math.max(0, bagByOf(context, settled, start)! - start);
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
const DAYS_TRIED = 7;
const TRY_EVERY_MINUTES = 20;

/** Every layup laid on tack begins between gel and tack-free of the one below, in the shop's hours. */
function tackWindow(context: PlanContext, settled: SettledCure, stretches: Stretches): Finding[] {
  if (stretches.length < 2) return [];
  const watch = context.practice('watch-minutes');
  const minutes = stretches.map((layups, i) => {
    const wet = wetMinutesOf(context, layups, settled.wetMinutes);
    return i === stretches.length - 1 ? wet + watch : wet;
  });
  const ahead = context.shopHours.filter((hours) => hours.end > context.from);
  const chain: TackChain = { clock: settled.laid, minutes, ahead: ahead.slice(0, DAYS_TRIED * 2) };
  if (chain.ahead.length === 0) return [];
  const fails = stretches.findIndex((_layups, i) => i > 0 && !somebodyMeets(chain, i));
  if (fails < 0) return [];
  const [before, next] = [stretches[fails - 1]!, stretches[fails]!];
  const message = `${capital(layupNames(next))} on the tacky ${layupNames(before)}: ${tackWords(
    context,
    chain,
    fails,
  )}`;
  return [finding('tack-out-of-hours', 'stop', message, { stage: `layup:${next[0]!.id}` })];
}

interface TackChain {
  /** Of the film in the room: no bag is over it yet. */
  readonly clock: SettledCure['laid'];
  /** Unbroken minutes of each stretch. */
  readonly minutes: readonly number[];
  readonly ahead: readonly Interval[];
}

/** True when some start of the first stretch lets all up to `last` be laid on tack. */
function somebodyMeets(chain: TackChain, last: number): boolean {
  return chain.ahead.some((hours) => {
    const latest = hours.end - chain.minutes[0]!;
    for (let start = hours.start; start <= latest; start += TRY_EVERY_MINUTES) {
      if (goesOn(chain, 0, start, last)) return true;
    }
    return false;
  });
}

/** True when the stretches after `at`, begun at `start`, can follow one on the tack of the other. */
function goesOn(chain: TackChain, at: number, start: Minute, last: number): boolean {
  if (at === last) return true;
  const gel = chain.clock.reached(start, 'gel');
  const tackFree = chain.clock.reached(start, 'tackFree');
  if (gel === null || tackFree === null) return false;
  const from = Math.max(gel, start + chain.minutes[at]!);
  for (const hours of chain.ahead) {
    if (hours.start > tackFree) break;
    const earliest = Math.max(from, hours.start);
    const latest = Math.min(tackFree, hours.end - chain.minutes[at + 1]!);
    if (latest < earliest) continue;
    const middle = Math.floor((earliest + latest) / 2);
    if ([earliest, middle, latest].some((next) => goesOn(chain, at + 1, next, last))) return true;
  }
  return false;
}

function tackWords(context: PlanContext, chain: TackChain, fails: number): string {
  const none = 'no start in the shop’s hours lets somebody lay it between gel and tack-free.';
  if (fails > 1) return `after the layups before it, ${none}`;
  const [minutes] = chain.minutes;
  const start = chain.ahead.find((hours) => hours.end - hours.start >= minutes!)?.start;
  if (start === undefined) return none;
  const [gel, free] = [chain.clock.reached(start, 'gel'), chain.clock.reached(start, 'tackFree')];
  if (gel === null || free === null) return none;
  const { zone } = context.build;
  const at = listed([`gels ${dayAndTime(gel, zone)}`, `is tack-free ${dayAndTime(free, zone)}`]);
  return `mixed ${dayAndTime(start, zone)} it ${at}; ${none}`;
}
