/** The curve of a placed cure for the chart: temperature and progress, sampled through it. */
import { temperatureAt } from '../cure/profile.ts';
import type { CureCurve } from './outcome.ts';
import type { CureTimes } from './cureTimes.ts';

const SAMPLE_MINUTES = 30;
/** Longest stretch that is drawn; a stalled cure would otherwise run to the horizon. */
const LONGEST_MINUTES = 5 * 1440;

/**
 * Temperature, C, and progress, 0 to 1, of a placed cure, sampled through it. Null while it is not
 * placed, or where its sheet gives no time to demould.
 */
export function curveOf(times: CureTimes): CureCurve | null {
  const { bagMix, sealed, demouldFrom, cure } = times;
  const whole = cure.model.doseHours.demould;
  if (bagMix === null || sealed === null || whole === null) return null;
  const profile = cure.profileAt(sealed);
  const clock = cure.clockAt(sealed);
  const end = Math.min(demouldFrom ?? Infinity, bagMix + LONGEST_MINUTES);
  const points: CureCurve['points'][number][] = [];
  for (let minute = bagMix; ; minute = Math.min(end, minute + SAMPLE_MINUTES)) {
    points.push({
      minute,
      temperatureC: temperatureAt(profile, minute) ?? 0,
      progress: Math.min(1, clock.doseHours(bagMix, minute) / whole),
    });
    if (minute >= end) break;
  }
  return { cure: cure.cure.id, points };
}
