/** Which hardener is mixed for what: the build's own, or another one that a layup names. */
import type { FullBuild, HardenerRow } from './schema.ts';

type Named = Pick<FullBuild, 'resin'>;

/** Hardener of a cure by the ids of its layups: that of the first that names one, else the build's. */
export const hardenerIdOf = ({ resin }: Named, layups: readonly string[]): string =>
  layups.map((id) => resin.hardenerFor[id]).find((id) => id !== undefined) ?? resin.hardener;

/** Hardener of every layup, by layup id: all layups of a cure are mixed alike. */
export const hardenersOf = (
  build: Named,
  cures: readonly { readonly layups: readonly string[] }[],
): Record<string, string> =>
  Object.fromEntries(
    cures.flatMap(({ layups }) => {
      const hardener = hardenerIdOf(build, layups);
      return layups.map((id) => [id, hardener]);
    }),
  );

/** Lot that a cure is mixed from, by the ids of its layups; null: lots have no names here. */
export const lotOf = ({ resin }: Named, layups: readonly string[]): string | null =>
  layups.map((id) => resin.lotFor?.[id]).find((lot) => lot !== undefined) ?? resin.lot ?? null;

/**
 * What the bench said of a cure by the ids of its layups: of it alone, else of its lot, else of all that
 * its hardener cures.
 */
export function benchOf(
  build: Named,
  layups: readonly string[],
  hardener: Pick<HardenerRow, 'bench'>,
): HardenerRow['bench'] {
  const { benchFor, benchForLot = [] } = build.resin;
  const own = layups.map((id) => benchFor[id]).find((bench) => bench !== undefined);
  const lot = lotOf(build, layups);
  const id = hardenerIdOf(build, layups);
  const ofLot = benchForLot.find((one) => one.lot === lot && one.hardener === id);
  return own ?? ofLot?.bench ?? hardener.bench;
}
