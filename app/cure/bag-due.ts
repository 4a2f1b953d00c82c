/** When the bag of what is first mixed at a minute has to be down. */
import type { Minute } from '../time/instant.ts';
import type { PracticeLookup } from './practice.ts';
import type { CureClock, TemperatureProfile } from './types.ts';

/** A nondecreasing moment of a first mix, with both inverses. */
export interface BagDue {
  /**
   * The bag under its vacuum at the latest, for what is first mixed at `mixed`: within a share of the open time of the
   * first ply, and well before it gels; at `mixed` where that leaves no time. null: the film's open time
   * is not known.
   */
  readonly apply: (mixed: Minute) => Minute | null;
  /** Latest first mix whose bag is due by then. */
  readonly latest: (due: Minute) => Minute | null;
  /** Earliest first mix whose bag is due no sooner than then. */
  readonly earliest: (due: Minute) => Minute | null;
  /** No sooner first mix than this, at or after `from`, leaves so many minutes; it may well leave less. */
  readonly notBefore: (from: Minute, minutes: number) => Minute;
}

/** @param early the cure's clock on its early side */
export function bagDueOf(early: CureClock, practice: PracticeLookup): BagDue {
  const share = practice('full-vacuum-fraction');
  const beforeGel = practice('before-gel-minutes');
  const apply = (mixed: Minute): Minute | null => {
    const open = early.reached(mixed, 'open');
    if (open === null) return null;
    const byOpen = mixed + Math.floor((open - mixed) * share);
    const gel = early.reached(mixed, 'gel');
    if (gel === null) return byOpen;
    return Math.max(mixed, Math.min(byOpen, gel - beforeGel));
  };
  /** No bag is due before its own first mix, nor after its open time: between these it is looked for. */
  const earliest = (due: Minute): Minute => {
    let high = due;
    let low = (early.earliestStart(due, 'open') ?? due) - 1;
    while (high - low > 1) {
      const middle = Math.floor((low + high) / 2);
      const own = apply(middle);
      if (own === null || own >= due) high = middle;
      else low = middle;
    }
    return high;
  };
  const notBefore = (from: Minute, minutes: number): Minute => {
    const open = early.earliestStart(from + Math.ceil(minutes / share), 'open') ?? from;
    const gel = early.earliestStart(from + minutes + beforeGel, 'gel') ?? from;
    return Math.max(open, gel);
  };
  return { apply, latest: (due) => earliest(due + 1) - 1, earliest, notBefore };
}

/** Minutes from first mix to the due bag in a room: no fewer and no more than these, at whatever minute. */
export interface BagDueRange {
  readonly least: number;
  readonly most: number;
  /** Minutes after a first mix whose temperatures have a say in that: to open time and gel of the room. */
  readonly follows: number;
  /** What the film goes through, C. */
  readonly room: TemperatureProfile;
}

/**
 * At the warmest of a room a film is due soonest, at the coldest latest.
 * @param at the early clock at one temperature throughout, C, from minute 0
 */
export function bagDueRange(
  room: TemperatureProfile,
  at: (temperatureC: number) => CureClock,
  practice: PracticeLookup,
): BagDueRange {
  const temperatures = room.map(({ temperatureC }) => temperatureC);
  const [minC, maxC] = [Math.min(...temperatures), Math.max(...temperatures)];
  const coldest = at(minC);
  return {
    room,
    least: bagDueOf(at(maxC), practice).apply(0) ?? 0,
    most: bagDueOf(coldest, practice).apply(0) ?? Infinity,
    follows: Math.max(
      coldest.reached(0, 'open') ?? Infinity,
      coldest.reached(0, 'gel') ?? Infinity,
    ),
  };
}
