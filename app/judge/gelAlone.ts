/** A gel in an empty shop: when not to mix, and the nearest start that somebody would see gel. */
import type { Finding } from '../build/schema.ts';
import { dayAndTime, elapsed } from '../messages/words.ts';
import type { PlanContext } from '../plan/context.ts';
import type { CureTimes } from '../plan/cureTimes.ts';
import { somebodyThere } from '../plan/cures.ts';
import { containingInterval } from '../time/calendar.ts';
import type { Minute } from '../time/instant.ts';
import { localToMinute } from '../time/zone.ts';
import { finding, stageId } from './finding.ts';

/**
 * The plan itself keeps gels within the hours where any start can; so what is told is a start that was
 * pinned where it cannot, one that has happened, or hours in which no start would do.
 */
export function gelAlone(context: PlanContext, times: CureTimes): Finding[] {
  const { cure, clock } = times.cure;
  const { zone } = context.build;
  const stage = stageId('layup', cure.layups[0]!.id);
  const mixed = unseenStart(context, times, stage);
  if (mixed === null) return [];
  const gel = clock.reached(mixed, 'gel')!;
  const falls = `gel falls ${dayAndTime(gel, zone)} with nobody there.`;
  const begun = context.build.records.some((record) => record.stage === stage);
  const onTack = cure.joints.includes('tack');
  const message = begun
    ? `${cure.name}: mixed ${dayAndTime(mixed, zone)}, ${falls} Somebody comes in, or an alarm is set.`
    : `${cure.name}: do not mix ${dayAndTime(mixed, zone)}: ${falls} ` +
      (onTack
        ? 'The tack of the layup below decides when: post a watch or an alarm.'
        : adviceOn(seenStart(context, times, mixed), zone));
  return [finding('gel-unattended', 'warn', message, { stage })];
}

/** First mix of the bag as pinned, else as planned, when nobody would see it gel. */
function unseenStart(context: PlanContext, times: CureTimes, stage: string): Minute | null {
  const { build } = context;
  const pin = build.pins.findLast((one) => one.stage === stage);
  const pinned = pin ? (localToMinute(pin.start, build.zone)?.minute ?? null) : null;
  const unseen = (start: Minute | null): boolean => {
    const gel = start === null ? null : times.cure.clock.reached(start, 'gel');
    return gel !== null && !somebodyThere(context, gel);
  };
  return [pinned, times.bagMix].find(unseen) ?? null;
}

/** A start whose gel somebody sees, and by how much later its bag comes off. */
interface SeenStart {
  readonly start: Minute;
  readonly laterMinutes: number;
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

const SEARCH_DAYS = 4;
const STEP_MINUTES = 15;

/** The nearest start whose bag comes off no later in working hours, else the nearest that is seen. */
function seenStart(context: PlanContext, times: CureTimes, around: Minute): SeenStart | null {
  const { sealed, bagMix } = times;
  const { clock } = times.cure;
  const wetMinutes = sealed === null || bagMix === null ? 0 : sealed - bagMix;
  const needed = wetMinutes + context.practice('watch-minutes');
  const bagOff = (start: Minute): Minute =>
    firstManned(context, clock.reached(start + wetMinutes, 'debag'));
  let later: SeenStart | null = null;
  for (let away = STEP_MINUTES; away <= SEARCH_DAYS * 1440; away += STEP_MINUTES) {
    for (const start of [around + away, around - away]) {
      const hours = containingInterval(context.shopHours, start);
      if (!hours || start < context.from || start + needed > hours.end) continue;
      if (!somebodyThere(context, clock.reached(start, 'gel'))) continue;
      const laterMinutes = Math.max(0, bagOff(start) - bagOff(around));
      if (laterMinutes === 0) return { start, laterMinutes };
      later ??= { start, laterMinutes };
    }
  }
  return later;
}

/** The minute itself when somebody works then, else the next at which somebody does. */
function firstManned({ shopHours, horizon }: PlanContext, minute: Minute | null): Minute {
  if (minute === null) return horizon;
  const hours = shopHours.find(({ end }) => end > minute);
  return hours ? Math.max(minute, hours.start) : horizon;
}
