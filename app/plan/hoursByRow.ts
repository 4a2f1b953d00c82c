/** Hands-on time of a plan by the row of the library that it comes from. */
import type { FinishingRow, LabourRow, StageKind } from '../document/schema.ts';
import { finishingRounds } from '../part/labour.ts';
import type { LayupId } from '../part/types.ts';
import type { PlanOutcome } from './outcome.ts';

interface Hours {
  readonly id: string;
  readonly name: string;
  /** All times that the plan has it, one person's. */
  readonly personMinutes: number;
  readonly stages: number;
  readonly kind: StageKind;
}

export type HoursRow = Hours &
  (
    | { readonly table: 'labour'; readonly row: LabourRow }
    | { readonly table: 'finishing'; readonly row: FinishingRow }
  );

const LAYUP_ROWS: Readonly<Partial<Record<LayupId, string>>> = {
  core: 'layup-core',
  closeout: 'layup-strips',
};
/** Id of the labour row by which a layup is timed. */
export const layupRow = (layup: LayupId): string => LAYUP_ROWS[layup] ?? 'layup';

/** Rows in the order of the library, those without work left out. */
export function hoursByRow({ result, detail }: PlanOutcome): HoursRow[] {
  const { library, part, build } = detail;
  const rows: HoursRow[] = [];
  const add = (row: LabourRow, personMinutes: number, stages: number): void => {
    const { id, name, stage: kind } = row;
    if (personMinutes > 0)
      rows.push({ table: 'labour', id, name, row, personMinutes, stages, kind });
  };
  const seen = new Set<StageKind>();
  for (const row of library.labour) {
    if (row.stage === 'layup') {
      const own = part.layups.filter((layup) => layupRow(layup.id) === row.id);
      add(
        row,
        own.reduce((sum, layup) => sum + layup.personMinutes, 0),
        own.length,
      );
    } else if (!seen.has(row.stage)) {
      const stages = result.stages.filter((stage) => stage.kind === row.stage).length;
      add(row, part.workFor(row.stage).personMinutes * stages, stages);
    }
    seen.add(row.stage);
  }
  for (const { row, personMinutes } of finishingRounds(build, library)) {
    const { id, name, stage: kind } = row;
    rows.push({ table: 'finishing', id, name, row, personMinutes, stages: 1, kind });
  }
  return rows;
}
