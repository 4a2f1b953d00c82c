/** Labour rates that learn from what the floor wrote down. */
import { practiceOf } from '../document/library.ts';
import { readStageId } from '../document/ids.ts';
import type { LabourRow, Library, StageKind } from '../document/schema.ts';
import { layupRow } from './layups.ts';
import { LAYUP_IDS } from './types.ts';

/** One stage as planned and as it went, person-minutes. */
export interface WorkedStage {
  readonly plannedMinutes: number;
  readonly workedMinutes: number;
}

export interface LearnedRate {
  /** Worked over planned, drawn towards 1 while records are few. */
  readonly factor: number;
  /** Spread of the hours, as a fraction either way. */
  readonly spread: number;
  readonly records: number;
  readonly row: LabourRow;
}

/** A ratio beyond this is taken for a mistake in the record, or for another job. */
const FARTHEST = 4;

/**
 * A labour row corrected by the shop's own records: the mean of log ratios, in which the table itself
 * counts as `tableWeight` records (a normal prior on the log of the ratio). Records without a length
 * above zero are ignored; ratios beyond four times either way count as four.
 */
export function learnedRate(
  row: LabourRow,
  records: readonly WorkedStage[],
  tableWeight: number,
): LearnedRate {
  const logs = records
    .filter(({ plannedMinutes, workedMinutes }) => plannedMinutes > 0 && workedMinutes > 0)
    .map(({ plannedMinutes, workedMinutes }) => workedMinutes / plannedMinutes)
    .map((ratio) => Math.log(Math.min(FARTHEST, Math.max(1 / FARTHEST, ratio))));
  const count = logs.length;
  const mean = logs.reduce((sum, log) => sum + log, 0) / (count + tableWeight);
  // Variance about the learned mean; the table's own spread stands for its weight of records.
  const squares = logs.reduce((sum, log) => sum + (log - mean) ** 2, 0);
  const tableLog = Math.log(1 + row.spread);
  const spread =
    Math.exp(Math.sqrt((squares + tableWeight * tableLog ** 2) / (count + tableWeight))) - 1;
  const factor = Math.exp(mean);
  return {
    factor,
    spread: Math.min(1, spread),
    records: count,
    row: count === 0 ? row : scaled(row, factor, Math.min(1, spread), count),
  };
}

function scaled(row: LabourRow, factor: number, spread: number, count: number): LabourRow {
  return {
    ...row,
    revision: row.revision + 1,
    provenance: { kind: 'measured', source: `${count} of the shop's own records` },
    setupMinutes: row.setupMinutes * factor,
    minutesPerM2: row.minutesPerM2 * factor,
    minutesPerPlyM2: row.minutesPerPlyM2 * factor,
    minutesPerEdgeM: row.minutesPerEdgeM * factor,
    spread,
    low: null,
    high: null,
  };
}

/** A finished stage of the floor's records. */
export interface FinishedStage extends WorkedStage {
  /** As in `trim` or `layup:core`. */
  readonly stage: string;
  readonly kind: StageKind;
}

/**
 * Every labour row with records, corrected by them. A core bond and closeout strips have
 * rows of their own.
 * @throws MissingRow
 */
export function learnedRates(library: Library, finished: readonly FinishedStage[]): LearnedRate[] {
  const tableWeight = practiceOf(library)('learning-builds');
  return library.labour.flatMap((row) => {
    const own = finished.filter((stage) => labourIdOf(stage, library) === row.id);
    return own.length > 0 ? [learnedRate(row, own, tableWeight)] : [];
  });
}

function labourIdOf({ stage, kind }: FinishedStage, library: Library): string | undefined {
  const ref = readStageId(stage);
  const layup = ref?.what === 'layup' && LAYUP_IDS.find((id) => id === ref.layup);
  return layup ? layupRow(layup) : library.labour.find((row) => row.stage === kind)?.id;
}
