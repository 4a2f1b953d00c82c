/** Why a route cannot be done at all, whatever the date. */
import type { Finding } from '../build/schema.ts';
import { elapsed } from '../messages/words.ts';
import type { PlanContext } from '../plan/context.ts';
import { wetMinutesOf, type SettledCure } from '../plan/cures.ts';
import { gives, type RouteDraft } from '../plan/routePlan.ts';
import { stretchesOf } from '../route/routes.ts';
import { finding } from './finding.ts';

/** Reasons against the route; empty when it can be done. */
export function whyImpossible(context: PlanContext, draft: RouteDraft): Finding[] {
  const stretches = draft.cures.flatMap((cure) => openTime(context, cure));
  return [...finishReason(context, draft), ...stretches];
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
function openTime(context: PlanContext, settled: SettledCure): Finding[] {
  const start = context.shopHours.find((hours) => hours.end > context.from)?.start;
  if (start === undefined) return [];
  const open = settled.clock.reached(start, 'open');
  if (open === null) return [];
  const fraction = context.practice('full-vacuum-fraction');
  const allowed = Math.floor((open - start) * fraction);
  return stretchesOf(settled.cure).flatMap((layups) => {
    const needed = wetMinutesOf(context, layups, settled.wetMinutes);
    if (needed <= allowed) return [];
    const names = layups.map((layup) => layup.name.toLowerCase()).join(' + ');
    const message =
      `${capital(names)}: ${elapsed(needed)} from first mix to sealed bag, but the first ply is ` +
      `open ${elapsed(open - start)}, so full vacuum is wanted after ${elapsed(allowed)}.`;
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

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
