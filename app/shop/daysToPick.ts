/** The weeks and days of a plan that paper can be picked for. */
import type { PlanOutcome } from '../plan/outcome.ts';
import { daysOf, sheetDataOf } from './sheetData.ts';
import { weekWords, dayWords } from './paperWords.ts';
import { weeksOf } from './weekSheet.ts';
import { shortDay } from './words.ts';

export interface DaysToPick {
  readonly id: string;
  readonly name: string;
  readonly days: readonly [from: string, to: string];
}

/** Every week, then every day. */
export function daysToPick(outcome: PlanOutcome): DaysToPick[] {
  const days = daysOf(sheetDataOf(outcome));
  const weeks = weeksOf(days).map((week): DaysToPick => {
    const [first, last] = [week[0]!.date, week[week.length - 1]!.date];
    return { id: `week-${first}`, name: weekWords(shortDay(first)), days: [first, last] };
  });
  const single = days.map(({ date }): DaysToPick => ({
    id: `day-${date}`,
    name: dayWords(shortDay(date)),
    days: [date, date],
  }));
  return [...weeks, ...single];
}
