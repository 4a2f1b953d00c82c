/** Picking a resin of the library, or one of the shop's own from a single pot-life row. */
import type { Library } from '../../app/build/schema.ts';
import type { Change } from './change.ts';
import type { Draft } from './path.ts';

export const OWN_RESIN = 'own-resin';
const OWN_HARDENER = 'own-hardener';

/** One row read off a can or the shop's own cup. */
export interface PotLifeRow {
  readonly name: string;
  readonly massG: number;
  readonly temperatureC: number;
  readonly minutes: number;
  /** Grams of hardener for 100 g of resin. */
  readonly partsPer100ByMass: number;
}

/** The hardener that keeps its speed where the new resin has one of the same id. */
export function pickResin(document: Draft, library: Library, system: string): Change | null {
  const resin = library.resins.find((row) => row.id === system);
  if (!resin) return null;
  const same = resin.hardeners.find((h) => h.id === document.resin?.hardener);
  const middle = resin.hardeners.find((h) => h.id === 'medium');
  const hardener = same ?? middle ?? resin.hardeners[0]!;
  return {
    label: `Resin: ${resin.name}`,
    document: { ...document, resin: { system, hardener: hardener.id } },
  };
}

/**
 * A resin system of the shop's own, from one pot-life row; the curve's other milestones are assumed.
 * Rows and figures that were typed into its sheet since stay.
 */
export function ownResin(document: Draft, row: PotLifeRow): Change {
  const source = 'typed into this build from one pot-life row';
  const kept = document.library?.resins?.find((r) => r.id === OWN_RESIN);
  const sheet = kept?.hardeners[0]?.sheet ?? [];
  const first = sheet.findIndex((r) => r.what === 'pot-life');
  const resin = {
    ...kept,
    id: OWN_RESIN,
    name: row.name,
    provenance: { kind: 'measured' as const, source },
    hardeners: [
      {
        ...kept?.hardeners[0],
        id: OWN_HARDENER,
        name: `${row.name} hardener`,
        provenance: { kind: 'measured' as const, source },
        partsPer100ByMass: row.partsPer100ByMass,
        sheet: [
          {
            what: 'pot-life' as const,
            temperatureC: row.temperatureC,
            minutes: row.minutes,
            massG: row.massG,
            vessel: 'cup' as const,
          },
          ...sheet.filter((_, i) => i !== first),
        ],
      },
    ],
  };
  const others = (document.library?.resins ?? []).filter((r) => r.id !== OWN_RESIN);
  return {
    label: `Resin: ${row.name}, ${row.minutes} min for ${row.massG} g at ${row.temperatureC} °C`,
    document: {
      ...document,
      library: { ...document.library, resins: [...others, resin] },
      resin: { system: OWN_RESIN, hardener: OWN_HARDENER },
    },
  };
}

/** The row typed earlier, to be shown and edited again; null when the build has no resin of its own. */
export function ownRow(document: Draft): PotLifeRow | null {
  const resin = document.library?.resins?.find((r) => r.id === OWN_RESIN);
  const hardener = resin?.hardeners[0];
  const row = hardener?.sheet.find((r) => r.what === 'pot-life');
  if (!resin || !hardener || !row) return null;
  return {
    name: resin.name,
    massG: row.massG ?? 0,
    temperatureC: row.temperatureC,
    minutes: row.minutes,
    partsPer100ByMass: hardener.partsPer100ByMass,
  };
}
