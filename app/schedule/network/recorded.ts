/** Applies the floor's records and the pins to the stages: what has begun, and what follows it by itself. */
import { recordsInForce } from '../../document/records.ts';
import type { FloorRecord, StageKind } from '../../document/schema.ts';
import { addWork } from '../../time/calendar.ts';
import type { Minute } from '../../time/instant.ts';
import { localToMinute } from '../../time/zone.ts';
import { closes, type Mode, type Relation, type StageSpec } from '../problem.ts';
import { comesBefore, impliedBy } from './implied.ts';
import type { NetworkInput } from './input.ts';

type History = Pick<NetworkInput, 'build' | 'from' | 'now'>;

/** Relations without those that lead to a stage that has begun: they no longer bind it. */
export function relationsToOpenStages(
  relations: readonly Relation[],
  stages: readonly StageSpec[],
  { from }: Pick<History, 'from'>,
): Relation[] {
  const begun = new Set(
    stages
      .filter((stage) => stage.begun === true || hasStartedByItself(stage, from))
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
  inserts: false,
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
  repair: false,
  trim: false,
  'dry-fit': false,
  closeout: false,
  'edge-fill': false,
  rim: false,
  'fit-check': false,
  fair: false,
  prime: false,
  wait: false,
  wrap: false,
  drive: false,
  outside: false,
  hardware: false,
  'hand-over': false,
  own: false,
};

/**
 * Stages fixed by their records, by what records imply, by the recorded end that they follow at once, or
 * by their pins.
 */
export function withRecordsAndPins(
  stages: readonly StageSpec[],
  relations: readonly Relation[],
  history: History,
): StageSpec[] {
  const records = recordsInForce(history.build);
  const recorded = stages.map((stage) => fixed(stage, records.get(stage.id), history));
  const begun = new Map(
    recorded.flatMap((stage) => (stage.begun ? [[stage.id, stage.fixedStart!] as const] : [])),
  );
  const implied = impliedBy(begun, comesBefore(stages, relations));
  const ends = new Map(recorded.map((stage) => [stage.id, stage.fixedEnd]));
  return recorded.map((stage) => {
    if (stage.begun) return stage;
    const by = implied.get(stage.id);
    const end = STARTS_BY_ITSELF[stage.kind] ? followedEnd(stage, relations, ends) : null;
    if (by !== undefined) return overBy(stage, by, end);
    if (stage.fixedStart !== null || end === null || end >= history.from) return stage;
    return { ...stage, fixedStart: end };
  });
}

/** The recorded end that a stage follows at once; null: there is none. */
function followedEnd(
  { id }: StageSpec,
  relations: readonly Relation[],
  ends: ReadonlyMap<string, Minute | null>,
): Minute | null {
  const tie = relations.find(
    (one) => one.to === id && closes(one) && one.anchor === 'end' && one.lag === 0,
  );
  return tie ? (ends.get(tie.from) ?? null) : null;
}

/** Not written down, and over before what is: of no length where nobody knows when it began. */
const overBy = (stage: StageSpec, by: Minute, began: Minute | null): StageSpec => ({
  ...stage,
  begun: true,
  fixedStart: Math.min(began ?? by, by),
  fixedEnd: by,
});

/** The stage fixed by its record, or else by its pin. */
function fixed(stage: StageSpec, record: FloorRecord | undefined, history: History): StageSpec {
  const { build } = history;
  const minute = (local: string): Minute | null => localToMinute(local, build.zone)?.minute ?? null;
  const start = record ? minute(record.start) : null;
  if (record && start !== null) {
    const begun = { ...stage, begun: true, fixedStart: start } as const;
    const end = record.end === null ? null : minute(record.end);
    return end === null
      ? stillGoing(begun, start, history)
      : { ...begun, fixedEnd: Math.max(start, end) };
  }
  const pin = build.pins.findLast((p) => p.stage === stage.id);
  return pin ? { ...stage, fixedStart: minute(pin.start) } : stage;
}

/**
 * Work without a recorded end is still going: it is done in a way that is not over yet, or, where every
 * way would be, it ends now at the earliest.
 */
function stillGoing(stage: StageSpec, start: Minute, { now }: History): StageSpec {
  if (ENDS_BY_ITSELF[stage.kind] || start >= now) return stage;
  const going = stage.modes.filter((mode) => (endOf(mode, start) ?? start) >= now);
  return going.length > 0 ? { ...stage, modes: going } : { ...stage, fixedEnd: now };
}

function endOf({ length, calendar }: Mode, start: Minute): Minute | null {
  if (length.kind === 'function') return length.endOf(start);
  if (length.kind === 'elapsed' || length.unbroken || calendar === null) {
    return start + length.minutes;
  }
  return addWork(calendar, start, length.minutes);
}

/** Runs to its end whether or not anybody writes that down. */
const ENDS_BY_ITSELF: Readonly<Record<StageKind, boolean>> = {
  'sign-off': false,
  order: false,
  arrival: false,
  machining: false,
  mould: false,
  seal: false,
  'bag-test': false,
  'test-panel': false,
  release: false,
  'resin-warm': true,
  'mould-heat': true,
  cutting: false,
  'core-fit': false,
  inserts: false,
  rehearsal: false,
  prepare: false,
  layup: false,
  'watched-vacuum': true,
  cure: true,
  'bag-off': false,
  'tap-test': false,
  'heat-setup': false,
  'post-cure': true,
  'heat-takedown': false,
  demould: false,
  repair: false,
  trim: false,
  'dry-fit': false,
  closeout: false,
  'edge-fill': false,
  rim: false,
  'fit-check': false,
  fair: false,
  prime: false,
  wait: true,
  wrap: false,
  drive: false,
  outside: false,
  hardware: false,
  'hand-over': false,
  own: false,
};
