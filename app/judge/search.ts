/**
 * The search over all levers at once: a cheap bound for thousands of combinations, plans for the best
 * hundred, odds for the dozen on the Pareto front, three offers. Planner and odds are handed in.
 */
import { FINISHES, type Build, type Finish, type JointState } from '../document/schema.ts';
import { leastBy, recommend, RANKS, type Recommendations } from './recommend.ts';
import {
  combinations,
  greedySets,
  isOfOneCure,
  leverDimensions,
  leverSets,
  type Dimension,
  type LeverSet,
} from './leverSpace.ts';
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
  /**
   * All routes of one set of levers that can be done, and how many were looked at.
   * @param only the routes to look at, by id; absent: all
   */
  readonly screen: (
    levers: LeverSet,
    only?: ReadonlySet<string>,
  ) => {
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
  /** The front where it has changed; else empty, since each choice of it holds a whole document. */
  readonly front: readonly Choice[];
}

export interface SearchResult {
  readonly screened: number;
  readonly planned: number;
  readonly front: readonly Choice[];
  readonly offers: Recommendations;
}

export interface SearchLimits {
  /** Combinations looked at, those that cannot be done included. */
  readonly mostLooked: number;
  /** Combinations that can be done and are bounded. */
  readonly mostScreened: number;
  readonly mostPlanned: number;
  readonly mostOdds: number;
  /** Levers of single cures that are combined: those that buy most. */
  readonly mostOfOneCure: number;
}

/** Choices screened before a first few are planned, and how many those are. */
const EARLY_SCREENED = 120;
const EARLY_PLANNED = 8;
/** Sets of levers screened between two yields. */
const SCREEN_EVERY = 6;
/** Choices planned between two looks at the front. */
const FRONT_EVERY = 8;

/**
 * Runs the search and yields as it goes; the caller stops it by asking no further. Deterministic: levers
 * are taken in the order given and every tie keeps it.
 * @param open ids of all single levers
 */
export function* searchLevers(
  open: readonly string[],
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
  const best = (most: number): Screened[] =>
    bestLayers(possiblyInTime(screened), screenMeasures, most);
  const screened: Screened[] = [];
  let looked = 0;
  let early = false;
  const singles = yield* screenSingles(open, tools, limits);
  looked += singles.looked;
  const dimensions = leverDimensions(singles.kept);
  const total = Math.min(limits.mostLooked, singles.looked + combinations(dimensions));
  const seen = new Set<string>();
  let done = 0;
  for (const set of leverSetsToTry(dimensions, singles.gainOf)) {
    if (screened.length >= limits.mostScreened || looked >= limits.mostLooked) break;
    const key = set.join();
    if (seen.has(key)) continue;
    seen.add(key);
    const found = tools.screen(set);
    looked += found.looked;
    screened.push(...found.kept);
    done++;
    const counts = { phase: 'screen' as const, done: Math.min(looked, total), total };
    if (!early && screened.length >= EARLY_SCREENED) {
      early = true;
      const front = frontOf(best(EARLY_PLANNED).flatMap((choice) => planOf(choice) ?? []));
      yield { ...counts, screened: looked, front };
    } else if (done % SCREEN_EVERY === 0) {
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
    offers: recommend(front, wishes),
  };
}

/** Steps of what helps most, put together. */
const GREEDY_STEPS = 6;

/** As it stands, then what helps most put together, then every combination. */
function* leverSetsToTry(
  dimensions: readonly Dimension[],
  gainOf: (id: string) => number,
): Generator<LeverSet> {
  yield [];
  yield* greedySets(dimensions, gainOf, GREEDY_STEPS);
  yield* leverSets(dimensions);
}

/** Least gain of a lever of a single cure that makes it worth combining, minutes. */
const LEAST_GAIN = 30;

interface Singles {
  readonly kept: readonly string[];
  readonly gainOf: (id: string) => number;
  readonly looked: number;
}

/**
 * Looks at every lever by itself, over the two routes that matter most: the least merged one that can
 * be done and the soonest. What works on the whole build stays; of the levers of single cures only
 * those that buy time, or make a route possible, and of these the best.
 */
function* screenSingles(
  open: readonly string[],
  tools: SearchTools,
  limits: SearchLimits,
): Generator<SearchProgress, Singles, void> {
  const base = tools.screen([]);
  const soonest = leastBy(base.kept, (one) => [one.lateBound]);
  const few = new Set([base.kept[0], soonest].flatMap((one) => (one ? [one.route] : [])));
  const before = new Map(base.kept.map((one) => [one.route, one.lateBound]));
  const gains = new Map<string, number>();
  let looked = 0;
  for (const [i, id] of open.entries()) {
    const found = tools.screen([id], few.size > 0 ? few : undefined);
    looked += found.looked;
    gains.set(id, gainOver(before, found.kept));
    if ((i + 1) % SCREEN_EVERY !== 0) continue;
    const counts = { phase: 'screen' as const, done: i + 1, total: open.length };
    yield { ...counts, screened: looked, front: [] };
  }
  const gainOf = (id: string): number => gains.get(id) ?? 0;
  const best = open
    .filter((id) => isOfOneCure(id) && gainOf(id) >= LEAST_GAIN)
    .toSorted((a, b) => gainOf(b) - gainOf(a))
    .slice(0, limits.mostOfOneCure);
  return { kept: open.filter((id) => !isOfOneCure(id) || best.includes(id)), gainOf, looked };
}

/** Most minutes that a lever brings a route forward; Infinity where it makes one possible. */
function gainOver(before: ReadonlyMap<string, number>, kept: readonly Screened[]): number {
  return kept.reduce((most, { route, lateBound }) => {
    if (lateBound === Infinity) return most;
    return Math.max(most, (before.get(route) ?? Infinity) - lateBound);
  }, -Infinity);
}

/**
 * Those whose odds are counted: the Pareto front, what fits before what does not, and in turn the
 * surest, the cheapest, the best part and the least work of what is left.
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
function possiblyInTime(screened: readonly Screened[]): readonly Screened[] {
  const inTime = screened.filter((choice) => choice.lateBound <= 0);
  return inTime.length > 0 ? inTime : screened.filter((choice) => choice.lateBound < Infinity);
}

const frontOf = (choices: readonly Choice[]): Choice[] => paretoFront(choices, choiceMeasures);

/** Time to spare beyond this makes a choice no better, minutes (negative: early). */
const ENOUGH_SLACK = -5 * 1440;

/** A measure in coarse steps, so that a gram or a cent does not decide between two choices. */
const steps = (value: number, step: number): number => Math.round(value / step);

const partMeasures = (choice: Screened): number[] => [
  FINISHES.indexOf(choice.finish),
  steps(choice.massKg, 0.02),
  steps(choice.labourHours, 0.25),
  steps(choice.costMinor, 500),
  // Each lever has to be arranged by somebody: fewer are better.
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
