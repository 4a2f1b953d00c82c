/** First lists of a search: urgent first, with a chance of the next best (after A. Drexl, 1991). */
import type { Random } from '../random.ts';
import type { Network } from './network.ts';

/** Weight of an activity grows with how much longer its way to the end is, to this power. */
const REGRET_POWER = 1.5;

/** A precedence-feasible list; the longer the way to the end, the likelier an early place. */
export function sampleList(network: Network, random: Random): Int32Array {
  const { count, duration, tail, after, afterFrom, beforeFrom } = network;
  const list = new Int32Array(count);
  const waiting = new Int32Array(count);
  const free: number[] = [];
  for (let i = 0; i < count; i++) {
    waiting[i] = beforeFrom[i + 1]! - beforeFrom[i]!;
    if (waiting[i] === 0) free.push(i);
  }
  const weight: number[] = [];
  for (let k = 0; k < count; k++) {
    let least = Infinity;
    for (const i of free) least = Math.min(least, tail[i]! - duration[i]!);
    let sum = 0;
    for (let f = 0; f < free.length; f++) {
      const regret = tail[free[f]!]! - duration[free[f]!]! - least + 1;
      weight[f] = Math.pow(regret, REGRET_POWER);
      sum += weight[f]!;
    }
    let pick = random.next() * sum;
    let f = 0;
    while (f < free.length - 1 && pick >= weight[f]!) pick -= weight[f++]!;
    const i = free[f]!;
    free[f] = free[free.length - 1]!;
    free.pop();
    list[k] = i;
    for (let e = afterFrom[i]!; e < afterFrom[i + 1]!; e++) {
      if (--waiting[after[e]!]! === 0) free.push(after[e]!);
    }
  }
  return list;
}
