/** First lists of a search: urgent first, with a chance of the next best (after A. Drexl, 1991). */
import type { Random } from './random.ts';

/** Weight of a stage grows with how much more urgent it is than the least, to this power. */
const REGRET_POWER = 1.5;

/**
 * A list of stages that keeps precedence.
 * @param open stages to be listed
 * @param before stages that come before each one in the list's direction
 * @param urgency minutes, larger is more urgent
 */
export function sampleList(
  open: ArrayLike<number>,
  before: readonly (readonly number[])[],
  after: readonly (readonly number[])[],
  urgency: Float64Array,
  random: Random,
): Int32Array {
  const list = new Int32Array(open.length);
  const waiting = new Int32Array(before.length).fill(-1);
  const free: number[] = [];
  for (let k = 0; k < open.length; k++) waiting[open[k]!] = 0;
  for (let k = 0; k < open.length; k++) {
    const i = open[k]!;
    for (const one of before[i]!) if (waiting[one]! >= 0) waiting[i]!++;
    if (waiting[i] === 0) free.push(i);
  }
  const weight: number[] = [];
  for (let k = 0; k < list.length; k++) {
    let least = Infinity;
    for (const i of free) least = Math.min(least, urgency[i]!);
    let sum = 0;
    for (let f = 0; f < free.length; f++) {
      weight[f] = Math.pow(urgency[free[f]!]! - least + 1, REGRET_POWER);
      sum += weight[f]!;
    }
    let pick = random.next() * sum;
    let f = 0;
    while (f < free.length - 1 && pick >= weight[f]!) pick -= weight[f++]!;
    const i = free[f]!;
    free[f] = free[free.length - 1]!;
    free.pop();
    list[k] = i;
    for (const next of after[i]!) {
      if (waiting[next]! > 0 && --waiting[next]! === 0) free.push(next);
    }
  }
  return list;
}
