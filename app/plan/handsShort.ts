/** Work that a plan does with fewer people than it takes, though the crew has them. */
import type { StageKind } from '../document/schema.ts';
import { handsOf } from '../schedule/network/crew.ts';
import type { Network } from '../schedule/network/network.ts';
import type { Mode, Placed, Schedule } from '../schedule/problem.ts';

export interface HandsShort {
  readonly stage: string;
  readonly name: string;
  readonly kind: StageKind;
  readonly wanted: number;
  readonly there: number;
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

/** The way in which a stage is placed. */
export const modeAt = (modes: readonly Mode[], spot: Placed | undefined): Mode | undefined =>
  modes.find(({ id }) => id === spot?.mode);
