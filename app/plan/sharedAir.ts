/** Release and spray that a plan does in air that other work shares. */
import type { Network } from '../schedule/network/network.ts';
import type { Schedule, StageSpec } from '../schedule/problem.ts';
import type { Minute } from '../time/instant.ts';
import { modeAt } from './handsShort.ts';

export interface SharedAir {
  readonly stage: string;
  readonly name: string;
  readonly air: NonNullable<StageSpec['air']>;
  readonly start: Minute;
  readonly end: Minute;
  /** Names of the work beside it, or so close that its air has not settled; at least one. */
  readonly beside: readonly string[];
}

/** In the order of the network; what has begun is left out, and so is what has its air to itself after all. */
export function sharedAirOf({ problem }: Network, { placed }: Schedule): SharedAir[] {
  const { stages, airSettleMinutes } = problem;
  const spots = new Map(placed.map((spot) => [spot.stage, spot]));
  return stages.flatMap((spec): SharedAir[] => {
    const { id, name, air } = spec;
    const spot = spots.get(id);
    if (!spot || air === null || spec.begun || !modeAt(spec.modes, spot)?.sharesAir) return [];
    const { start, end } = spot;
    const beside = stages.filter((other) => {
      const theirs = spots.get(other.id);
      if (!theirs || other.air === null || other.air === air) return false;
      if (theirs.end <= theirs.start || modeAt(other.modes, theirs)?.keepsAirClean) return false;
      return theirs.start < end + airSettleMinutes && start < theirs.end + airSettleMinutes;
    });
    if (beside.length === 0) return [];
    return [{ stage: id, name, air, start, end, beside: beside.map((other) => other.name) }];
  });
}
