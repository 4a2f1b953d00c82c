/** Sums up many replays of a plan: chances, days that hold, what costs most, in numbers and words. */
import { oddsSentences, roundedToFivePercent } from '../messages/odds.ts';
import type { Minute } from '../time/instant.ts';
import { dayName, dayTimeToMinute, localDayNumber } from '../time/zone.ts';

/**
 * Replays of every plan whose chance is told: one count, so that a plan has one chance wherever it
 * stands. With a thousand the chance strays by 1.6 % at most (one standard deviation), well within the
 * 5 % that it is told to.
 */
export const ODDS_REPLAYS = 1000;

/** Days that one stage costs on average by running over, leaks, slips and the like. */
export interface StageCost {
  readonly stage: string;
  readonly name: string;
  readonly days: number;
}

export interface Odds {
  readonly replays: number;
  /** Chance of meeting the date, 0 to 1, rounded to 5 %. */
  readonly onTime: number;
  /** The same as it was counted. */
  readonly onTimeCounted: number;
  /** True until the shop has enough builds of its own behind the spreads. */
  readonly guessed: boolean;
  readonly ownBuilds: number;
  /** Chance that all is done by the end of each day, local to the build. */
  readonly days: readonly { readonly day: string; readonly chance: number }[];
  /** The minute by which all is done with each chance; null where it is not. */
  readonly holds: readonly { readonly chance: number; readonly minute: Minute | null }[];
  readonly plannedEnd: Minute | null;
  readonly deadline: Minute;
  /** From the end that holds with 80 % to the date, minutes; negative: the date does not hold. */
  readonly bufferMinutes: number | null;
  /** Largest first; stages that cost less than a tenth of a day are left out. */
  readonly costs: readonly StageCost[];
  readonly sentences: readonly string[];
}

export interface OddsCount {
  /** End of the last stage of every replay; `never` marks one that does not end. */
  readonly ends: ArrayLike<number>;
  readonly never: number;
  readonly deadline: Minute;
  readonly plannedEnd: Minute | null;
  readonly zone: string;
  readonly costs: readonly StageCost[];
  readonly ownBuilds: number;
  /** Builds needed before the odds are the shop's own. */
  readonly ownBuildsNeeded: number;
}

const HOLDS = [0.5, 0.8, 0.95] as const;
const BUFFER_HOLDS = 0.8;
const LEAST_DAYS = 0.1;
/** Days are listed as far as this share of the replays reaches, and never more than so many. */
const LISTED_SHARE = 0.995;
const MOST_DAYS = 60;

/** Sums up the replays. Deterministic; ends need no order. */
export function oddsOf(count: OddsCount): Odds {
  const sorted = Float64Array.from(count.ends).sort();
  const replays = sorted.length;
  const done = (minute: Minute): number => atOrBelow(sorted, minute) / replays;
  const holds = HOLDS.map((chance) => {
    const minute = sorted[Math.max(0, Math.ceil(chance * replays) - 1)] ?? count.never;
    return { chance, minute: minute >= count.never ? null : minute };
  });
  const safe = holds.find((one) => one.chance === BUFFER_HOLDS)!.minute;
  const onTimeCounted = replays === 0 ? 0 : done(count.deadline);
  const facts = {
    replays,
    onTime: roundedToFivePercent(onTimeCounted),
    onTimeCounted,
    guessed: count.ownBuilds < count.ownBuildsNeeded,
    ownBuilds: count.ownBuilds,
    days: replays === 0 ? [] : daysOf(sorted, count, done),
    holds,
    plannedEnd: count.plannedEnd,
    deadline: count.deadline,
    bufferMinutes: safe === null ? null : count.deadline - safe,
    costs: count.costs
      .filter((cost) => cost.days >= LEAST_DAYS)
      .toSorted((a, b) => b.days - a.days || (a.stage < b.stage ? -1 : 1)),
  };
  const { guessed, costs } = facts;
  const args = { onTime: onTimeCounted, guessed, safe, deadline: count.deadline, zone: count.zone };
  const sentences = replays === 0 ? [] : oddsSentences({ ...args, worst: costs[0] ?? null });
  return { ...facts, sentences };
}

function atOrBelow(sorted: Float64Array, minute: number): number {
  let low = 0;
  let high = sorted.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (sorted[middle]! <= minute) low = middle + 1;
    else high = middle;
  }
  return low;
}

function daysOf(
  sorted: Float64Array,
  { zone, deadline, never }: OddsCount,
  done: (minute: Minute) => number,
): Odds['days'] {
  const finite = atOrBelow(sorted, never - 1);
  if (finite === 0) return [];
  const first = localDayNumber(Math.min(sorted[0]!, deadline), zone);
  const reach = Math.min(finite, Math.ceil(LISTED_SHARE * sorted.length));
  const last = localDayNumber(Math.max(sorted[reach - 1]!, deadline), zone);
  const days: { day: string; chance: number }[] = [];
  for (let day = first; day <= Math.min(last, first + MOST_DAYS - 1); day++) {
    days.push({ day: dayName(day), chance: done(dayTimeToMinute(day + 1, 0, zone) - 1) });
  }
  return days;
}
