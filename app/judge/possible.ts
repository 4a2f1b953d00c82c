/** Why a route cannot be done at all, whatever the date. */
import { layupStageId } from '../document/ids.ts';
import type { Finding } from '../document/schema.ts';
import { capital, dayAndTime, elapsed, listed } from '../messages/words.ts';
import type { PlanContext } from '../plan/context.ts';
import type { RouteDraft } from '../plan/routePlan.ts';
import type { OpenTimeShort, TackMissed, WetFaults } from '../plan/wetWindows.ts';
import { gives, wantedFinish } from '../document/finish.ts';
import type { Layup } from '../part/types.ts';
import { finding } from './finding.ts';

/** Reasons against the route; empty when it can be done. `wet`: of its cures, in their order. */
export function whyImpossible(
  context: PlanContext,
  draft: RouteDraft,
  wet: readonly WetFaults[],
): Finding[] {
  return [
    ...begunReason(draft),
    ...finishReason(context, draft),
    ...wet.flatMap(({ openTimeShort, tackMissed }) => [
      ...openTimeShort.map(openTimeFinding),
      ...tackMissed.map((miss) => tackFinding(context, miss)),
    ]),
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

function openTimeFinding(short: OpenTimeShort): Finding {
  const { layups, wetMinutes, openMinutes, fullVacuumMinutes } = short;
  const message =
    `${capital(layupNames(layups))}: ${elapsed(wetMinutes)} from first mix to sealed bag, but the ` +
    `first ply is open ${elapsed(openMinutes)}, so full vacuum is wanted after ` +
    `${elapsed(fullVacuumMinutes)}.`;
  const numbers = { wetMinutes, openMinutes, fullVacuumMinutes };
  return finding('open-time-short', 'stop', message, {
    stage: layupStageId('layup', layups[0]!.id),
    numbers,
  });
}

const layupNames = (layups: readonly Layup[]): string =>
  layups.map((layup) => layup.name.toLowerCase()).join(' + ');

function tackFinding(context: PlanContext, miss: TackMissed): Finding {
  const { before, next } = miss;
  const message = `${capital(layupNames(next))} on the tacky ${layupNames(before)}: ${tackWords(
    context,
    miss,
  )}`;
  return finding('tack-out-of-hours', 'stop', message, {
    stage: layupStageId('layup', next[0]!.id),
  });
}

function tackWords({ build: { zone } }: PlanContext, { isSecond, example }: TackMissed): string {
  const none = 'no start in the shop’s hours lets somebody lay it between gel and tack-free.';
  if (!isSecond) return `after the layups before it, ${none}`;
  if (example === null) return none;
  const { mixed, gel, tackFree } = example;
  const at = listed([
    `gels ${dayAndTime(gel, zone)}`,
    `is tack-free ${dayAndTime(tackFree, zone)}`,
  ]);
  return `mixed ${dayAndTime(mixed, zone)} it ${at}; ${none}`;
}
