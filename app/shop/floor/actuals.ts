/** What was written down beside what was planned: hours, grams mixed, kilograms on the scales. */
import { recordsInForce } from '../../document/records.ts';
import { finishedStages } from '../../plan/learnedRates.ts';
import type { PlanOutcome } from '../../plan/outcome.ts';

export interface Actual {
  readonly stage: string;
  readonly name: string;
  /** Work of one person, minutes; null: not written down. */
  readonly minutes: { readonly planned: number; readonly worked: number } | null;
  /** Batches that were written down with their mass; null: none was. */
  readonly grams: {
    readonly planned: number;
    readonly mixed: number;
    readonly batches: number;
  } | null;
  /** The part on the scales once the stage was done. */
  readonly massKg: number | null;
}

export interface Actuals {
  readonly stages: readonly Actual[];
  /** Sums over the stages that have both figures. */
  readonly minutes: { readonly planned: number; readonly worked: number };
  readonly grams: { readonly planned: number; readonly mixed: number };
  /** Planned mass of the whole part, and the last weighing; null: it was never weighed. */
  readonly massKg: { readonly planned: number; readonly weighed: number | null };
}

/** Every stage of which something was written down, in the order of writing. */
export function actualsOf(outcome: PlanOutcome): Actuals {
  const { result, detail } = outcome;
  const worked = new Map(finishedStages(outcome).map((one) => [one.stage, one]));
  const stages = [...recordsInForce(detail.build).values()].flatMap((record): Actual[] => {
    const stage = result.stages.find(({ id }) => id === record.stage);
    if (!stage) return [];
    const hours = worked.get(stage.id);
    const weighed = record.mixes.filter(({ massG }) => massG !== null);
    const planned = weighed.map(({ batch }) =>
      result.mixes.find((mix) => mix.cure === stage.cure && mix.batch === batch),
    );
    return [
      {
        stage: stage.id,
        name: stage.name,
        minutes: hours ? { planned: hours.plannedMinutes, worked: hours.workedMinutes } : null,
        grams:
          weighed.length === 0
            ? null
            : {
                planned: sum(planned.map((mix) => mix?.totalG ?? 0)),
                mixed: sum(weighed.map(({ massG }) => massG ?? 0)),
                batches: weighed.length,
              },
        massKg: record.massKg,
      },
    ];
  });
  const minutes = stages.flatMap((one) => one.minutes ?? []);
  const grams = stages.flatMap((one) => one.grams ?? []);
  return {
    stages,
    minutes: {
      planned: sum(minutes.map((one) => one.planned)),
      worked: sum(minutes.map((one) => one.worked)),
    },
    grams: {
      planned: sum(grams.map((one) => one.planned)),
      mixed: sum(grams.map((one) => one.mixed)),
    },
    massKg: {
      planned: result.totals.massKg,
      weighed: stages.findLast(({ massKg }) => massKg !== null)?.massKg ?? null,
    },
  };
}

const sum = (values: readonly number[]): number => values.reduce((total, one) => total + one, 0);
