/** Work that a plan does with fewer people than it takes, though the crew has them. */
import type { StageKind } from '../document/schema.ts';
import { handsOf, isWithoutBreak } from '../schedule/network/crew.ts';
import type { Network } from '../schedule/network/network.ts';
import type { Mode, Placed, Schedule } from '../schedule/problem.ts';
import type { Minute } from '../time/instant.ts';

export interface HandsShort {
  readonly stage: string;
  readonly name: string;
  readonly kind: StageKind;
  readonly wanted: number;
  readonly there: number;
}

export interface LeftOverBreak {
  readonly stage: string;
  readonly name: string;
  /** Of work, without the break. */
  readonly minutes: number;
  readonly start: Minute;
  readonly end: Minute;
}

/** In the order of the network; what has begun is left out. */
export function handsShortOf(
  { problem, peopleAsked }: Network,
  { placed }: Schedule,
): HandsShort[] {
  const spots = new Map(placed.map((spot) => [spot.stage, spot]));
  return problem.stages.flatMap((spec) => {
    const wanted = peopleAsked[spec.id];
    const mode = modeAt(spec.modes, spots.get(spec.id));
    if (wanted === undefined || !mode || spec.begun) return [];
    const there = handsOf(mode);
    if (there >= wanted) return [];
    return [{ stage: spec.id, name: spec.name, kind: spec.kind, wanted, there }];
  });
}

/** Mixed or sprayed work that is left over a break, though somebody's hours hold it without one. */
export const leftOverBreakOf = (
  { problem, askedInOneGo }: Network,
  { placed }: Schedule,
): LeftOverBreak[] =>
  problem.stages.flatMap((spec) => {
    if (!askedInOneGo.has(spec.id) || spec.begun) return [];
    const spot = placed.find(({ stage }) => stage === spec.id);
    const mode = modeAt(spec.modes, spot);
    if (!spot || mode?.length.kind !== 'work' || isWithoutBreak(mode)) return [];
    if (spot.end - spot.start <= mode.length.minutes) return [];
    const { start, end } = spot;
    return [{ stage: spec.id, name: spec.name, minutes: mode.length.minutes, start, end }];
  });

/** The way in which a stage is placed. */
export const modeAt = (modes: readonly Mode[], spot: Placed | undefined): Mode | undefined =>
  modes.find(({ id }) => id === spot?.mode);
