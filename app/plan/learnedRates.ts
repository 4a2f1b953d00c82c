/** What the records of a build say about the rates of work. */
import { recordsInForce } from '../document/records.ts';
import { readStageId } from '../document/ids.ts';
import { learnedRates, type FinishedStage, type LearnedRate } from '../part/learn.ts';
import { intersect } from '../time/calendar.ts';
import { localToMinute } from '../time/zone.ts';
import type { PlanOutcome } from './outcome.ts';

/** Planned by the rates alone against worked, for every stage whose end the floor wrote down. */
export function finishedStages({ result, detail }: PlanOutcome): FinishedStage[] {
  const { build, part, shopHours } = detail;
  const last = recordsInForce(build);
  const minute = (local: string): number | null => localToMinute(local, build.zone)?.minute ?? null;
  return [...last.values()].flatMap((record): FinishedStage[] => {
    const stage = result.stages.find(({ id }) => id === record.stage);
    const people = record.people.length > 0 ? record.people : (stage?.people ?? []);
    if (!stage || record.end === null || people.length === 0) return [];
    const [start, end] = [minute(record.start), minute(record.end)];
    if (start === null || end === null || end <= start) return [];
    const ref = readStageId(stage.id);
    const layup = part.layups.find(({ id }) => ref?.what === 'layup' && ref.layup === id);
    // How long resin runs into dry cloth says nothing of how fast hands lay it.
    if (layup?.infused) return [];
    const plannedMinutes = layup?.personMinutes ?? part.workFor(stage.kind).personMinutes;
    const spans = intersect([{ start, end }], shopHours);
    const minutes = spans.reduce((sum, span) => sum + span.end - span.start, 0);
    const clocked = (minutes || end - start) * people.length;
    const workedMinutes = record.workedMinutes ?? clocked;
    return [{ stage: stage.id, kind: stage.kind, plannedMinutes, workedMinutes }];
  });
}

/** What the records of this build say about the rates, by row. */
export const learned = (outcome: PlanOutcome): ReadonlyMap<string, LearnedRate> =>
  new Map(
    learnedRates(outcome.detail.library, outcome.detail.build.id, finishedStages(outcome)).map(
      (rate) => [rate.row.id, rate],
    ),
  );
