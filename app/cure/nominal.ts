/** What practice says of a kind of resin before its sheet is read. */
import type { HardenerRow, ResinRow } from '../document/schema.ts';
import type { CupCase, Vessel } from './cup.ts';
import type { CureKinetics, Glass, RateShape } from './kinetics.ts';
import type { PracticeLookup } from './practice.ts';

export type Chemistry = ResinRow['chemistry'];

/** Milestones other than gel, in the order in which a curing film meets them; the bond window last. */
export const RATIO_MILESTONES = [
  'open',
  'tackFree',
  'debag',
  'demould',
  'sand',
  'full',
  'bondUntil',
] as const;
export type RatioMilestone = (typeof RATIO_MILESTONES)[number];

export interface Nominal {
  readonly shape: RateShape;
  readonly glass: Glass;
  readonly gelDegree: number;
  readonly heatJG: number;
  /** True when the sheet gives the heat of reaction or the highest Tg itself. */
  readonly heatKnown: boolean;
  readonly tgKnown: boolean;
  /** Time of each milestone over time of gel, both for a film at 20 C. */
  readonly perGel: Readonly<Record<RatioMilestone, number>>;
}

/**
 * Usual numbers of a kind of resin, with the hardener's own heat and Tg where the sheet has them.
 * @throws MissingRow when the library lacks a practice row
 */
export function nominalOf(
  hardener: Pick<HardenerRow, 'tgFullC' | 'heatOfReactionJG'>,
  chemistry: Chemistry,
  practice: PracticeLookup,
): Nominal {
  const of = (id: string): number =>
    practice(chemistry === 'epoxy' ? `cure-${id}` : `cure-ester-${id}`);
  const debag = of('debag-per-film-gel');
  const demould = debag * of('demould-per-debag');
  const sand = demould * of('sand-per-demould');
  return {
    shape: { seed: of('seed'), m: of('order-m'), n: of('order-n') },
    glass: {
      tg0C: of('tg-fresh-c'),
      tgFullC: hardener.tgFullC ?? of('tg-full-c'),
      lambda: of('tg-lambda'),
      slowsOverC: practice('cure-slows-over-c'),
      halfOverC: practice('cure-halves-over-c'),
      widthC: practice('cure-slow-width-c'),
    },
    gelDegree: of('gel-degree'),
    heatJG: hardener.heatOfReactionJG ?? of('heat-j-g'),
    heatKnown: hardener.heatOfReactionJG !== null,
    tgKnown: hardener.tgFullC !== null,
    perGel: {
      open: of('film-open-per-film-gel'),
      tackFree: of('tack-free-per-film-gel'),
      debag,
      demould,
      sand,
      full: sand * of('full-per-sand'),
      bondUntil: of('bond-until-per-film-gel'),
    },
  };
}

/**
 * A cup or tray of the usual shape, with its usual heat loss.
 * @throws MissingRow when the library lacks a practice row
 */
export function usualVessel(kind: 'cup' | 'tray', practice: PracticeLookup): Vessel {
  return {
    kind,
    heightPerDiameter: practice('cure-cup-height-per-diameter'),
    depthMm: practice('cure-tray-depth-mm'),
    lossWM2K: practice('cure-cup-loss-w-m2k'),
  };
}

/** A batch in a usual vessel; resin and room at one temperature unless said. */
export function usualCup(
  batch: {
    readonly massG: number;
    readonly roomC: number;
    readonly resinC?: number;
    readonly vessel?: Vessel;
  },
  kinetics: CureKinetics,
  openDegree: number,
  practice: PracticeLookup,
): CupCase {
  return {
    kinetics,
    massG: batch.massG,
    vessel: batch.vessel ?? usualVessel('cup', practice),
    roomC: batch.roomC,
    resinC: batch.resinC ?? batch.roomC,
    densityKgM3: practice('cure-mix-density-kg-m3'),
    heatCapacityJGK: practice('cure-heat-capacity-j-gk'),
    openDegree,
    hottestC: practice('cure-cup-hottest-c'),
  };
}
