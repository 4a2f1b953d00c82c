/** The shipped library, as the tests of the chemistry look it up. */
import type { HardenerRow, ResinRow } from '../../../app/document/schema.ts';
import { practiceOf } from '../../../app/document/library.ts';
import { shippedLibrary } from '../../../main/library/shipped.ts';

export const library = shippedLibrary();

export const practice = practiceOf(library);

/** Every shipped hardener, with its resin's id in front. */
export const shippedHardeners: readonly (readonly [string, HardenerRow, ResinRow['chemistry']])[] =
  library.resins.flatMap((resin) =>
    resin.hardeners.map((h) => [`${resin.id}/${h.id}`, h, resin.chemistry] as const),
  );

/** A hardener with the given sheet; everything else is of no account. */
export function hardenerWith(
  sheet: HardenerRow['sheet'],
  more: Partial<HardenerRow> = {},
): HardenerRow {
  return {
    id: 'test',
    name: 'Test hardener',
    provenance: { kind: 'demo', source: 'invented' },
    partsPer100ByMass: 30,
    partsPer100ByVolume: null,
    densityKgM3: 1000,
    sheet,
    minimumC: 10,
    tgFullC: 80,
    postCure: [],
    heatOfReactionJG: null,
    hazards: [],
    priceMinor: 0,
    leadDays: 0,
    supplier: null,
    ...more,
  };
}
