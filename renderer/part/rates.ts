/** Rates of work as the shop sets them: the frozen rows of the build, never the shipped library. */
import { readStageId } from '../../app/document/ids.ts';
import type { FinishingRow, LabourRow, Library, Provenance } from '../../app/document/schema.ts';
import type { PlanOutcome } from '../../app/plan/outcome.ts';
import { labourById } from '../../app/part/labour.ts';
import { learnedRates, type FinishedStage, type LearnedRate } from '../../app/part/learn.ts';
import { intersect } from '../../app/time/calendar.ts';
import { localToMinute } from '../../app/time/zone.ts';
import type { Change } from '../edit/change.ts';
import type { Draft } from '../edit/path.ts';

export const RATES = [
  { key: 'setupMinutes', name: 'Set-up', unit: 'min' },
  { key: 'minutesPerM2', name: 'Per m²', unit: 'min' },
  { key: 'minutesPerPlyM2', name: 'Per m² of ply', unit: 'min' },
  { key: 'minutesPerEdgeM', name: 'Per m of edge', unit: 'min' },
] as const;
export type RateKey = (typeof RATES)[number]['key'];

const BY_THE_SHOP: Provenance = { kind: 'measured', source: 'set by the shop in this build' };

/**
 * The document with one labour row replaced. The whole table is frozen with it: the first row of a
 * stage kind counts, so their order must stay.
 */
export function putLabour(document: Draft, rows: Library, row: LabourRow, said: string): Change {
  const labour = rows.labour.map((one) => (one.id === row.id ? row : one));
  return {
    label: `${row.name}: ${said}`.slice(0, 120),
    document: { ...document, library: { ...document.library, labour } },
  };
}

export function setLabour(
  document: Draft,
  rows: Library,
  id: string,
  key: RateKey,
  minutes: number,
): Change {
  const row = labourById(rows, id);
  const next = { ...row, [key]: minutes, revision: row.revision + 1, provenance: BY_THE_SHOP };
  const { name } = RATES.find((rate) => rate.key === key)!;
  return putLabour(document, rows, next, `${name.toLowerCase()} ${minutes} min`);
}

export function setFinishing(
  document: Draft,
  rows: Library,
  id: string,
  key: 'setupMinutes' | 'minutesPerM2',
  minutes: number,
): Change {
  const finishing = rows.finishing.map((row): FinishingRow =>
    row.id === id
      ? { ...row, [key]: minutes, revision: row.revision + 1, provenance: BY_THE_SHOP }
      : row,
  );
  const name = rows.finishing.find((row) => row.id === id)?.name ?? id;
  return {
    label: `${name}: ${minutes} min`.slice(0, 120),
    document: { ...document, library: { ...document.library, finishing } },
  };
}

/** Planned by the rates alone against worked, for every stage whose end the floor wrote down. */
function finishedStages({ result, detail }: PlanOutcome): FinishedStage[] {
  const { build, part, shopHours } = detail;
  const last = new Map(build.records.map((record) => [record.stage, record]));
  const minute = (local: string): number | null => localToMinute(local, build.zone)?.minute ?? null;
  return [...last.values()].flatMap((record): FinishedStage[] => {
    const stage = result.stages.find(({ id }) => id === record.stage);
    if (!stage || record.end === null || stage.people.length === 0) return [];
    const [start, end] = [minute(record.start), minute(record.end)];
    if (start === null || end === null || end <= start) return [];
    const ref = readStageId(stage.id);
    const layup = part.layups.find(({ id }) => ref?.what === 'layup' && ref.layup === id);
    const plannedMinutes = layup?.personMinutes ?? part.workFor(stage.kind).personMinutes;
    const spans = intersect([{ start, end }], shopHours);
    const minutes = spans.reduce((sum, span) => sum + span.end - span.start, 0);
    const workedMinutes = (minutes || end - start) * stage.people.length;
    return [{ stage: stage.id, kind: stage.kind, plannedMinutes, workedMinutes }];
  });
}

/** What the records of this build say about the rates, by row. */
export const learned = (outcome: PlanOutcome): ReadonlyMap<string, LearnedRate> =>
  new Map(
    learnedRates(outcome.detail.library, finishedStages(outcome)).map((rate) => [
      rate.row.id,
      rate,
    ]),
  );
