/** The mould warmed under its tent before the first mix. */
import { stageId } from '../../document/ids.ts';
import { STAGE_NAMES } from '../../messages/stages.ts';
import { intersect } from '../../time/calendar.ts';
import { MINUTES_PER_DAY, type Calendar } from '../../time/instant.ts';
import { dayTimeToMinute, localDayNumber } from '../../time/zone.ts';
import type { MonotoneMap } from '../problem.ts';
import { joined, startsReaching } from '../starts.ts';
import type { NetworkBuilder } from './builder.ts';
import { begun, keepTent, tent } from './heat.ts';
import type { WarmUpSetup } from './input.ts';
import { sameDayWithin } from './sameDay.ts';
import { startsOfAny } from './wetStarts.ts';

/**
 * Heat is switched on while somebody is there. What gets warm while nobody is there is kept warm until
 * somebody is, and from then on until the first mix of that day.
 */
export function mouldWarmed(net: NetworkBuilder, released: string | null, layup: string): void {
  const { warmUp } = net.input;
  if (!warmUp) return;
  const ref = { what: 'mould-heat' } as const;
  const up = begun(net, stageId(ref))
    ? null
    : net.labour({
        ref: { what: 'mould-heat-setup' },
        name: STAGE_NAMES.heatSetup('mould'),
        kind: 'heat-setup',
        gear: tent(net),
      });
  const untilStaffed = untilStaffedAfter(warmUp);
  const kept = keptStarts(net, warmUp.starts, untilStaffed, layup);
  net.warmedAgainstRule = kept.length === 0;
  const warmed = net.running(
    { ref, name: STAGE_NAMES.mouldHeat(), kind: 'mould-heat', perishable: true },
    { kind: 'function', endOf: untilStaffed.apply, latestStart: untilStaffed.latest },
    tent(net),
    net.warmedAgainstRule ? warmUp.staffed : kept,
  );
  keepTent(net, [up, warmed]);
  net.after(released, up ?? warmed, 'released-first');
  net.after(up, warmed, 'tent-stands');
  net.after(warmed, layup, 'mould-warm');
  net.within(warmed, layup, sameDayWithin(MINUTES_PER_DAY, net.input.build.zone), 'mould-warm');
}

/** Those of the starts that keep the rule for heat after which the layup may still begin on the day of its end. */
function keptStarts(
  { stages, input: { build, from } }: NetworkBuilder,
  starts: Calendar,
  untilStaffed: MonotoneMap,
  layup: string,
): Calendar {
  const modes = stages.find(({ id }) => id === layup)?.modes ?? [];
  const ends = startsOfAny(modes).map(({ start, end }) => ({
    start: dayTimeToMinute(localDayNumber(start, build.zone), 0, build.zone),
    end,
  }));
  const kept = intersect(starts, startsReaching(untilStaffed, joined(ends)));
  return kept.some(({ end }) => end > from) ? kept : [];
}

/** To the first minute, no sooner than the warm-up takes, at which somebody is there. */
const untilStaffedAfter = ({ minutes, staffed }: WarmUpSetup): MonotoneMap => {
  /** The last minute at or before `y` at which somebody is there; null: none. */
  const lastStaffed = (y: number): number | null => {
    const hours = staffed.findLast(({ start }) => start <= y);
    return hours ? Math.min(y, hours.end) : null;
  };
  return {
    apply: (x) => {
      const hours = staffed.find(({ end }) => end >= x + minutes);
      return hours ? Math.max(x + minutes, hours.start) : null;
    },
    latest: (y) => {
      const last = lastStaffed(y);
      return last === null ? null : last - minutes;
    },
    earliest: (y) => {
      const before = lastStaffed(y - 1);
      return before === null ? -Infinity : before - minutes + 1;
    },
  };
};
