/** How far a warm mould grows away from a carbon skin that does not. */
import { mouldOf, practiceOf, resinOf } from '../document/library.ts';
import type { FullBuild, Library } from '../document/schema.ts';
import { stackOf } from './stack.ts';

export interface MouldGrowth {
  /** Growth of the mould over the longest side of the part, mm. */
  readonly growthMm: number;
  /** What a stiff skin lets pass, mm. */
  readonly limitMm: number;
  readonly spanMm: number;
  /** True when the part may lock in the mould. */
  readonly locks: boolean;
}

/**
 * Growth of the mould from the shop's day temperature to `heldC`; null for a part without carbon, which
 * grows about as much as its mould. @throws MissingRow
 */
export function mouldGrowthAt(
  build: FullBuild,
  library: Library,
  heldC: number,
): MouldGrowth | null {
  const mould = mouldOf(library, build.mould.material);
  const matrixKgM3 = resinOf(library, build.resin.system).curedDensityKgM3;
  const stacks = build.part.zones.map((zone) => stackOf(zone, library, matrixKgM3));
  if (!stacks.some(({ plies }) => plies.some((ply) => ply.cloth.fibre === 'carbon'))) return null;
  const spanMm = Math.max(
    ...stacks.map(({ zone }) => Math.max(...(zone.sizeM ?? [Math.sqrt(zone.areaM2)])) * 1000),
  );
  const warmerK = Math.max(0, heldC - build.room.temperatureC.day);
  const growthMm = mould.growthPerK * spanMm * warmerK;
  const limitMm = practiceOf(library)('growth-limit-mm');
  return { growthMm, limitMm, spanMm, locks: growthMm > limitMm };
}
