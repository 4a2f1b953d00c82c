/** Hours of a plan by the row of the library that they come from; together they are the plan's. */
import { readStageId } from '../document/ids.ts';
import type { FinishingRow, LabourRow, StageKind } from '../document/schema.ts';
import { layupRow } from '../part/layups.ts';
import type { LayupId } from '../part/types.ts';
import { coreOnMouldRow, fitsCoreOnMould } from '../part/labour.ts';
import type { LabourEntry } from './labour.ts';
import type { PlanOutcome } from './outcome.ts';

interface Hours {
  readonly id: string;
  readonly name: string;
  /** All times that the plan has it, one person's. */
  readonly personMinutes: number;
  readonly stages: number;
}

export type HoursRow = Hours &
  (
    | { readonly table: 'labour'; readonly row: LabourRow; readonly kind: StageKind }
    | { readonly table: 'finishing'; readonly row: FinishingRow; readonly kind: StageKind }
    /** What has no rate of its own: the price of a route, an edge that is faired late. */
    | { readonly table: 'none'; readonly from: string }
  );

/** Rows in the order of the library, those without work left out, then what has no rate. */
export function hoursByRow({ detail }: PlanOutcome): HoursRow[] {
  const { labour, finishing } = detail.library;
  const coreRow = coreFitRow(detail);
  const rates = labour.filter((row, i) => {
    if (row.stage === 'core-fit') return row.id === coreRow;
    return row.stage === 'layup' || labour.findIndex((one) => one.stage === row.stage) === i;
  });
  const rated = new Set<LabourEntry>();
  const taken = (
    belongs: (entry: LabourEntry) => boolean,
  ): Pick<Hours, 'personMinutes' | 'stages'> => {
    const own = detail.labour.filter((entry) => !rated.has(entry) && belongs(entry));
    own.forEach((entry) => rated.add(entry));
    return { personMinutes: minutesOf(own), stages: own.length };
  };
  const rounds = finishing.map((row): HoursRow => {
    const { id, name, stage: kind } = row;
    const isRound = (entry: LabourEntry): boolean =>
      isOf(entry, kind) && (entry.name === name || entry.name.startsWith(`${name}, lift `));
    return { table: 'finishing', id, name, row, kind, ...taken(isRound) };
  });
  const work = rates.map((row): HoursRow => {
    const { id, name, stage: kind } = row;
    const isWork = (entry: LabourEntry): boolean =>
      isOf(entry, kind) && (kind !== 'layup' || layupRowOf(entry) === id);
    return { table: 'labour', id, name, row, kind, ...taken(isWork) };
  });
  const rest = detail.labour
    .filter((entry) => !rated.has(entry))
    .map(({ id, name, personMinutes, of }): HoursRow => {
      const from = of === 'price' ? 'price of the route' : 'common practice';
      return { table: 'none', id, name, personMinutes, stages: 1, from };
    });
  return [...work, ...rounds, ...rest].filter((row) => row.personMinutes !== 0);
}

/** The row by which core is fitted: its first, or that of core on the mould. */
const coreFitRow = ({ build, library }: PlanOutcome['detail']): string | undefined =>
  fitsCoreOnMould(build, library)
    ? coreOnMouldRow(library)?.id
    : library.labour.find(({ stage }) => stage === 'core-fit')?.id;

const isOf = (entry: LabourEntry, kind: StageKind): boolean =>
  entry.of === 'stage' && entry.kind === kind;

function layupRowOf({ id }: LabourEntry): string | null {
  const ref = readStageId(id);
  return ref?.what === 'layup' ? layupRow(ref.layup as LayupId) : null;
}

const minutesOf = (entries: readonly LabourEntry[]): number =>
  entries.reduce((sum, { personMinutes }) => sum + personMinutes, 0);
