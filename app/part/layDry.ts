/** Dry work before an infusion: cloth and core laid unhurried, then mesh, lines and two bags over them. */
import { practiceIf } from '../document/library.ts';
import type { FullBuild, Library } from '../document/schema.ts';
import { familiarityFactor, setupMinutesOf } from './labour.ts';
import { layupRow } from './layups.ts';
import type { Layup, PartResult } from './types.ts';

export interface DryWork {
  readonly personMinutes: number;
  readonly peopleMin: number;
  readonly peopleMax: number;
}

/** A build whose labour table was frozen without the row: the bags of an infusion take twice a bag. */
const BAGS = 2;

/**
 * Hands-on time to lay what goes under one bag dry, and to bag it.
 * @throws MissingRow when a labour row of its layups is absent
 */
export function dryWork(
  part: Pick<PartResult, 'workUnder'>,
  layups: readonly Layup[],
  build: FullBuild,
  library: Library,
): DryWork {
  const pace = familiarityFactor(build, library);
  const share = practiceIf(library, 'dry-lay-share') ?? 1;
  const setUp = part.workUnder('lay-dry', layups).personMinutes;
  const bag = (layup: Layup): number =>
    pace * (setupMinutesOf(library, layupRow(layup.id), layup) ?? 0);
  return {
    personMinutes:
      (setUp > 0 ? setUp : BAGS * Math.max(...layups.map(bag))) +
      layups.reduce((sum, layup) => sum + share * Math.max(0, layup.personMinutes - bag(layup)), 0),
    peopleMin: 1,
    peopleMax: Math.max(...layups.map(({ peopleMax }) => peopleMax)),
  };
}
