/** A gel in an empty shop: when not to mix, and the nearest start that somebody would see gel. */
import { layupStageId } from '../document/ids.ts';
import type { Finding } from '../document/schema.ts';
import { dayAndTime, elapsed } from '../messages/words.ts';
import type { PlanContext } from '../plan/context.ts';
import type { CureTimes } from '../plan/cureTimes.ts';
import type { SeenStart, UnseenGel } from '../plan/gelWatch.ts';
import { finding } from './finding.ts';

/**
 * The plan itself keeps gels within the hours where any start can; so what is told is a start that was
 * pinned where it cannot, one that has happened, or hours in which no start would do.
 */
export function gelAlone(
  { build }: PlanContext,
  unseen: UnseenGel | null,
  { cure }: CureTimes,
): Finding[] {
  if (unseen === null) return [];
  const { zone } = build;
  const { name, layups, joints } = cure.cure;
  const { mixed, gel, seen } = unseen;
  const stage = layupStageId('layup', layups[0]!.id);
  const falls = `gel falls ${dayAndTime(gel, zone)} with nobody there.`;
  const begun = build.records.some((record) => record.stage === stage);
  const message = begun
    ? `${name}: mixed ${dayAndTime(mixed, zone)}, ${falls} Somebody comes in, or an alarm is set.`
    : `${name}: do not mix ${dayAndTime(mixed, zone)}: ${falls} ` +
      (joints.includes('tack')
        ? 'The tack of the layup below decides when: post a watch or an alarm.'
        : adviceOn(seen, zone));
  return [finding('gel-unattended', 'warn', message, { stage })];
}

function adviceOn(seen: SeenStart | null, zone: string): string {
  if (seen === null) {
    return 'No start in the shop’s hours puts it when somebody is there: post a watch or an alarm.';
  }
  const when = dayAndTime(seen.start, zone);
  return seen.laterMinutes <= 0
    ? `${when} costs no float.`
    : `${when} would be seen; its bag comes off ${elapsed(seen.laterMinutes)} later.`;
}
