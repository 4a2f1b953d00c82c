/**
 * The search over all levers at once: a cheap bound for thousands of combinations, plans for the best
 * hundred, odds for the dozen that nobody betters, three offers. Planner and odds are handed in.
 */
import { FINISHES, type Build, type Finish, type JointState } from '../build/schema.ts';
import { leastBy, offersOf, RANKS, type Offers } from './offers.ts';
import { bestLayers, paretoFront } from './pareto.ts';

/** What can be said of a choice without placing anything. */
export interface Screened {
  /** Levers and route; alike for alike choices. */
  readonly id: string;
  readonly levers: readonly { readonly id: string; readonly label: string }[];
  readonly route: string;
  readonly joints: Readonly<Record<string, JointState>>;
  readonly document: Build;
  /** No plan of this choice is less late than this, minutes; Infinity: none exists. */
  readonly lateBound: number;
  readonly labourHours: number;
  /** Material, wages on top, heat and hire, minor units. */
  readonly costMinor: number;
  readonly massKg: number;
  readonly finish: Finish;
}

/** A choice with its plan. */
export interface Choice extends Screened {
  readonly lateMinutes: number;
  readonly fits: boolean;
  /** Chance of meeting the date, 0 to 1: estimated until `onTimeCounted`. */
  readonly onTime: number;
  readonly onTimeCounted: boolean;
  /** Codes of its warnings and stops. */
  readonly codes: readonly string[];
}

export interface SearchTools {
  /** All routes of one set of levers that can be done, and how many were looked at. */
  readonly screen: (levers: readonly string[]) => {
    readonly looked: number;
    readonly kept: readonly Screened[];
  };
  /** Null when it cannot be planned. */
  readonly plan: (choice: Screened) => Choice | null;
  readonly odds: (choice: Choice) => number;
}

export interface SearchProgress {
  readonly phase: 'screen' | 'plan' | 'odds';
  readonly done: number;
  readonly total: number;
  /** Combinations of levers and route looked at. */
  readonly screened: number;
  /** The front where it has changed; else empty, since whole documents hang on it. */
  readonly front: readonly Choice[];
}

export interface SearchResult {
  readonly screened: number;
  readonly planned: number;
  readonly front: readonly Choice[];
  readonly offers: Offers;
}

export interface SearchLimits {
  /** Combinations looked at, those that cannot be done included. */
  readonly mostLooked: number;
  /** Combinations that can be done and are bounded. */
  readonly mostScreened: number;
  readonly mostPlanned: number;
  readonly mostOdds: number;
}

/** Choices screened before a first few are planned, and how many those are. */
const EARLY_SCREENED = 240;
const EARLY_PLANNED = 8;
/** Sets of levers screened between two yields. */
const SCREEN_EVERY = 6;
/** Choices planned between two looks at the front. */
const FRONT_EVERY = 8;

/**
 * Runs the search and yields as it goes; leaving it is a way to stop. Deterministic: sets are taken in
 * the order given and every tie keeps it.
 */
export function* searchLevers(
  sets: readonly (readonly string[])[],
  tools: SearchTools,
  limits: SearchLimits,
  wishes: { readonly targetMassKg: number | null; readonly currency: string },
): Generator<SearchProgress, SearchResult, void> {
  const plans = new Map<string, Choice | null>();
  const planOf = (choice: Screened): Choice | null => {
    const known = plans.get(choice.id);
    if (known !== undefined) return known;
    const made = tools.plan(choice);
    plans.set(choice.id, made);
    return made;
  };
  const best = (most: number): Screened[] => bestLayers(hopeful(screened), screenMeasures, most);
  const screened: Screened[] = [];
  let looked = 0;
  let early = false;
  for (const [done, set] of sets.entries()) {
    if (screened.length >= limits.mostScreened || looked >= limits.mostLooked) break;
    const found = tools.screen(set);
    looked += found.looked;
    screened.push(...found.kept);
    const counts = { phase: 'screen' as const, done: done + 1, total: sets.length };
    if (!early && screened.length >= EARLY_SCREENED) {
      early = true;
      const front = frontOf(best(EARLY_PLANNED).flatMap((choice) => planOf(choice) ?? []));
      yield { ...counts, screened: looked, front };
    } else if ((done + 1) % SCREEN_EVERY === 0) {
      yield { ...counts, screened: looked, front: [] };
    }
  }
  const promising = best(limits.mostPlanned);
  const planned: Choice[] = [];
  for (const [done, choice] of promising.entries()) {
    const one = planOf(choice);
    if (one) planned.push(one);
    if ((done + 1) % FRONT_EVERY !== 0) continue;
    const counts = { phase: 'plan' as const, done: done + 1, total: promising.length };
    yield { ...counts, screened: looked, front: frontOf(planned) };
  }
  const survivors = likeliest(planned, limits.mostOdds);
  const counted: Choice[] = [];
  for (const [done, choice] of survivors.entries()) {
    counted.push({ ...choice, onTime: tools.odds(choice), onTimeCounted: true });
    const counts = { phase: 'odds' as const, done: done + 1, total: survivors.length };
    yield { ...counts, screened: looked, front: frontOf(counted) };
  }
  const front = frontOf(counted);
  return {
    screened: looked,
    planned: promising.length,
    front,
    offers: offersOf(front, wishes),
  };
}

/**
 * Those whose odds are worth counting: what fits before what does not, nobody betters it, and in turn
 * the surest, the cheapest, the best part and the least work of what is left.
 */
function likeliest(planned: readonly Choice[], most: number): Choice[] {
  const fitting = planned.filter((choice) => choice.fits);
  const front = frontOf(fitting.length > 0 ? fitting : planned);
  const chosen: Choice[] = [];
  for (let turn = 0; chosen.length < most && chosen.length < front.length; turn++) {
    const left = front.filter((choice) => !chosen.includes(choice));
    chosen.push(leastBy(left, RANKS[turn % RANKS.length]![1])!);
  }
  return chosen;
}

/** What may fit; where nothing may, all that can be planned at all. */
function hopeful(screened: readonly Screened[]): readonly Screened[] {
  const inTime = screened.filter((choice) => choice.lateBound <= 0);
  return inTime.length > 0 ? inTime : screened.filter((choice) => choice.lateBound < Infinity);
}

const frontOf = (choices: readonly Choice[]): Choice[] => paretoFront(choices, choiceMeasures);

/** More slack than this makes no choice better, minutes. */
const ENOUGH_SLACK = -5 * 1440;

/** Coarse steps: a gram or a cent makes no choice better. */
const steps = (value: number, step: number): number => Math.round(value / step);

const partMeasures = (choice: Screened): number[] => [
  FINISHES.indexOf(choice.finish),
  steps(choice.massKg, 0.02),
  steps(choice.labourHours, 0.25),
  steps(choice.costMinor, 500),
  // Every change is a trouble of its own.
  choice.levers.length,
];

const screenMeasures = (choice: Screened): number[] => [
  steps(Math.max(choice.lateBound, ENOUGH_SLACK), 120),
  ...partMeasures(choice),
];

const choiceMeasures = (choice: Choice): number[] => [
  -steps(choice.onTime, 0.05),
  choice.fits ? 0 : steps(Math.max(0, choice.lateMinutes), 60),
  choice.codes.length,
  ...partMeasures(choice),
];
