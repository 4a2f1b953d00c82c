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
  /** Minutes of the row offered over those of the row in use; 1 once the same records count in it. */
  readonly factor: number;
  /** Spread of the hours, as a fraction either way. */
  readonly spread: number;
  readonly records: number;
  readonly row: LabourRow;
}

/** A ratio beyond this is taken for a mistake in the record, or for another job. */
const FARTHEST = 4;
const FARTHEST_LOG = Math.log(FARTHEST);

type Taught = NonNullable<LabourRow['taught']>;
type BuildTaught = Taught['builds'][number];

/**
 * A labour row corrected by the shop's own records: the mean of log ratios, in which the table itself
 * counts as `tableWeight` records (a normal prior on the log of the ratio). Records without a length
 * above zero are ignored; ratios beyond four times either way count as four. The row keeps what each
 * build told, so that the same records count once however often they are taken.
 * @param build id of the build whose records they are
 */
export function learnedRate(
  row: LabourRow,
  build: string,
  records: readonly WorkedStage[],
  tableWeight: number,
): LearnedRate {
  const before = row.taught ?? { factor: 1, spread: row.spread, builds: [] };
  const own = toldBy(build, records, before.factor);
  const known = before.builds.find((one) => one.build === build);
  if (own.records === 0 || (known && isSame(known, own))) {
    return { factor: 1, spread: row.spread, records: own.records, row };
  }
  const builds = [...before.builds.filter((one) => one !== known), own];
  const { factor, spread, records: count } = together(builds, before.spread, tableWeight);
  const moved = factor / before.factor;
  const taught = { factor, spread: before.spread, builds };
  return {
    factor: moved,
    spread,
    records: own.records,
    row: scaled(row, moved, spread, count, taught),
  };
}

/** @param rowFactor minutes of the row that the stages were planned by, over those of the table */
function toldBy(build: string, records: readonly WorkedStage[], rowFactor: number): BuildTaught {
  const logs = records
    .filter(({ plannedMinutes, workedMinutes }) => plannedMinutes > 0 && workedMinutes > 0)
    .map(({ plannedMinutes, workedMinutes }) => (rowFactor * workedMinutes) / plannedMinutes)
    .map((ratio) => Math.log(Math.min(FARTHEST, Math.max(1 / FARTHEST, ratio))));
  return {
    build,
    records: logs.length,
    logSum: logs.reduce((sum, log) => sum + log, 0),
    squareSum: logs.reduce((sum, log) => sum + log ** 2, 0),
  };
}

const isSame = (one: BuildTaught, other: BuildTaught): boolean =>
  one.records === other.records &&
  Math.abs(one.logSum - other.logSum) < 1e-9 &&
  Math.abs(one.squareSum - other.squareSum) < 1e-9;

const within = (log: number): number => Math.min(FARTHEST_LOG, Math.max(-FARTHEST_LOG, log));

function together(
  builds: readonly BuildTaught[],
  tableSpread: number,
  tableWeight: number,
): { factor: number; spread: number; records: number } {
  const total = (key: 'records' | 'logSum' | 'squareSum'): number =>
    builds.reduce((sum, one) => sum + one[key], 0);
  const records = total('records');
  // Sums that no records could make do not carry a rate beyond the farthest ratio.
  const mean = within(total('logSum') / (records + tableWeight));
  // Variance about the learned mean; the table's own spread stands for its weight of records.
  const squares = Math.max(
    0,
    total('squareSum') - 2 * mean * total('logSum') + records * mean ** 2,
  );
  const tableLog = Math.log(1 + tableSpread);
  const log = Math.sqrt((squares + tableWeight * tableLog ** 2) / (records + tableWeight));
  return { factor: Math.exp(mean), spread: Math.min(1, Math.exp(log) - 1), records };
}

function scaled(
  row: LabourRow,
  factor: number,
  spread: number,
  count: number,
  taught: Taught,
): LabourRow {
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
    taught,
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
export function learnedRates(
  library: Library,
  build: string,
  finished: readonly FinishedStage[],
): LearnedRate[] {
  const tableWeight = practiceOf(library)('learning-builds');
  return library.labour.flatMap((row) => {
    const own = finished.filter((stage) => labourIdOf(stage, library) === row.id);
    return own.length > 0 ? [learnedRate(row, build, own, tableWeight)] : [];
  });
}

function labourIdOf({ stage, kind }: FinishedStage, library: Library): string | undefined {
  const ref = readStageId(stage);
  const layup = ref?.what === 'layup' && LAYUP_IDS.find((id) => id === ref.layup);
  return layup ? layupRow(layup) : library.labour.find((row) => row.stage === kind)?.id;
}
