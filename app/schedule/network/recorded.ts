/** Applies the floor's records and the pins to the stages: what has begun, and what follows it by itself. */
import type { StageKind } from '../../document/schema.ts';
import { localToMinute } from '../../time/zone.ts';
import { closes, type Relation, type StageSpec } from '../problem.ts';
import type { NetworkInput } from './input.ts';

type History = Pick<NetworkInput, 'build' | 'from'>;

/** Relations without those that lead to a stage that has begun: they no longer bind it. */
export function relationsToOpenStages(
  relations: readonly Relation[],
  stages: readonly StageSpec[],
  { build, from }: History,
): Relation[] {
  const recorded = new Set(build.records.map((record) => record.stage));
  const begun = new Set(
    stages
      .filter((stage) => recorded.has(stage.id) || hasStartedByItself(stage, from))
      .map(({ id }) => id),
  );
  return relations.filter((relation) => !begun.has(relation.to));
}

/** Begun without a record of its own. */
const hasStartedByItself = (stage: StageSpec, from: number): boolean =>
  stage.fixedStart !== null && stage.fixedStart < from && STARTS_BY_ITSELF[stage.kind];

/** What begins by itself, or with the people who are there, the moment the work before it ends. */
const STARTS_BY_ITSELF: Readonly<Record<StageKind, boolean>> = {
  'sign-off': false,
  order: false,
  arrival: false,
  machining: false,
  mould: false,
  seal: false,
  'bag-test': false,
  'test-panel': false,
  release: false,
  'resin-warm': false,
  'mould-heat': false,
  cutting: false,
  'core-fit': false,
  rehearsal: false,
  prepare: false,
  layup: false,
  'watched-vacuum': true,
  cure: true,
  'bag-off': false,
  'tap-test': false,
  'heat-setup': false,
  'post-cure': false,
  'heat-takedown': false,
  demould: false,
  trim: false,
  closeout: false,
  'fit-check': false,
  fair: false,
  prime: false,
  wait: false,
  outside: false,
  hardware: false,
  'hand-over': false,
  own: false,
};

/** Stages fixed by their records, else by the recorded end that they follow at once, else by their pins. */
export function withRecordsAndPins(
  stages: readonly StageSpec[],
  relations: readonly Relation[],
  history: History,
): StageSpec[] {
  const recorded = stages.map((stage) => fixed(stage, history));
  const ends = new Map(recorded.map((stage) => [stage.id, stage.fixedEnd]));
  return recorded.map((stage) => {
    if (stage.fixedStart !== null || !STARTS_BY_ITSELF[stage.kind]) return stage;
    const tie = relations.find(
      (relation) =>
        relation.to === stage.id &&
        closes(relation) &&
        relation.anchor === 'end' &&
        relation.lag === 0,
    );
    const end = tie ? (ends.get(tie.from) ?? null) : null;
    return end === null || end >= history.from ? stage : { ...stage, fixedStart: end };
  });
}

/** The stage fixed by its newest record, or else by its pin. */
function fixed(stage: StageSpec, { build }: History): StageSpec {
  const minute = (local: string | null): number | null =>
    local === null ? null : (localToMinute(local, build.zone)?.minute ?? null);
  const record = build.records.findLast((r) => r.stage === stage.id);
  if (record) {
    return { ...stage, fixedStart: minute(record.start), fixedEnd: minute(record.end) };
  }
  const pin = build.pins.findLast((p) => p.stage === stage.id);
  return pin ? { ...stage, fixedStart: minute(pin.start) } : stage;
}
