/** Starts on days with the same temperatures hold the same minutes: they are worked out once for each kind of day. */
import type { BagDueRange } from '../../cure/bag-due.ts';
import { segmentIndexAt } from '../../cure/profile.ts';
import type { TemperatureProfile } from '../../cure/types.ts';
import type { Calendar, Minute } from '../../time/instant.ts';

/**
 * Starts that are worked out once for each kind of day: where the film goes through the same temperatures at
 * the same minutes after the interval begins, the same minutes hold.
 */
export function byLikeDays(
  starts: Calendar,
  { room, follows }: BagDueRange,
  holding: (some: Calendar) => Calendar,
): Calendar {
  const known = new Map<string, Calendar>();
  const last = room.at(-1)!.end;
  return starts.flatMap((interval) => {
    const { start, end } = interval;
    const until = Math.ceil(end + follows);
    if (!(until < last)) return holding([interval]);
    const kind = courseOf(room, start, end, until);
    const own = known.get(kind);
    if (own) return own.map((one) => ({ start: one.start + start, end: one.end + start }));
    const held = holding([interval]);
    known.set(
      kind,
      held.map((one) => ({ start: one.start - start, end: one.end - start })),
    );
    return held;
  });
}

const courses = new WeakMap<TemperatureProfile, Map<string, string>>();

/** Temperatures from `start` to `until` by minutes after `start`, as a key. */
function courseOf(room: TemperatureProfile, start: Minute, end: Minute, until: Minute): string {
  const ofRoom = courses.get(room) ?? new Map<string, string>();
  courses.set(room, ofRoom);
  const place = `${start} ${until}`;
  const known = ofRoom.get(place);
  if (known !== undefined) return `${end - start} ${known}`;
  let i = Math.max(0, segmentIndexAt(room, start));
  let course = '';
  for (; i < room.length && room[i]!.start < until; i++) {
    const segment = room[i]!;
    course += ` ${Math.max(0, segment.start - start)} ${segment.temperatureC}`;
  }
  ofRoom.set(place, course);
  return `${end - start} ${course}`;
}
