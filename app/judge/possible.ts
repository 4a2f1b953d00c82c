/** Why a route cannot be done at all, whatever the date. */
import { layupStageId } from '../document/ids.ts';
import type { Finding } from '../document/schema.ts';
import { finding } from '../messages/findings.ts';
import type { PlanContext } from '../plan/context.ts';
import type { RouteDraft } from '../plan/routePlan.ts';
import type { OpenTimeShort, TackMissed, WetFaults } from '../plan/wetWindows.ts';
import { finishReaches, wantedFinish } from '../document/finish.ts';
import type { Layup } from '../part/types.ts';

/** Reasons against the route; empty when it can be done. `wet`: of its cures, in their order. */
export function whyImpossible(
  context: PlanContext,
  draft: RouteDraft,
  wet: readonly WetFaults[],
): Finding[] {
  return [
    ...begunReason(draft),
    ...finishReason(context, draft),
    ...stallReasons(draft),
    ...wet.flatMap(({ openTimeShort, tackMissed }) => [
      ...openTimeShort.map((short) => openTimeFinding(context, short)),
      ...tackMissed.map((miss) => tackFinding(context, miss)),
    ]),
  ];
}

/** What the records forbid: layups laid apart cannot be merged, and merged ones cannot be parted. */
function begunReason({ contradiction, route }: RouteDraft): Finding[] {
  if (!contradiction) return [];
  const nameOf = (id: string) =>
    route.cures.flatMap((cure) => cure.layups).find((layup) => layup.id === id)?.name ?? id;
  const { before: beforeId, after: afterId, apart } = contradiction;
  const names = { before: nameOf(beforeId), after: nameOf(afterId) };
  return [finding('route-begun-otherwise', { ...names, beforeId, afterId, apart })];
}

function finishReason({ build }: PlanContext, { cures, consequences }: RouteDraft): Finding[] {
  const wanted = wantedFinish(build);
  if (finishReaches(consequences.finish, wanted)) return [];
  const merged = cures.find((settled) => settled.cure.joints.length > 0);
  const args = { wanted, best: consequences.finish, cure: merged?.cure.name ?? null };
  return [finding('finish-not-reachable', args)];
}

/** Cures that the room never brings to an end: their dates are conditional on a warmer one. */
const stallReasons = ({ cures }: RouteDraft): Finding[] =>
  cures.flatMap(({ cure, asIfHeldC }) => {
    if (asIfHeldC === null) return [];
    const args = { why: 'dated-as-if', cure: cure.name, heldC: asIfHeldC } as const;
    const stage = layupStageId('cure', cure.layups[0]!.id);
    return [finding('cure-stalls', args, { severity: 'stop', stage })];
  });

function openTimeFinding({ build }: PlanContext, short: OpenTimeShort): Finding {
  const { layups, ...figures } = short;
  const args = { layups: namesOf(layups), ...figures, currency: build.currency };
  return finding('open-time-short', args, { stage: layupStageId('layup', layups[0]!.id) });
}

const namesOf = (layups: readonly Layup[]): string[] => layups.map((layup) => layup.name);

function tackFinding({ build: { zone } }: PlanContext, miss: TackMissed): Finding {
  const { before, next, isSecond, example } = miss;
  const names = { before: namesOf(before), next: namesOf(next) };
  const stage = layupStageId('layup', next[0]!.id);
  return finding('tack-out-of-hours', { ...names, isSecond, example, zone }, { stage });
}
