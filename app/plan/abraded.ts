/** Surfaces that a plan abrades because it lets them go stale, and why it does not strip and bond in one go. */
import type { Network } from '../schedule/network/network.ts';
import type { Calendar, Minute } from '../time/instant.ts';
import type { Mode, Schedule, StageSpec } from '../schedule/problem.ts';
import { addWork } from '../time/calendar.ts';
import { localDayNumber } from '../time/zone.ts';
import { modeAt } from './handsShort.ts';

export interface AbradedSurface {
  readonly stage: string;
  /** There is no peel ply: bare core, and overlaps on the skin. */
  readonly onBareCore: boolean;
  /** Had it been made ready first thing on the day of the bond; null: it is not the gel that hinders that. */
  readonly morning: MorningOfBond | null;
}

export interface MorningOfBond {
  /** The first mix that could follow. */
  readonly mixFrom: Minute;
  /** The last mix of that day whose gel somebody would see. */
  readonly seenUntil: Minute;
}

/** In the order of the plan. */
export function abradedIn(
  { problem }: Network,
  { placed }: Schedule,
  zone: string,
): AbradedSurface[] {
  const specs = new Map(problem.stages.map((spec) => [spec.id, spec]));
  const spots = new Map(placed.map((spot) => [spot.stage, spot]));
  return placed.flatMap(({ stage, mode }): AbradedSurface[] => {
    const spec = specs.get(stage)!;
    if (!spec.modes.find(({ id }) => id === mode)?.abrades) return [];
    const own = problem.relations.filter(({ from }) => from === stage);
    const layup = own.find(({ why }) => why === 'clean-surface')?.to ?? '';
    const bond = spots.get(layup);
    const mixes = modeAt(specs.get(layup)?.modes ?? [], bond);
    return [
      {
        stage,
        onBareCore: own.some(({ why }) => why === 'core-vacuumed'),
        morning:
          mixes && bond ? morningOf(spec, mixes, localDayNumber(bond.start, zone), zone) : null,
      },
    ];
  });
}

function morningOf(
  { modes }: StageSpec,
  mixes: Mode,
  day: number,
  zone: string,
): MorningOfBond | null {
  const isThatDay = (minute: Minute): boolean => localDayNumber(minute, zone) === day;
  const ready = modes.flatMap((mode) => {
    const end = mode.abrades ? null : readyFrom(mode, isThatDay);
    return end === null ? [] : [end];
  });
  const seen = mixes.starts?.find(({ why }) => why === 'gel-in-hours')?.open ?? [];
  const seenUntil = lastOf(seen, isThatDay);
  const mixFrom = Math.min(...ready);
  return ready.length > 0 && seenUntil !== null && mixFrom > seenUntil
    ? { mixFrom, seenUntil }
    : null;
}

/** When the work is done if it begins with that day's hours; null: they do not hold it. */
function readyFrom({ calendar, length }: Mode, isThatDay: (minute: Minute) => boolean) {
  const opens = (calendar ?? []).find(({ start }) => isThatDay(start));
  if (!opens || length.kind !== 'work') return null;
  const end = addWork(calendar!, opens.start, length.minutes);
  return end !== null && isThatDay(end) ? end : null;
}

function lastOf(starts: Calendar, isThatDay: (minute: Minute) => boolean): Minute | null {
  const last = starts.findLast(({ end }) => isThatDay(end - 1));
  return last ? last.end - 1 : null;
}
