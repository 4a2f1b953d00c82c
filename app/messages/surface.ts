/** Words about a cured surface that is made ready for the next layup. */
import type { Minute } from '../time/instant.ts';
import { clockTime } from '../time/words.ts';
import { minuteToLocal } from '../time/zone.ts';
import { elapsed } from './words.ts';
import { exact } from '../units/words.ts';

/** A surface that a plan lets go stale. */
export interface LapsedSurface {
  readonly layup: string;
  readonly withinHours: number;
  /** Fewest minutes of stripping, where no day of the shop holds them. */
  readonly stripMinutes: number | null;
  /** It goes on bare core: there is no peel ply to strip. */
  readonly onBareCore: boolean;
  /** Made ready first thing on the day of the bond: the first mix after it, and the last whose gel is seen. */
  readonly morning: { readonly mixFrom: Minute; readonly seenUntil: Minute } | null;
  readonly zone: string;
}

/** Why the surface is abraded, and what would do without. */
export function lapsedWords(a: LapsedSurface): string {
  if (a.morning) return `${a.layup}: ${gelWouldBeAlone(a, a.morning)}`;
  if (a.onBareCore) {
    return (
      `${a.layup}: the plan cannot vacuum the bare core and lay on it on one day, so the core is vacuumed ` +
      'again and its overlaps are abraded and wiped again.'
    );
  }
  return a.stripMinutes === null
    ? `${a.layup}: the plan cannot strip and bond on one day, within the ${exact(a.withinHours)} h that a ` +
        'stripped surface keeps, so it is abraded, washed and wiped again.'
    : `${a.layup}: stripping takes ${elapsed(a.stripMinutes)}, more than a working day, and peel ply ` +
        'is stripped on the day of the bond. So the surface is abraded, washed and wiped again. More ' +
        'hands, or zones that are stripped and bonded each on its own day, would avoid that.';
}

function gelWouldBeAlone(
  { onBareCore, zone }: LapsedSurface,
  { mixFrom, seenUntil }: NonNullable<LapsedSurface['morning']>,
): string {
  const [done, instead] = onBareCore
    ? [
        'the bare core vacuumed',
        'the core is vacuumed the day before, and its overlaps are abraded and wiped',
      ]
    : [
        'the peel ply stripped',
        'it is stripped the day before, and the surface is abraded, washed and wiped',
      ];
  const at = (minute: Minute) => clockTime(minuteToLocal(minute, zone).time);
  return (
    `with ${done} first thing on the day of the bond, the first mix would be at ${at(mixFrom)}, and after ` +
    `${at(seenUntil)} nobody would be there for its gel. So ${instead}. Somebody who stays for the ` +
    `gel, about ${elapsed(mixFrom - seenUntil)} longer, makes it one stretch again.`
  );
}
