/** What should have happened since somebody last looked, to be answered one by one or by the day. */
import type { FloorEntry } from '../../document/edit/records.ts';
import { recordsInForce } from '../../document/records.ts';
import type { FullBuild } from '../../document/schema.ts';
import { localMinuteOf } from '../../plan/records.ts';
import type { PlanOutcome } from '../../plan/outcome.ts';
import type { Minute } from '../../time/instant.ts';
import { isoToMinute, localToMinute } from '../../time/zone.ts';
import { isNeverStamped } from './steps.ts';

/** A stage whose planned hour is past and of which nothing is written down. */
export interface Unanswered {
  readonly stage: string;
  readonly name: string;
  /** Day of its planned start, YYYY-MM-DD. */
  readonly day: string;
  /** As it would be written down if it went as planned; without an end where that is still to come. */
  readonly asPlanned: FloorEntry;
}

/**
 * Stages that should have begun by now and have no record.
 * @param then the build as it was planned when it was last looked at
 * @param build as it is now
 */
export function unansweredSince(
  then: PlanOutcome,
  build: Pick<FullBuild, 'records' | 'zone'>,
  now: Minute,
): Unanswered[] {
  const recorded = recordsInForce(build);
  const { result } = then;
  const joints = result.routes.find(({ id }) => id === result.route.id)?.joints ?? null;
  return result.stages.flatMap(({ id, name, kind, state, start, end, people }): Unanswered[] => {
    if (start === null || end === null || isNeverStamped(kind)) return [];
    const missing = state === undefined || state === 'running';
    const held = recorded.get(id);
    if (!missing || (held && held.end !== null)) return [];
    if (isoToMinute(start)! >= now) return [];
    const isOver = isoToMinute(end)! <= now;
    if (held && !isOver) return [];
    const local = (iso: string): string => localMinuteOf(isoToMinute(iso)!, build.zone);
    const from = held?.start ?? local(start);
    const asPlanned: FloorEntry = {
      ...(held ?? { stage: id, people, joints }),
      start: from,
      end: isOver ? local(end) : null,
    };
    return [{ stage: id, name, day: from.slice(0, 10), asPlanned }];
  });
}

/** The same in days, the first day first. */
export function byDay(all: readonly Unanswered[]): (readonly [string, readonly Unanswered[]])[] {
  const days = [...new Set(all.map(({ day }) => day))].sort();
  return days.map((day) => [day, all.filter((one) => one.day === day)] as const);
}

/**
 * Since when a build has not been looked at, for one that this computer has never had open: its last
 * printing or its last record, whichever came later; null: neither.
 */
export function lastKnownAt({
  printed,
  records,
  zone,
}: Pick<FullBuild, 'printed' | 'records' | 'zone'>): Minute | null {
  const moments = [printed?.at, ...records.flatMap(({ start, end }) => [start, end])].flatMap(
    (local) => (local ? (localToMinute(local, zone)?.minute ?? []) : []),
  );
  return moments.length > 0 ? Math.max(...moments) : null;
}
