/** Picking a resin of the library, or one of the shop's own from a single pot-life row. */
import { librarySchema, type Library, type ResinRow } from '../schema.ts';
import { POT_LIFE_ROW, typedOf } from '../provenance.ts';
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

/** An id that no row of the list has: `own-resin`, then `own-resin-2`. */
export function freeRowId(rows: readonly { readonly id: string }[], stem: string): string {
  const taken = new Set(rows.map(({ id }) => id));
  let id = stem;
  for (let number = 2; taken.has(id); number += 1) id = `${stem}-${number}`;
  return id;
}

/** The resin a build is made with; hardeners of single layups stay where the resin has them. */
export function useResin(
  resin: Draft['resin'],
  row: Pick<ResinRow, 'id' | 'hardeners'>,
  hardener: string,
): NonNullable<Draft['resin']> {
  const kept = Object.entries(resin?.hardenerFor ?? {}).filter(([, id]) =>
    row.hardeners.some((one) => one.id === id),
  );
  const picked = { system: row.id, hardener };
  return kept.length > 0 ? { ...picked, hardenerFor: Object.fromEntries(kept) } : picked;
}

/** Id of the hardener of the same speed where the resin has one, else of a middling one. */
export const hardenerLike = (
  { hardeners }: { readonly hardeners: readonly { readonly id: string }[] },
  wanted: string | undefined,
): string =>
  [wanted, 'medium'].find((id) => hardeners.some((one) => one.id === id)) ?? hardeners[0]!.id;

/** A resin of the library in place of the one in use. */
export function pickResin(document: Draft, library: Library, system: string): Change | null {
  const resin = library.resins.find((row) => row.id === system);
  if (!resin) return null;
  const hardener = hardenerLike(resin, document.resin?.hardener);
  return {
    label: `Resin: ${resin.name}`,
    document: { ...document, resin: useResin(document.resin, resin, hardener) },
  };
}

/** A row of the library with every default filled in. */
export const wholeResin = (row: unknown): ResinRow =>
  librarySchema.parse({ resins: [row] }).resins[0]!;

/**
 * A resin system of the shop's own, from one pot-life row; the curve's other milestones are assumed.
 * Rows and figures that were typed into its sheet since stay, and so do its other hardeners.
 * @param system id of one made before, or a free one
 */
export function ownResin(document: Draft, row: PotLifeRow, system = OWN_RESIN): Change {
  const all = document.library?.resins ?? [];
  const kept = all.find((r) => r.id === system);
  const inUse = document.resin?.system === system ? document.resin.hardener : undefined;
  const old = kept?.hardeners.find((h) => h.id === inUse) ?? kept?.hardeners[0];
  const sheet = old?.sheet ?? [];
  const first = sheet.findIndex((r) => r.what === 'pot-life');
  const provenance = POT_LIFE_ROW;
  const hardener = {
    ...old,
    id: old?.id ?? OWN_HARDENER,
    name: old && old.name !== hardenerName(kept!.name) ? old.name : hardenerName(row.name),
    provenance,
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
  };
  const hardeners = kept
    ? kept.hardeners.map((h) => (h.id === hardener.id ? hardener : h))
    : [hardener];
  const resin = wholeResin({ ...kept, id: system, name: row.name, provenance, hardeners });
  const resins = kept ? all.map((r) => (r.id === system ? resin : r)) : [...all, resin];
  return {
    label: `Resin: ${row.name}, ${row.minutes} min for ${row.massG} g at ${row.temperatureC} °C`,
    document: {
      ...document,
      library: { ...document.library, resins },
      resin: useResin(document.resin, resin, hardener.id),
    },
  };
}

export const hardenerName = (resin: string): string => `${resin} hardener`;

/**
 * The row typed earlier, to be shown and edited again; null for a resin that was not made from one
 * row.
 */
export function ownRow(document: Draft, system = OWN_RESIN): PotLifeRow | null {
  const resin = document.library?.resins?.find((r) => r.id === system);
  const inUse = document.resin?.system === system ? document.resin.hardener : undefined;
  const hardener = resin?.hardeners.find((h) => h.id === inUse) ?? resin?.hardeners[0];
  const row = hardener?.sheet.find((r) => r.what === 'pot-life');
  if (!resin || !hardener || !row || typedOf(hardener.provenance) !== 'pot-life') return null;
  return {
    name: resin.name,
    massG: row.massG ?? 0,
    temperatureC: row.temperatureC,
    minutes: row.minutes,
    partsPer100ByMass: hardener.partsPer100ByMass,
  };
}
