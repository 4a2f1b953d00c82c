/** What smear and leftover cup say: the clock before and after, ready to be taken. */
import type { HardenerRow, Library, Milestone } from '../../app/document/schema.ts';
import { practiceOf } from '../../app/document/library.ts';
import type { BenchWord } from '../../app/cure/bench.ts';
import {
  benchAfterCup,
  benchAfterSmear,
  filmFromSmear,
  potFromCup,
} from '../../app/cure/calibrate.ts';
import { cureClock } from '../../app/cure/clock.ts';
import { batchCurve, type BatchCase } from '../../app/cure/pot.ts';
import { temperatureRange } from '../../app/cure/profile.ts';
import type { CureModel, TemperatureProfile } from '../../app/cure/types.ts';
import type { Minute } from '../../app/time/instant.ts';

const MINUTES_PER_DAY = 1440;
/** As long as any cure is followed at a typed temperature. */
const STEADY_DAYS = 60;
/** A correction smaller than this is none. */
const NOTHING = 0.005;

const SMEAR_MILESTONES = [
  ['open', 'Open until'],
  ['gel', 'Gel'],
  ['debag', 'Bag off from'],
  ['demould', 'Demould from'],
  ['sand', 'Sand from'],
  ['full', 'Full cure'],
] as const satisfies readonly (readonly [Milestone, string])[];

export interface SmearQuestion {
  readonly mixed: Minute;
  readonly gel: Minute;
  /** Mean of the flange; null: what the plan knows of part and mould. */
  readonly flangeC: number | null;
}

export interface MilestoneShift {
  readonly label: string;
  readonly before: Minute | null;
  readonly after: Minute | null;
}

/** Why nothing is made of what was seen. */
export type BenchTrouble =
  /** Gel is not after first contact. */
  | 'before-mix'
  /** The plan's temperatures do not reach over that time. */
  | 'no-temperature'
  /** Colder than the sheet allows: the clock stands still there, whatever the smear did. */
  | 'too-cold'
  /** Nothing explains it within a factor of eight. */
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
      readonly bench: BenchWord;
      readonly rows: readonly T[];
    };

const MOST_FACTOR = 8;

const isFar = (factor: number, library: Library): boolean =>
  Math.abs(Math.log(factor)) > Math.log(practiceOf(library)('cure-row-contradicts-factor'));

/** The smear against the clock of its cure. @throws when the library lacks a practice row */
export function askSmear(
  { model, profile, hardener }: CureParts,
  { mixed, gel, flangeC }: SmearQuestion,
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
  const [before, after] = [model, found.model].map((one) => cureClock(one, over, options));
  return {
    trouble: null,
    factor: found.factor,
    far: isFar(found.factor, library),
    none: Math.abs(found.factor - 1) < NOTHING,
    bench: benchAfterSmear(hardener.bench, found),
    rows: SMEAR_MILESTONES.map(([milestone, label]) => ({
      label,
      before: before!.reached(mixed, milestone),
      after: after!.reached(mixed, milestone),
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

/** The leftover cup against the pot of the fitted curve. @throws as `askSmear` */
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
    none: Math.abs(found.factor - 1) < NOTHING,
    bench: benchAfterCup(hardener.bench, found),
    rows: [...new Set(masses)]
      .sort((a, b) => a - b)
      .map((massG) => ({ massG, before: lives(model, massG), after: lives(found.model, massG) })),
  };
}

export const BENCH_TROUBLE: Readonly<Record<BenchTrouble, string>> = {
  'before-mix': 'It gelled before it was mixed: check the two times.',
  'no-temperature': 'The plan knows no temperature for that time: type the flange’s own.',
  'too-cold':
    'Colder than its sheet allows: nothing is set by a smear out of that range. Warm it, and smear again.',
  unlikely: 'No pace of this resin explains it: check ratio, thermometer and clock.',
};
export const BENCH_FAR =
  'Further off than sheets scatter: check ratio, thermometer and clock first.';

/** `1.15 ×` */
export const times = (factor: number): string => `${factor.toFixed(2)} ×`;
