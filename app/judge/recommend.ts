/** Three choices out of many, each with one sentence. */
import { FINISHES } from '../document/schema.ts';
import { recommendationWords, type RecommendReason } from '../messages/recommendation.ts';
import type { Choice } from './search.ts';

type RankedReason = Exclude<RecommendReason, 'next-surest'>;

export interface RecommendedChoice {
  readonly choice: Choice;
  readonly why: readonly RecommendReason[];
  readonly sentence: string;
}
export type Recommendations = readonly RecommendedChoice[];

interface Preferences {
  readonly targetMassKg: number | null;
  readonly currency: string;
}

/** Chance from which a choice counts as one that holds. */
const GOOD_CHANCE = 0.8;
/** Where none holds so well, this much below the surest is still good. */
const CHANCE_TOLERANCE = 0.1;
/** Times the least cost beyond which only being surest is worth it. */
const COSTLY_FACTOR = 2;
const MOST_OFFERS = 3;

export type Rank = (choice: Choice) => readonly number[];
const bySurety: Rank = (one) => [-one.onTime, Math.max(0, one.lateMinutes), one.costMinor];
/** What each kind of choice is picked by, smallest first. */
export const RANKS: readonly (readonly [RankedReason, Rank])[] = [
  ['surest', bySurety],
  ['cheapest', (one) => [one.costMinor, one.labourHours]],
  ['best-part', (one) => [FINISHES.indexOf(one.finish), tenths(one.massKg), one.costMinor]],
  ['least-work', (one) => [Math.round(one.labourHours), one.costMinor]],
];

/** Masses are compared to a hundred grams. */
const tenths = (massKg: number): number => Math.round(massKg * 10);

/**
 * The surest, the cheapest that holds and the one with the best part; least work fills a gap, and where
 * one choice is all of these, the next surest do. Choices that fit go before those that do not, those
 * within the weight target before heavier ones.
 */
export function recommend(front: readonly Choice[], wishes: Preferences): Recommendations {
  const fitting = preferred(front, (one) => one.fits);
  const light = preferred(
    fitting,
    (one) => wishes.targetMassKg === null || one.massKg <= wishes.targetMassKg,
  );
  const surest = Math.max(0, ...light.map((one) => one.onTime));
  const holding = light.filter(
    (one) => one.onTime >= Math.min(GOOD_CHANCE, surest - CHANCE_TOLERANCE),
  );
  const least = Math.min(...holding.map((one) => one.costMinor));
  const affordable = holding.filter((one) => one.costMinor <= COSTLY_FACTOR * least);
  const offers: { choice: Choice; why: RecommendReason[] }[] = [];
  for (const [why, rank] of RANKS) {
    const choice = leastBy(why === 'surest' ? light : affordable, rank);
    const known = offers.find((offer) => offer.choice.id === choice?.id);
    if (known) known.why.push(why);
    else if (choice && offers.length < MOST_OFFERS) offers.push({ choice, why: [why] });
  }
  while (offers.length < MOST_OFFERS) {
    const left = light.filter((one) => !offers.some(({ choice }) => choice.id === one.id));
    const choice = leastBy(left, bySurety);
    if (!choice) break;
    offers.push({ choice, why: ['next-surest'] });
  }
  return offers.map(({ choice, why }) => ({
    choice,
    why,
    sentence: recommendationWords({
      ...choice,
      why,
      levers: choice.levers.map(({ label }) => label),
      joints: Object.values(choice.joints),
      currency: wishes.currency,
    }),
  }));
}

/** Those for which the test holds, or all of them where it holds for none. */
function preferred(choices: readonly Choice[], good: (one: Choice) => boolean): readonly Choice[] {
  const kept = choices.filter(good);
  return kept.length > 0 ? kept : choices;
}

/** The first of the least by a rank. */
export function leastBy<T>(
  choices: readonly T[],
  rank: (choice: T) => readonly number[],
): T | undefined {
  let best: T | undefined;
  for (const choice of choices) {
    if (!best || compare(rank(choice), rank(best)) < 0) best = choice;
  }
  return best;
}

function compare(a: readonly number[], b: readonly number[]): number {
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) return a[i]! - b[i]!;
  return 0;
}
