/** How many hands it takes to lift the part. */
import { practiceIf } from '../document/library.ts';
import type { FullBuild, Library } from '../document/schema.ts';
import type { MassBreakdown } from './types.ts';

/** The part as it comes out of the mould, its edge not closed yet, kg. */
export const liftedKg = ({ fibre, resin, core, coreResin }: MassBreakdown): number =>
  fibre + resin + core + coreResin;

/**
 * People who lift it together: by its mass, and two at least for what is too large for one pair of arms.
 * @returns 1 for a build that has not taken the rows
 */
export const handsToLift = (
  build: Pick<FullBuild, 'part'>,
  massKg: MassBreakdown,
  library: Library,
): number => handsFor(build, liftedKg(massKg), library);

/** The same for the part at another weight, kg: filled, primed, painted. */
export function handsFor(
  { part }: Pick<FullBuild, 'part'>,
  massKg: number,
  library: Library,
): number {
  const kgEach = practiceIf(library, 'lift-kg-each');
  const aloneM2 = practiceIf(library, 'lift-m2-alone');
  if (kgEach === null || aloneM2 === null) return 1;
  const areaM2 = part.zones.reduce((sum, zone) => sum + zone.areaM2, 0);
  return Math.max(Math.ceil(massKg / kgEach), areaM2 > aloneM2 ? 2 : 1, 1);
}
