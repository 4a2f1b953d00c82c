/** Polyester and vinyl ester: the initiator's dose as the lever for gel time, within the maker's range. */
import type { HardenerRow, ResinRow } from '../document/schema.ts';
import { rateFactor } from './arrhenius.ts';
import { fitSheet } from './fit.ts';
import type { PracticeLookup } from './practice.ts';

export interface InitiatorPoint {
  /** Grams for 100 g of resin. */
  readonly partsPer100: number;
  readonly gelMinutes: number;
  readonly hardener: string;
}

export interface InitiatorRange {
  readonly temperatureC: number;
  /** The doses that the maker's sheets give, least first. */
  readonly points: readonly InitiatorPoint[];
  readonly leastPartsPer100: number;
  readonly mostPartsPer100: number;
  readonly shortestGelMinutes: number;
  readonly longestGelMinutes: number;
  /**
   * - 'air-inhibits': open faces stay tacky in air; wax, film or peel ply closes them;
   * - 'styrene': vapour; extraction and a mask by its data sheet;
   * - 'peroxide': never meets the accelerator undiluted.
   */
  readonly notes: readonly ('air-inhibits' | 'styrene' | 'peroxide')[];
}

/**
 * Gel of a film over the dose at a temperature, from the doses the maker gives (one row of the
 * library each). Null for an epoxy, whose mixing ratio must not be changed.
 * @param temperatureC of the film, C
 * @throws MissingRow when the library lacks a practice row
 */
export function initiatorRange(
  resin: ResinRow,
  temperatureC: number,
  practice: PracticeLookup,
): InitiatorRange | null {
  if (resin.chemistry === 'epoxy') return null;
  const points = resin.hardeners
    .map((hardener) => ({
      partsPer100: hardener.partsPer100ByMass,
      gelMinutes: gelMinutesOf(hardener, resin, temperatureC, practice),
      hardener: hardener.id,
    }))
    .sort((a, b) => a.partsPer100 - b.partsPer100);
  const gels = points.map((point) => point.gelMinutes);
  return {
    temperatureC,
    points,
    leastPartsPer100: points[0]!.partsPer100,
    mostPartsPer100: points[points.length - 1]!.partsPer100,
    shortestGelMinutes: Math.min(...gels),
    longestGelMinutes: Math.max(...gels),
    notes: ['air-inhibits', 'styrene', 'peroxide'],
  };
}

function gelMinutesOf(
  hardener: HardenerRow,
  resin: ResinRow,
  temperatureC: number,
  practice: PracticeLookup,
): number {
  const model = fitSheet(hardener, practice, resin.chemistry);
  return (
    (model.doseHours.gel! * 60) /
    rateFactor(model.activationEnergyJMol, temperatureC, model.referenceC)
  );
}

/** Gel time at a dose, min: straight in logarithms between the maker's points; null outside them. */
export function gelAtDose(range: InitiatorRange, partsPer100: number): number | null {
  return between(
    range.points.map((p) => [p.partsPer100, p.gelMinutes]),
    partsPer100,
  );
}

/** Dose for a wanted gel time, parts per 100; null when the maker's range does not reach it. */
export function doseForGel(range: InitiatorRange, gelMinutes: number): number | null {
  const points = range.points.map((p) => [p.gelMinutes, p.partsPer100] as const);
  return between(
    [...points].sort((a, b) => a[0] - b[0]),
    gelMinutes,
  );
}

function between(
  points: readonly (readonly [number, number] | number[])[],
  x: number,
): number | null {
  for (let i = 0; i < points.length; i++) {
    const [x1, y1] = points[i] as [number, number];
    if (Math.abs(x1 - x) <= 1e-9 * x1) return y1;
    const next = points[i + 1] as [number, number] | undefined;
    if (next && x > x1 && x < next[0]) {
      const share = Math.log(x / x1) / Math.log(next[0] / x1);
      return y1 * (next[1] / y1) ** share;
    }
  }
  return null;
}
