/** The moments of one cure by its clock: some count from first contact, the others from the sealed bag. */
import type { Milestone } from '../document/schema.ts';
import type { Minute } from '../time/instant.ts';
import type { CureClock } from './types.ts';

export type CureMoments = Readonly<Record<Milestone, Minute | null>>;

/** Milestones of the early side: those that do harm when they come early. */
const EARLY: ReadonlySet<Milestone> = new Set(['open', 'gel', 'bondUntil']);

/** True for what counts from the sealed bag; open time and gel count from first contact. */
export const countsFromSealed = (milestone: Milestone): boolean =>
  milestone !== 'open' && milestone !== 'gel';

/**
 * @param clock late side: what is waited for
 * @param mixed first contact of the oldest resin under the bag; null: not placed
 * @param sealed when the bag is closed; null: not placed
 * @param early early side, for open time, earliest gel and bond window; as `clock` when absent
 * @returns null for what is not reached within the clock's profile
 */
export function cureMoments(
  clock: Pick<CureClock, 'reached'>,
  mixed: Minute | null,
  sealed: Minute | null,
  early: Pick<CureClock, 'reached'> = clock,
): CureMoments {
  const at = (milestone: Milestone): Minute | null => {
    const start = countsFromSealed(milestone) ? sealed : mixed;
    const own = EARLY.has(milestone) ? early : clock;
    return start === null ? null : own.reached(start, milestone);
  };
  const [open, gel] = [at('open'), at('gel')];
  return {
    // Heat under the bag may gel what would have stayed open longer in the room.
    open: open === null || gel === null ? open : Math.min(open, gel),
    gel,
    tackFree: at('tackFree'),
    debag: at('debag'),
    demould: at('demould'),
    sand: at('sand'),
    bondUntil: at('bondUntil'),
    full: at('full'),
  };
}
