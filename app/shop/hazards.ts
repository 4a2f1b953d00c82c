/** The hazards and cautions of a stage as it is planned: its materials, its heat, how many are on it. */
import type { Hazard, StageKind, StageResult } from '../document/schema.ts';
import { clothsUsed } from '../document/library.ts';
import { zonesFinished } from '../document/finish.ts';
import { cautionsFor, type StageCircumstances } from '../messages/safety.ts';
import type { PlanOutcome } from '../plan/outcome.ts';

/** Hazards of what is handled at a stage: resin, hardener, release; of a round of finishing its own alone. */
export function hazardsOf({ detail }: PlanOutcome, stage: StageResult): Hazard[] {
  const { build, library } = detail;
  const rounds = library.finishing.filter(
    (row) => row.stage === stage.kind && zonesFinished(build, row.finishes).length > 0,
  );
  if (rounds.length > 0) {
    const own = rounds.filter(
      ({ name }) => name === stage.name || stage.name.startsWith(`${name}, lift `),
    );
    return (own.length > 0 ? own : rounds).flatMap((row) => row.hazards);
  }
  const resin = library.resins.find((row) => row.id === build.resin.system);
  const made = stage.cure === null ? undefined : detail.cures[stage.cure];
  const inUse = made?.hardener ?? build.resin.hardener;
  const hardener = resin?.hardeners.find((row) => row.id === inUse);
  const release = library.releases.find((row) => row.id === build.mould.release);
  return [resin, hardener, release].flatMap((row) => row?.hazards ?? []);
}

/** The cautions of a stage of the plan. */
export const cautionsOf = (outcome: PlanOutcome, stage: StageResult): string[] =>
  cautionsFor(stage.kind, hazardsOf(outcome, stage), {
    heated: stage.cure !== null && isHeated(outcome, stage.cure),
    alone: stage.people.length === 1,
    carbonFree: isCarbonFree(outcome),
  });

/** None of the cloths in the part is of carbon. */
export function isCarbonFree({ detail }: PlanOutcome): boolean {
  const cloths = clothsUsed(detail.build);
  return !detail.library.cloths.some(({ id, fibre }) => fibre === 'carbon' && cloths.has(id));
}

const isHeated = ({ detail }: PlanOutcome, cure: string): boolean =>
  (detail.cures[cure]?.heat ?? null) !== null;

/** How a cure is made, for the cards that say the cautions of all its stages at once. */
export function circumstancesOf(outcome: PlanOutcome, cure: string): StageCircumstances {
  const wet = outcome.result.stages.filter(
    (stage) => stage.cure === cure && stage.kind === ('layup' satisfies StageKind),
  );
  return {
    heated: isHeated(outcome, cure),
    alone: wet.some(({ people }) => people.length === 1),
    carbonFree: isCarbonFree(outcome),
  };
}
