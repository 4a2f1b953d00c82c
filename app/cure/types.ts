/** Types that later steps use: a clock that turns temperature into milestones, and the batches. */
import type { Milestone, SheetRow } from '../document/schema.ts';
import type { Minute } from '../time/instant.ts';
import type { CureKinetics } from './kinetics.ts';
import type { OpenSlopes } from './rate.ts';

/** Piecewise-constant temperature of the coldest spot of part and mould. */
export interface TemperatureSegment {
  readonly start: Minute;
  readonly end: Minute;
  readonly temperatureC: number;
}
export type TemperatureProfile = readonly TemperatureSegment[];

/** A resin system fitted to its data sheet. Doses are equivalent hours at `referenceC`. */
export interface CureModel {
  readonly referenceC: number;
  readonly activationEnergyJMol: number;
  /** Dose at which each milestone is reached, from first contact; null when it is unknown. */
  readonly doseHours: Readonly<Record<Milestone, number | null>>;
  readonly residuals: readonly SheetResidual[];
  /** Plain sentences: what had to be assumed, and why. */
  readonly assumptions: readonly string[];
  /** Slopes over temperature that the sheet leaves open; absent: it has settled them. */
  readonly slopes?: OpenSlopes;
  /** The curve behind the doses; without it a cure never slows for stiffness. */
  readonly kinetics?: CureKinetics;
  /** What the sheet's pot life rows showed of the cup. */
  readonly pot?: {
    /** Heat loss over the usual. */
    readonly lossFactor: number;
    /** Degree of cure at which the mix is too thick to work. */
    readonly openDegree: number;
    /** Pace of the reaction in a cup over the film's; 1 unless a leftover cup said otherwise. */
    readonly rateFactor?: number;
  };
}

/** How the fitted curve reads one row of the sheet. */
export interface SheetResidual {
  readonly row: SheetRow;
  readonly fittedMinutes: number;
  /** fitted / sheet - 1 */
  readonly relative: number;
}

/**
 * Milestones as nondecreasing functions of the start, and their exact inverses.
 * A later start never means an earlier end.
 */
export interface CureClock {
  /** First whole minute at which the milestone is reached; null when it never is within the profile. */
  reached(start: Minute, milestone: Milestone): Minute | null;
  /** Latest start whose milestone is reached at or before `end`; null when there is none. */
  latestStart(end: Minute, milestone: Milestone): Minute | null;
  /** Earliest start whose milestone is reached at or after `end`. */
  earliestStart(end: Minute, milestone: Milestone): Minute | null;
}

/** A batch as it is weighed: settled here because wet-work length depends on it. */
export interface Batch {
  readonly number: number;
  readonly resinG: number;
  readonly hardenerG: number;
  readonly totalG: number;
  readonly potLifeMinutes: number | null;
  readonly peakC: number | null;
  /** Minutes after first mix at which this batch is mixed, as a share of the wet work, 0 to 1. */
  readonly atShare: number;
}
