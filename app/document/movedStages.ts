/** Stages that were one and are several, or have another name: what a document says of them is read as what they are now. */
import { layupStageId, stageId } from './ids.ts';
import { suppliersSplit, type Named } from './splitOrder.ts';

/** Inserts and the plies of a repair were laid, or cured, in a stage without a layup of its own. */
const MOVED: Readonly<Record<string, string>> = {
  inserts: layupStageId('layup', 'inserts'),
  [stageId({ what: 'wait', for: 'inserts' })]: layupStageId('cure', 'inserts'),
  [stageId({ what: 'wait', for: 'repair' })]: layupStageId('cure', 'repair'),
};

/** The stage that a name in a document stands for. */
const nowCalled = (stage: string): string => MOVED[stage] ?? stage;

/** A build whose pins, records, links and printed plan name stages as they are called now. */
export function withMovedStages<T extends Named>(build: T): T {
  const { printed, pins, records, links } = build;
  const named = [
    ...[...pins, ...records, ...(printed?.stages ?? [])].map(({ stage }) => stage),
    ...links.flatMap(({ before, after }) => [before, after]),
  ];
  if (!named.some((stage) => stage in MOVED)) return build;
  const moved = <S extends { readonly stage: string }>(one: S): S => ({
    ...one,
    stage: nowCalled(one.stage),
  });
  return {
    ...build,
    pins: pins.map(moved),
    records: records.map(moved),
    links: links.map((link) => ({
      ...link,
      before: nowCalled(link.before),
      after: nowCalled(link.after),
    })),
    printed: printed && { ...printed, stages: printed.stages.map(moved) },
  };
}

/** True where a name in a document, that of a stage that was split or moved included, means the stage. */
export const means = (named: string, stage: string): boolean =>
  nowCalled(named) === stage || suppliersSplit(named, stage);
