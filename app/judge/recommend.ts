/** Three choices out of many, each with one sentence. */
import { FINISHES } from '../document/schema.ts';
import { capital, latenessWords, listed, plain } from '../messages/words.ts';
import { chanceWords } from './odds.ts';
import type { Choice } from './search.ts';

type RankedReason = 'surest' | 'cheapest' | 'best-part' | 'least-work';
export type RecommendReason = RankedReason | 'next-surest';

export interface RecommendedChoice {
  readonly choice: Choice;
  readonly why: readonly RecommendReason[];
  readonly sentence: string;
}
export type Recommendations = readonly RecommendedChoice[];

interface Wishes {
  readonly targetMassKg: number | null;
  readonly currency: string;
}

/** Chance from which a choice counts as one that holds. */
const GOOD_CHANCE = 0.8;
/** Where none holds so well, this much below the surest is still good. */
const NEARLY = 0.1;
/** Times the least cost beyond which only being surest is worth it. */
const DEAR = 2;
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

/** A hundred grams is as fine as a part is told from another. */
const tenths = (massKg: number): number => Math.round(massKg * 10);

const HEADS: Readonly<Record<RecommendReason, string>> = {
  surest: 'surest',
  'next-surest': 'next surest',
  cheapest: 'cheapest',
  'best-part': 'best part',
  'least-work': 'least work',
};

/**
 * The surest, the cheapest that holds and the one with the best part; least work fills a gap, and where
 * one choice is all of these, the next surest do. Choices that fit go before those that do not, those within the weight target before heavier ones.
 */
export function recommend(front: readonly Choice[], wishes: Wishes): Recommendations {
  const fitting = preferred(front, (one) => one.fits);
  const light = preferred(
    fitting,
    (one) => wishes.targetMassKg === null || one.massKg <= wishes.targetMassKg,
  );
  const surest = Math.max(0, ...light.map((one) => one.onTime));
  const holding = light.filter((one) => one.onTime >= Math.min(GOOD_CHANCE, surest - NEARLY));
  const least = Math.min(...holding.map((one) => one.costMinor));
  const affordable = holding.filter((one) => one.costMinor <= DEAR * least);
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
    sentence: sentenceOf(choice, why, wishes.currency),
  }));
}

/** Those of whom it is true, or all where it is true of none. */
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

/** 'Surest: work Saturdays; outer skin, core bond and inner skin each on their own; ...' */
function sentenceOf(choice: Choice, why: readonly RecommendReason[], currency: string): string {
  const levers = choice.levers.map(({ label }) => lowerFirst(label));
  const does = levers.length > 0 ? listed(levers) : 'as it stands';
  const late = choice.fits
    ? `${chanceWords(choice.onTime)} to be on time`
    : latenessWords(choice.lateMinutes);
  const facts = [
    late,
    `${plain(choice.labourHours, 0)} h of work`,
    `${plain(choice.massKg)} kg`,
    money(choice.costMinor, currency),
  ];
  const head = capital(listed(why.map((one) => HEADS[one])));
  return `${head}: ${does}; ${routeWords(choice)}. ${capital(facts.join(', '))}.`;
}

/** A label inside a sentence; a name that begins it keeps its capital. */
const lowerFirst = (label: string): string =>
  /^[A-Z][a-z]+ /.test(label) ? label.charAt(0).toLowerCase() + label.slice(1) : label;

function routeWords({ joints }: Choice): string {
  const states = Object.values(joints);
  const merged = states.filter((state) => state !== 'apart').length;
  if (merged === 0) return 'every layup cured on its own';
  const bags = states.filter((state) => state === 'one-bag').length;
  const tacks = merged - bags;
  const words = [
    ...(bags > 0 ? [`${bags} ${bags === 1 ? 'joint' : 'joints'} in one bag`] : []),
    ...(tacks > 0 ? [`${tacks} ${tacks === 1 ? 'joint' : 'joints'} on tack`] : []),
  ];
  return listed(words);
}

/** Whole units of the currency. */
function money(minor: number, currency: string): string {
  const digits = new Intl.NumberFormat('en', { style: 'currency', currency }).resolvedOptions()
    .maximumFractionDigits!;
  return `${Math.round(minor / 10 ** digits)} ${currency}`;
}
