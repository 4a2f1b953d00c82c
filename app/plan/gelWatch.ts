/** A gel in an empty shop, and the nearest start that somebody would see gel. */
import { layupStageId } from '../document/ids.ts';
import { milestoneMap } from '../schedule/network/builder.ts';
import { attendance } from '../schedule/network/wetHours.ts';
import type { Placed } from '../schedule/problem.ts';
import { startsReaching, startsWithin } from '../schedule/starts.ts';
import { intersect } from '../time/calendar.ts';
import { MINUTES_PER_DAY, type Minute } from '../time/instant.ts';
import { localToMinute } from '../time/zone.ts';
import type { PlanContext } from './context.ts';
import type { CureTimes } from './cureTimes.ts';
import type { SettledCure } from './cures.ts';
import { isGelAttended, wetHours } from './wetWindows.ts';

/** A first mix whose gel nobody sees. */
export interface UnattendedGel {
  readonly mixed: Minute;
  /** Its earliest gel. */
  readonly gel: Minute;
  /** Its latest; null where the cold leaves it open. */
  readonly latest: Minute | null;
  /** The nearest start that somebody would see gel; null: none in the days that were looked at. */
  readonly seen: AttendedStart | null;
}

/** A start whose gel somebody sees, and by how much later its bag comes off. */
export interface AttendedStart {
  readonly start: Minute;
  readonly laterMinutes: number;
}

/** First mix of the bag as pinned, else as planned, when nobody would see it gel. */
export function unattendedGel(context: PlanContext, times: CureTimes): UnattendedGel | null {
  const unseen = unseenGel(context, times.cure, times.bagMix);
  if (unseen === null) return null;
  const { mixed } = unseen;
  const latest = times.cure.fromSealed.reached(mixed + wetMinutesOf(times), 'gel');
  return { ...unseen, latest, seen: attendedStart(context, times, mixed) };
}

/** @param bagMix first mix of what goes straight into the bag, as planned */
function unseenGel(
  context: PlanContext,
  { cure, early }: Pick<SettledCure, 'cure' | 'early'>,
  bagMix: Minute | null,
): Pick<UnattendedGel, 'mixed' | 'gel'> | null {
  const { build } = context;
  const stage = layupStageId('layup', cure.layups[0]!.id);
  const pin = build.pins.findLast((one) => one.stage === stage);
  const pinned = pin ? (localToMinute(pin.start, build.zone)?.minute ?? null) : null;
  for (const mixed of [pinned, bagMix]) {
    const gel = mixed === null ? null : early.reached(mixed, 'gel');
    if (mixed !== null && gel !== null && !isGelAttended(context, gel)) return { mixed, gel };
  }
  return null;
}

/** A bag of a plan whose gel nobody sees. */
export interface UnseenGel {
  /** First layup of its bag. */
  readonly layup: string;
  readonly mixed: Minute;
  readonly gel: Minute;
  /** Its latest; null where the cold leaves it open. */
  readonly latest: Minute | null;
}

/** Bags of a plan whose gel nobody sees: as many as there are findings of it. */
export const unseenGels = (
  context: PlanContext,
  cures: readonly SettledCure[],
  placed: ReadonlyMap<string, Placed>,
): UnseenGel[] =>
  cures.flatMap((settled) => {
    const wet = settled.cure.layups.flatMap(
      ({ id }) => placed.get(layupStageId('layup', id)) ?? [],
    );
    const last = wet.at(-1);
    const unseen = unseenGel(context, settled, last?.start ?? null);
    if (unseen === null) return [];
    const sealed = last && last.start === unseen.mixed ? last.end : unseen.mixed;
    const latest = settled.fromSealed.reached(sealed, 'gel');
    return [{ layup: settled.cure.layups[0]!.id, ...unseen, latest }];
  });

/** From the first mix under the bag to its seal, as planned; 0 while it is not. */
const wetMinutesOf = ({ sealed, bagMix }: CureTimes): number =>
  sealed === null || bagMix === null ? 0 : sealed - bagMix;

const SEARCH_DAYS = 4;

/** The nearest start whose bag comes off no later in working hours, else the nearest that is seen. */
function attendedStart(
  context: PlanContext,
  times: CureTimes,
  around: Minute,
): AttendedStart | null {
  const wetMinutes = wetMinutesOf(times);
  const days = SEARCH_DAYS * MINUTES_PER_DAY;
  const first = Math.max(context.from, around - days);
  const watched = startsWithin(context.shopHours, wetMinutes + context.practice('watch-minutes'));
  const seen = startsReaching(
    milestoneMap(times.cure.early, 'gel'),
    attendance(wetHours(context)).gels,
  );
  const starts = intersect(watched, seen);
  const sooner = intersect(starts, [{ start: Math.min(first, around), end: around }]).at(-1);
  const [later] = intersect(starts, [
    { start: Math.max(first, around + 1), end: around + days + 1 },
  ]);
  const bagOff = (start: Minute): Minute =>
    firstManned(context, times.cure.clock.reached(start + wetMinutes, 'debag'));
  // A bag that is down sooner comes off no later.
  const before = sooner ? { start: sooner.end - 1, laterMinutes: 0 } : null;
  if (!later) return before;
  const laterMinutes = Math.max(0, bagOff(later.start) - bagOff(around));
  const after = { start: later.start, laterMinutes };
  if (!before) return after;
  return laterMinutes === 0 && after.start - around <= around - before.start ? after : before;
}

/** The minute itself when somebody works then, else the next at which somebody does. */
function firstManned({ shopHours, horizon }: PlanContext, minute: Minute | null): Minute {
  if (minute === null) return horizon;
  const hours = shopHours.find(({ end }) => end > minute);
  return hours ? Math.max(minute, hours.start) : horizon;
}
