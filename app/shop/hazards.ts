/** The hazards of what is handled at a stage: resin, hardener, release, fillers and primers in use. */
import type { Hazard, StageResult } from '../document/schema.ts';
import { zonesFinished } from '../document/finish.ts';
import type { PlanOutcome } from '../plan/outcome.ts';

export function hazardsOf({ detail }: PlanOutcome, stage: StageResult): Hazard[] {
  const { build, library } = detail;
  const resin = library.resins.find((row) => row.id === build.resin.system);
  const made = stage.cure === null ? undefined : detail.cures[stage.cure];
  const inUse = made?.hardener ?? build.resin.hardener;
  const hardener = resin?.hardeners.find((row) => row.id === inUse);
  const release = library.releases.find((row) => row.id === build.mould.release);
  const finishing = library.finishing.filter(
    (row) => row.stage === stage.kind && zonesFinished(build, row.finishes).length > 0,
  );
  return [
    ...(resin?.hazards ?? []),
    ...(hardener?.hazards ?? []),
    ...(release?.hazards ?? []),
    ...finishing.flatMap((row) => row.hazards),
  ];
}
