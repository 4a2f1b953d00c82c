/** Days on which nothing happens, folded to a narrow strip that says how many they are. */
import type { Interval, Minute } from '../time/instant.ts';
import { dayName, localDayNumber } from '../time/zone.ts';
import { daysIn } from './days.ts';

export interface Fold extends Interval {
  /** First day, YYYY-MM-DD: what it is known by. */
  readonly id: string;
  readonly days: number;
}

/** One empty day stays: a strip would hardly be narrower. */
const FEWEST_DAYS = 2;

/**
 * The longest runs of local days without anything in them.
 * @param busy what happens; waits are left out by the caller, for they pass by themselves
 * @param kept moments whose days are shown in any case: now, the deadline
 * @param opened ids of folds that a person has unfolded
 */
export function foldsOf(
  world: Interval,
  busy: readonly Interval[],
  kept: readonly Minute[],
  zone: string,
  opened: readonly string[] = [],
): Fold[] {
  const full = daysWith([...busy, ...kept.map((at) => ({ start: at, end: at }))], zone);
  const folds: Fold[] = [];
  let run: Interval[] = [];
  const close = () => {
    if (run.length >= FEWEST_DAYS) {
      const [start, end] = [run[0]!.start, run.at(-1)!.end];
      const id = dayName(localDayNumber(start, zone));
      if (!opened.includes(id)) folds.push({ start, end, id, days: run.length });
    }
    run = [];
  };
  for (const day of daysIn(world, zone)) {
    if (full.has(localDayNumber(day.start, zone))) close();
    else run.push(day);
  }
  close();
  return folds;
}

/** Numbers of the local days that these touch; what ends at midnight does not touch the next day. */
function daysWith(busy: readonly Interval[], zone: string): Set<number> {
  const full = new Set<number>();
  for (const { start, end } of busy) {
    const last = localDayNumber(Math.max(start, end - 1), zone);
    for (let day = localDayNumber(start, zone); day <= last; day++) full.add(day);
  }
  return full;
}
