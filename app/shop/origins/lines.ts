/** The lines of the plan's totals, each with where it comes from. */
import { hoursByRow, type HoursRow } from '../../plan/hoursByRow.ts';
import type { PlanOutcome } from '../../plan/outcome.ts';
import { workHoursRowWords } from '../../units/summed.ts';
import { kitOrigin } from './kit.ts';
import type { Origin } from './origin.ts';
import { arrivalWords, kitLineWords, NOT_COUNTED, weighedRows } from './totals.ts';
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
  const rows = weighedRows(detail.weight, detail.build.part.targetIncludes);
  return rows.map(({ row, value, isCounted }) => ({
    id: row.id,
    name: row.name,
    value,
    note: isCounted ? '' : NOT_COUNTED,
    isCounted,
    origin: () => weightOrigin(outcome, row.id, result.route.id),
  }));
}

export const costLines = (outcome: PlanOutcome): TotalLine[] =>
  outcome.detail.kit.map((row) => ({
    id: row.id,
    name: row.name,
    value: kitLineWords(row, outcome.result.build.currency),
    note: arrivalWords(row.leadDays),
    isCounted: true,
    origin: () => kitOrigin(outcome, row),
  }));

/** A line of the hours with the row of the library that it stands for. */
export interface HourLine extends TotalLine {
  readonly row: HoursRow;
}

/** Hours by row of the library, adding up to those of the plan. */
export function hourLines(outcome: PlanOutcome): HourLine[] {
  const rows = hoursByRow(outcome);
  const words = workHoursRowWords(rows.map(({ personMinutes }) => personMinutes));
  return rows.map((row, i) => ({
    id: row.id,
    row,
    name: row.name,
    value: words[i]!,
    note: row.stages > 1 ? `${row.stages} times` : '',
    isCounted: true,
    origin: () => workOrigin(outcome, row),
  }));
}
