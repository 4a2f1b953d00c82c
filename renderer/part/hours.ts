/** Hands-on time by the row of the library that it comes from. */
import { mouldOf, releaseOf } from '../../app/document/library.ts';
import type { FinishingRow, LabourRow, StageKind } from '../../app/document/schema.ts';
import type { PlanOutcome } from '../../app/plan/outcome.ts';
import { explainWork } from '../../app/part/derivations.ts';
import { finishingRounds, labourById } from '../../app/part/labour.ts';
import { provenanceWords, type Origin } from '../state/origins.ts';
import { figure, originOf } from './origins.ts';

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

const LAYUP_ROWS: Readonly<Record<string, string>> = {
  core: 'layup-core',
  closeout: 'layup-strips',
};

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
      const own = part.layups.filter((layup) => (LAYUP_ROWS[layup.id] ?? 'layup') === row.id);
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

/** Coats of sealer and release are rows of the mould and of the release. */
function coatRows(kind: StageKind, { build, library }: PlanOutcome['detail']): Origin['rows'] {
  if (kind === 'seal') {
    const { name, sealCoats, sealMinutesPerM2, provenance } = mouldOf(
      library,
      build.mould.material,
    );
    const value = `${sealCoats} coats × ${sealMinutesPerM2} min/m² of mould`;
    return [{ name, value, from: provenanceWords(provenance) }];
  }
  if (kind === 'release') {
    const { name, coats, minutesPerM2, provenance } = releaseOf(library, build.mould.release);
    const value = `${coats} coats × ${minutesPerM2} min/m² of mould`;
    return [{ name, value, from: provenanceWords(provenance) }];
  }
  return [];
}

/** How a row comes to its hours. */
export function workOrigin({ detail }: PlanOutcome, row: HoursRow): Origin {
  const { part, build, library } = detail;
  if (row.table === 'finishing') {
    const from = provenanceWords(row.row.provenance);
    return {
      formula:
        'person-minutes = (set-up + per m² × area, curved areas counted for more) × familiarity',
      rows: [
        { name: 'Set-up', value: `${row.row.setupMinutes} min`, from },
        { name: 'Per square metre', value: `${row.row.minutesPerM2} min/m²`, from },
        { name: 'Area', value: `${figure(part.areaM2)} m²`, from: 'typed' },
      ],
      source: from,
    };
  }
  const origin = originOf(explainWork(row.kind, build, library, part));
  if (row.kind !== 'layup')
    return { ...origin, rows: [...coatRows(row.kind, detail), ...origin.rows] };
  // Each layup has a row and an area of its own.
  const labour = labourById(library, row.id);
  const from = provenanceWords(labour.provenance);
  return {
    ...origin,
    rows: [
      { name: 'Set-up', value: `${figure(labour.setupMinutes)} min`, from },
      { name: 'Per square metre', value: `${figure(labour.minutesPerM2)} min/m²`, from },
      { name: 'Per square metre of ply', value: `${figure(labour.minutesPerPlyM2)} min/m²`, from },
      { name: 'Per metre of edge', value: `${figure(labour.minutesPerEdgeM)} min/m`, from },
      ...part.layups
        .filter((layup) => (LAYUP_ROWS[layup.id] ?? 'layup') === row.id)
        .map((layup) => ({
          name: layup.name,
          value: `${figure(layup.areaM2)} m², ply ${figure(layup.plyAreaM2)} m², edge ${figure(layup.edgeM)} m`,
          from: `= ${figure(layup.personMinutes)} min`,
        })),
    ],
    source: from,
  };
}
