/** What smear and leftover cup say: the clock before and after, ready to be taken. */
import type { HardenerRow, Library, Milestone } from '../document/schema.ts';
import { practiceOf } from '../document/library.ts';
import type { BenchCorrection } from './bench.ts';
import { benchAfterCup, benchAfterSmear, filmFromSmear, potFromCup } from './calibrate.ts';
import { cureClock } from './clock.ts';
import { cureMoments } from './moments.ts';
import { batchCurve, type BatchCase } from './pot.ts';
import { temperatureRange } from './profile.ts';
import type { CureModel, TemperatureProfile } from './types.ts';
import type { Minute } from '../time/instant.ts';

const MINUTES_PER_DAY = 1440;
/** Days for which a typed temperature is taken to hold: longer than any cure. */
const STEADY_DAYS = 60;
/** A correction smaller than this share counts as none. */
const NEGLIGIBLE_SHARE = 0.005;

/** Milestones shown before and after a smear, in the order of the cure. */
const SMEAR_MILESTONES = [
  'open',
  'gel',
  'debag',
  'demould',
  'sand',
  'full',
] as const satisfies readonly Milestone[];

export interface SmearQuestion {
  /** First contact of the smeared mix. */
  readonly mixed: Minute;
  readonly gel: Minute;
  /** From first contact to the sealed bag, as planned. */
  readonly wetMinutes: number;
  /** Mean temperature of the flange, C; null: that of part and mould in the plan. */
  readonly flangeC: number | null;
}

export interface MilestoneShift {
  readonly milestone: (typeof SMEAR_MILESTONES)[number];
  readonly before: Minute | null;
  readonly after: Minute | null;
}

/** Why an observation gives no correction. */
export type BenchTrouble =
  /** Gel is not after first contact. */
  | 'before-mix'
  /** The plan's temperatures do not reach over that time. */
  | 'no-temperature'
  /** Colder than the sheet allows: the clock stands still there, whatever the smear did. */
  | 'too-cold'
  /** No correction up to a factor of eight gives it. */
  | 'unlikely';

export type BenchAnswer<T> =
  | { readonly trouble: BenchTrouble }
  | {
      readonly trouble: null;
      /** Seen over expected. */
      readonly factor: number;
      /** So far off that another cause is likelier. */
      readonly far: boolean;
      readonly none: boolean;
      readonly bench: BenchCorrection;
      readonly rows: readonly T[];
    };

const MOST_FACTOR = 8;

const isFar = (factor: number, library: Library): boolean =>
  Math.abs(Math.log(factor)) > Math.log(practiceOf(library)('cure-row-contradicts-factor'));

/**
 * A smear on the flange against the clock of its cure: the correction, and each milestone before and after.
 * @param question first contact, gel and bag of the smear in minutes of Unix UTC, the flange in C
 * @throws MissingRow when the library lacks a practice row
 */
export function askSmear(
  { model, profile, hardener }: CureParts,
  { mixed, gel, wetMinutes, flangeC }: SmearQuestion,
  library: Library,
): BenchAnswer<MilestoneShift> {
  if (gel <= mixed) return { trouble: 'before-mix' };
  const end = mixed + STEADY_DAYS * MINUTES_PER_DAY;
  const over = flangeC === null ? profile : [{ start: mixed, end, temperatureC: flangeC }];
  const known = over.length > 0 && over[0]!.start <= mixed && over.at(-1)!.end >= gel;
  if (!known) return { trouble: 'no-temperature' };
  if (temperatureRange(over, mixed, gel).minC < hardener.minimumC) return { trouble: 'too-cold' };
  const options = { minimumC: hardener.minimumC };
  const found = filmFromSmear(model, over, mixed, gel, options);
  if (!found || found.factor > MOST_FACTOR || found.factor < 1 / MOST_FACTOR) {
    return { trouble: 'unlikely' };
  }
  const [before, after] = [model, found.model].map((one) =>
    cureMoments(cureClock(one, over, options), mixed, mixed + wetMinutes),
  );
  return {
    trouble: null,
    factor: found.factor,
    far: isFar(found.factor, library),
    // Clocks are read to the minute: a gel at the very minute of the plan says nothing new.
    none: before!.gel === gel || Math.abs(found.factor - 1) < NEGLIGIBLE_SHARE,
    bench: benchAfterSmear(hardener.bench, found),
    rows: SMEAR_MILESTONES.map((milestone) => ({
      milestone,
      before: before![milestone],
      after: after![milestone],
    })),
  };
}

export interface CureParts {
  readonly model: CureModel;
  readonly profile: TemperatureProfile;
  readonly hardener: HardenerRow;
}

export interface PotShift {
  readonly massG: number;
  /** Minutes; null: over a day. */
  readonly before: number | null;
  readonly after: number | null;
}

export interface CupQuestion {
  readonly batch: BatchCase;
  /** From first contact to the cup given up as too thick. */
  readonly minutes: number;
}

/**
 * A leftover cup against the pot of the fitted curve: the correction, and pot lives before and after.
 * @param question mass, g, temperature, C, and how long the cup stayed workable, min
 * @throws MissingRow when the library lacks a practice row
 */
export function askCup(
  { model, hardener }: Pick<CureParts, 'model' | 'hardener'>,
  { batch, minutes }: CupQuestion,
  library: Library,
): BenchAnswer<PotShift> {
  const practice = practiceOf(library);
  const found = potFromCup(model, batch, minutes, practice);
  if (!found) return { trouble: 'unlikely' };
  const masses = [practice('batch-min-g'), batch.massG, practice('batch-max-g')];
  const lives = (one: CureModel, massG: number): number | null =>
    batchCurve(one, { ...batch, massG }, practice).potLifeMinutes;
  return {
    trouble: null,
    factor: found.factor,
    far: isFar(found.factor, library),
    none: Math.abs(found.factor - 1) < NEGLIGIBLE_SHARE,
    bench: benchAfterCup(hardener.bench, found),
    rows: [...new Set(masses)]
      .sort((a, b) => a - b)
      .map((massG) => ({ massG, before: lives(model, massG), after: lives(found.model, massG) })),
  };
}
