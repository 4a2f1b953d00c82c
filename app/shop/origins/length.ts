/** How a stage comes to its length. */
import { layupRow } from '../../part/layups.ts';
import type { LayupId } from '../../part/types.ts';
import { readStageId } from '../../document/ids.ts';
import { releaseOf } from '../../document/library.ts';
import type { StageResult } from '../../document/schema.ts';
import { hoursByRow, type HoursRow } from '../../plan/hoursByRow.ts';
import type { PlanOutcome } from '../../plan/outcome.ts';
import { length } from '../../time/words.ts';
import { figure } from '../../units/words.ts';
import { cureOrigin } from './cure.ts';
import { practiceOrigin, provenanceWords, result, type Origin, type OriginRow } from './origin.ts';
import { workOrigin } from './work.ts';

/** A stage from its start to its end, in its own hours. */
export function lengthOrigin(outcome: PlanOutcome, stage: StageResult): Origin {
  const minutes = outcome.detail.workMinutes[stage.id] ?? 0;
  const taken = result('Length', length(minutes));
  if (stage.kind === 'cure') return cureLength(outcome, stage, taken);
  const row = rowOf(outcome, stage);
  const own = outcome.detail.labour.find(({ id }) => id === stage.id)?.personMinutes;
  if (!row || own === undefined || stage.people.length === 0) return fixedLength(stage, taken);
  const work = workOrigin(outcome, row);
  const extra = stage.kind === 'layup' ? batchRows(outcome, stage) : coatWaits(outcome, stage);
  return {
    formula:
      'Length = one person’s work ÷ hands × (1 + share lost × (hands − 1))' +
      `${stage.kind === 'layup' ? ', and the mixing of its batches' : ''}. ${work.formula}`,
    rows: [
      ...work.rows,
      { name: 'One person’s work, this stage', value: length(own), from: 'result' },
      { name: 'Hands on it', value: String(stage.people.length), from: 'as planned' },
      practiceOrigin(outcome.detail.library, 'people-loss-share'),
      ...extra,
      taken,
    ],
    source: work.source,
  };
}

/** A cure runs from the sealed bag to bag-off, as its clock has it. */
function cureLength(outcome: PlanOutcome, stage: StageResult, taken: OriginRow): Origin {
  const cure = outcome.result.cures.find(({ id }) => id === stage.cure);
  if (!cure) return fixedLength(stage, taken);
  const debag = cureOrigin(outcome, cure, 'debagFrom');
  return { ...debag, rows: [...debag.rows, taken] };
}

/** Waits, orders and visits: a time that is given, not worked out from the part. */
const fixedLength = ({ name }: StageResult, taken: OriginRow): Origin => ({
  formula:
    'Its time is given: by a row of the library, by the outside party, or by what it waits for.',
  rows: [{ name, value: taken.value.replace('= ', '') }, taken],
  source: 'Rows of the library are common practice or data sheets, and can be changed.',
});

/** Somebody stays with the mould between coats of release: those waits are part of the stage. */
function coatWaits(
  { detail: { build, library } }: PlanOutcome,
  { kind }: StageResult,
): OriginRow[] {
  if (kind !== 'release') return [];
  const { coats, betweenCoatsMinutes, provenance } = releaseOf(library, build.mould.release);
  return [
    {
      name: 'Waits between coats',
      value: `${coats - 1} × ${length(betweenCoatsMinutes)}`,
      from: provenanceWords(provenance),
    },
  ];
}

function batchRows({ detail }: PlanOutcome, { cure }: StageResult): OriginRow[] {
  const batches = cure === null ? [] : (detail.batches[cure] ?? []);
  return batches.length === 0
    ? []
    : [
        {
          name: 'Batches under this bag',
          value: figure(batches.length),
          from: 'from pot life and mass',
        },
        practiceOrigin(detail.library, 'mix-minutes-per-batch'),
      ];
}

/** The row of the library that a stage’s work goes by. */
function rowOf(outcome: PlanOutcome, { id, kind, name }: StageResult): HoursRow | undefined {
  const rows = hoursByRow(outcome);
  const ref = readStageId(id);
  if (ref?.what === 'layup') {
    const own = layupRow(ref.layup as LayupId);
    return rows.find((row) => row.id === own);
  }
  const ofKind = rows.filter((row) => row.table !== 'none' && row.kind === kind);
  const named = ofKind.find((row) => row.name === name || name.startsWith(`${row.name}, lift `));
  return named ?? ofKind.find(({ table }) => table === 'labour');
}
