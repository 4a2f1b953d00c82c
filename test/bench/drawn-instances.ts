/**
 * Instances drawn like the open ones, to try changes of the search on: what is reported is measured on the
 * open ones, and nothing is tuned on those.
 */
import { seededRandom, type Random } from '../../app/schedule/random.ts';
import { horizonOf, type Instance } from './psplib-read.ts';

const RESOURCES = 4;
const LONGEST = 10;
const GREATEST_DEMAND = 10;
/** Arcs for each activity, and shares of resources that an activity asks for. */
const COMPLEXITIES = [1.5, 1.8, 2.1];
const FACTORS = [0.25, 0.5, 0.75, 1];

/**
 * An instance of so many activities between a source and a sink; the same for the same seed.
 * @param strengths how far capacities lie from the least possible (0) to what the earliest starts ask for (1)
 */
export function drawInstance(
  activities: number,
  strengths: readonly number[],
  seed: number,
): Instance {
  const random = seededRandom(seed);
  const of = <T>(list: readonly T[]): T => list[random.below(list.length)]!;
  const duration = [0, ...Array.from({ length: activities }, () => 1 + random.below(LONGEST)), 0];
  const arcs = drawArcs(random, duration, of(COMPLEXITIES));
  const factor = of(FACTORS);
  const demand = duration.map((length) =>
    Array.from({ length: RESOURCES }, () =>
      length > 0 && random.next() < factor ? 1 + random.below(GREATEST_DEMAND) : 0,
    ),
  );
  const strength = of(strengths);
  const peaks = peaksOf({ duration, demand, capacity: [], arcs });
  const capacity = peaks.map((peak, k) => {
    const least = Math.max(1, ...demand.map((amounts) => amounts[k]!));
    return Math.max(least, Math.round(least + strength * (peak - least)));
  });
  return { duration, demand, capacity, arcs };
}

/** Activities that follow the source alone, and that lead to the sink alone. */
const LOOSE = 3;
/** Most activities right before one, and right behind one. */
const MOST_NEIGHBOURS = 3;

/** Every activity follows an earlier one and leads to a later one; further arcs up to the complexity. */
function drawArcs(
  random: Random,
  duration: readonly number[],
  complexity: number,
): Instance['arcs'] {
  const last = duration.length - 1;
  const behind = duration.map(() => new Set<number>());
  const before = duration.map(() => 0);
  let count = 0;
  const add = (from: number, to: number): void => {
    if (behind[from]!.has(to)) return;
    behind[from]!.add(to);
    before[to]!++;
    count++;
  };
  const mayJoin = (from: number, to: number): boolean =>
    behind[from]!.size < MOST_NEIGHBOURS && before[to]! < MOST_NEIGHBOURS;
  const tryArc = (from: number, to: number): void => {
    if (from < to && mayJoin(from, to)) add(from, to);
  };
  for (let i = 1; i <= LOOSE; i++) add(0, i);
  for (let i = LOOSE + 1; i < last; i++) {
    for (let tries = 0; before[i] === 0 && tries < 100; tries++) {
      tryArc(1 + random.below(Math.min(i, last - LOOSE) - 1), i);
    }
  }
  for (let i = 1; i < last - LOOSE; i++) {
    for (let tries = 0; behind[i]!.size === 0 && tries < 100; tries++) {
      tryArc(i, Math.max(i, LOOSE) + 1 + random.below(last - 1 - Math.max(i, LOOSE)));
    }
  }
  for (let tries = 0; count < complexity * last && tries < 20 * last; tries++) {
    tryArc(1 + random.below(last - 1 - LOOSE), LOOSE + 1 + random.below(last - 1 - LOOSE));
  }
  for (let i = 1; i < last; i++) {
    if (before[i] === 0) add(0, i);
    if (behind[i]!.size === 0) add(i, last);
  }
  return behind.flatMap((targets, from) =>
    [...targets].map((to) => ({ from, to, lag: duration[from]! })),
  );
}

/** Most of each resource that the earliest starts ask for at once. */
function peaksOf(instance: Instance): number[] {
  const { duration, demand, arcs } = instance;
  const start = duration.map(() => 0);
  for (const { from, to, lag } of [...arcs].sort((a, b) => a.to - b.to || a.from - b.from)) {
    start[to] = Math.max(start[to]!, start[from]! + lag);
  }
  const use = Array.from({ length: RESOURCES }, () => new Int32Array(horizonOf(instance) + 1));
  duration.forEach((length, i) => {
    for (let t = start[i]!; t < start[i]! + length; t++) {
      use.forEach((level, k) => (level[t]! += demand[i]![k]!));
    }
  });
  return use.map((level) => Math.max(...level));
}
