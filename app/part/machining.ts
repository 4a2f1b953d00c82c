/** Who machines the mould, and whether that is in the cost. */
import type { FullBuild } from '../document/schema.ts';
import type { KitLine } from './types.ts';

export interface Machining {
  /** `hand`: shaped and faired by hand; `none`: the mould stands already. */
  readonly by: 'outside' | 'house' | 'hand' | 'none';
  /** Price of the machining; null: not known, and not in the cost. */
  readonly costMinor: number | null;
}

/** Who machines the mould of a build. */
export function machinedBy({
  mould,
  outside,
}: Pick<FullBuild, 'mould' | 'outside'>): Machining['by'] {
  if (mould.sealed) return 'none';
  if (outside.some(({ kind }) => kind === 'machining')) return 'outside';
  return mould.machinedInHouse ? 'house' : 'hand';
}

/** The machining as the kit has it. */
export function machiningOf(
  build: Pick<FullBuild, 'mould' | 'outside'>,
  kit: readonly KitLine[],
): Machining {
  const line = kit.find(({ group, leadDays }) => group === 'mould' && leadDays === 0);
  return { by: machinedBy(build), costMinor: line?.costMinor ?? null };
}
