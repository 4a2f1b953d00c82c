/** What the tables of messages hold for each finding and each way out. */
import type { Finding } from '../document/schema.ts';

export type Severity = Finding['severity'];
export type Numbers = Finding['numbers'];

/**
 * Where the unsafe work begins; all that depends on it is withheld as well.
 * - `cure`: the cure of the stage that the finding names, from its first mix on;
 * - `wet-work`: every cure;
 * - `core`: the cures that hold core;
 * - `release`: the mould as it is released, so everything that is laid on it;
 * - `paint`: the handover to the paint shops.
 */
export type Reach = 'cure' | 'wet-work' | 'core' | 'release' | 'paint';

/**
 * One finding. The judge works out `Args`, plain values only (minutes, C, names); words and numbers
 * are made from them here.
 */
export interface FindingSpec<Args, S extends Severity | readonly Severity[]> {
  /** In one sentence, for lists of what a change brings. */
  readonly meaning: string;
  /** The severity, or those that the judge may choose from. */
  readonly severity: S;
  /**
   * What it makes unsafe while it says stop. null: the plan is late, dear or ugly by it, and nobody comes to
   * harm and no part is lost.
   */
  readonly unsafe: Reach | null;
  /**
   * What decides whether the finding is made: the document alone, the plan that was placed, or how
   * late that plan is. A build that cannot be placed has none of the last two, and has cleared none.
   * Lateness is relieved by every hour that a lever gains.
   */
  readonly dependsOn: 'document' | 'plan' | 'lateness';
  /** 'levers': every lever is weighed against it; 'own': it names its own; 'none': no lever can clear it. */
  readonly waysOut: 'levers' | 'own' | 'none';
  /** True where a choice of the lever search says as much by its joints and its lateness. */
  readonly saidByChoice: boolean;
  readonly words: (args: Args) => string;
  readonly numbers?: (args: Args) => Numbers;
}

/** The entry of a finding; the type of its arguments is taken from `words`. */
export const findingSpec = <Args, const S extends Severity | readonly Severity[]>(
  spec: FindingSpec<Args, S>,
): FindingSpec<Args, S> => spec;

/** Label and side effects of a lever, from plain values. */
export interface LeverSpec<Args> {
  /** Begins with a verb: 'Work Saturdays 08:00 to 13:00'. */
  readonly label: (args: Args) => string;
  readonly sideEffects: (args: Args) => readonly string[];
}

export const offers = <Args>(spec: LeverSpec<Args>): LeverSpec<Args> => spec;

/** The arguments of a message that has none. */
export type None = Readonly<Record<string, never>>;

/** A value to so many decimals, as numbers of a finding are published. */
export const rounded = (value: number, digits = 1): number => Number(value.toFixed(digits));

/** Minutes as hours to a tenth. */
export const tenthsOfHours = (minutes: number): number => Math.round((minutes / 60) * 10) / 10;
