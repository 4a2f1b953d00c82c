/** A gel in an empty shop: when not to mix, and the nearest start that somebody would see gel. */
import { begunStages } from '../document/records.ts';
import { layupStageId } from '../document/ids.ts';
import type { Finding } from '../document/schema.ts';
import { finding } from '../messages/findings.ts';
import type { PlanContext } from '../plan/context.ts';
import type { CureTimes } from '../plan/cureTimes.ts';
import type { UnattendedGel } from '../plan/gelWatch.ts';

/**
 * The plan keeps gels within the hours where any start can. A finding is therefore about a start that was
 * pinned where it cannot, a start that is recorded, or hours in which no start would do.
 */
export function gelAlone(
  { build }: PlanContext,
  unseen: UnattendedGel | null,
  { cure }: CureTimes,
): Finding[] {
  if (unseen === null) return [];
  const { name, layups, joints } = cure.cure;
  const { mixed, gel, latest, seen } = unseen;
  const stage = layupStageId('layup', layups[0]!.id);
  const begun = begunStages(build).has(stage);
  const advice = begun
    ? ({ way: 'begun' } as const)
    : joints.includes('tack')
      ? ({ way: 'tack' } as const)
      : seen === null
        ? ({ way: 'watch' } as const)
        : ({ way: 'start', ...seen } as const);
  const args = { cure: name, mixed, gel, latest, advice, zone: build.zone };
  return [finding('gel-unattended', args, { stage })];
}
