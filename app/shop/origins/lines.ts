/** The lines of the plan's totals, each with where it comes from. */
import { roundedWeightRows, isOnPart } from '../../part/weight.ts';
import { hoursByRow } from '../../plan/hoursByRow.ts';
import type { PlanOutcome } from '../../plan/outcome.ts';
import { massRowWords, massWords, roundedToSum, workHoursWords } from '../../units/summed.ts';
import { kitOrigin } from './kit.ts';
import type { Origin } from './origin.ts';
import { arrivalWords, kitQuantity, priceOf } from './totals.ts';
import { weightOrigin } from './weight.ts';
import { workOrigin } from './work.ts';

export interface TotalLine {
  readonly id: string;
  readonly name: string;
  readonly value: string;
  readonly note: string;
  /** False: told beneath the sum, and no part of it. */
  readonly isCounted: boolean;
  readonly origin: () => Origin;
}

/** What the target counts, adding up to the part's weight in both units, then what it does not. */
export function weightLines(outcome: PlanOutcome): TotalLine[] {
  const { detail, result } = outcome;
  const rows = roundedWeightRows(detail.weight).filter(({ massKg }) => massKg !== 0);
  const isCounted = (row: (typeof rows)[number]): boolean =>
    isOnPart(row, detail.build.part.targetIncludes);
  const counted = rows.filter(isCounted);
  const words = massRowWords(counted.map(({ massKg }) => massKg));
  const line = (row: (typeof rows)[number], value: string): TotalLine => ({
    id: row.id,
    name: row.name,
    value,
    note: isCounted(row) ? '' : 'not counted',
    isCounted: isCounted(row),
    origin: () => weightOrigin(outcome, row.id, result.route.id),
  });
  return [
    ...counted.map((row, i) => line(row, words[i]!)),
    ...rows.filter((row) => !isCounted(row)).map((row) => line(row, massWords(row.massKg))),
  ];
}

export const costLines = (outcome: PlanOutcome): TotalLine[] =>
  outcome.detail.kit.map((row) => ({
    id: row.id,
    name: row.name,
    value: `${kitQuantity(row)} = ${priceOf(row.costMinor, outcome.result.build.currency)}`,
    note: arrivalWords(row.leadDays),
    isCounted: true,
    origin: () => kitOrigin(outcome, row),
  }));

/** Hours by row of the library, adding up to those of the plan. */
export function hourLines(outcome: PlanOutcome): TotalLine[] {
  const rows = hoursByRow(outcome);
  const hours = roundedToSum(
    rows.map(({ personMinutes }) => personMinutes / 60),
    10,
  );
  return rows.map((row, i) => ({
    id: row.id,
    name: row.name,
    value: workHoursWords(hours[i]!),
    note: row.stages > 1 ? `${row.stages} times` : '',
    isCounted: true,
    origin: () => workOrigin(outcome, row),
  }));
}
