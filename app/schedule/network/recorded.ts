/** Applies the floor's records and the pins to the stages: what has begun, and what follows it by itself. */
import { recordsInForce } from '../../document/records.ts';
import type { FloorRecord, StageKind } from '../../document/schema.ts';
import type { Minute } from '../../time/instant.ts';
import { localToMinute } from '../../time/zone.ts';
import { modeEnd } from '../modeEnd.ts';
import { closes, type Relation, type StageSpec } from '../problem.ts';
import type { RelationReason } from '../../messages/relations.ts';
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
  stage.fixedStart !== null &&
  stage.fixedStart < from &&
  (COURSE[stage.kind].startsByItself || stage.kind === 'wait');

interface Course {
  /** Begins by itself, or with the people who are there, the moment the work before it ends. */
  readonly startsByItself: boolean;
  /** Runs to its end whether or not anybody writes that down. */
  readonly endsByItself: boolean;
}
const BY_HANDS: Course = { startsByItself: false, endsByItself: false };
const BY_ITSELF: Course = { startsByItself: true, endsByItself: true };
/** Begun by somebody, and over by itself. */
const RUNS_OUT: Course = { startsByItself: false, endsByItself: true };

const COURSE: Readonly<Record<StageKind, Course>> = {
  'sign-off': BY_HANDS,
  order: BY_HANDS,
  arrival: BY_HANDS,
  machining: BY_HANDS,
  mould: BY_HANDS,
  seal: BY_HANDS,
  'bag-test': BY_HANDS,
  'test-panel': BY_HANDS,
  release: BY_HANDS,
  'resin-warm': RUNS_OUT,
  'mould-heat': RUNS_OUT,
  cutting: BY_HANDS,
  'core-fit': BY_HANDS,
  inserts: BY_HANDS,
  rehearsal: BY_HANDS,
  prepare: BY_HANDS,
  'lay-dry': BY_HANDS,
  'drop-test': BY_HANDS,
  layup: BY_HANDS,
  'watched-vacuum': BY_ITSELF,
  cure: BY_ITSELF,
  'bag-off': BY_HANDS,
  'tap-test': BY_HANDS,
  'heat-setup': BY_HANDS,
  'post-cure': RUNS_OUT,
  'heat-takedown': BY_HANDS,
  demould: BY_HANDS,
  repair: BY_HANDS,
  trim: BY_HANDS,
  'dry-fit': BY_HANDS,
  closeout: BY_HANDS,
  'edge-fill': BY_HANDS,
  rim: BY_HANDS,
  'fit-check': BY_HANDS,
  fair: BY_HANDS,
  prime: BY_HANDS,
  wait: RUNS_OUT,
  wrap: BY_HANDS,
  drive: BY_HANDS,
  outside: BY_HANDS,
  hardware: BY_HANDS,
  'hand-over': BY_HANDS,
  own: BY_HANDS,
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
    const end = COURSE[stage.kind].startsByItself
      ? followedEnd(stage, relations, ends)
      : hardensFrom(stage, relations, ends);
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

/** Why something waits that hardens or dries from the moment the work is over, whoever looks. */
const HARDENS: ReadonlySet<RelationReason> = new Set<RelationReason>([
  'sealer-cures',
  'panel-tested',
  'coat-dries',
  'edge-filler-dries',
  'rim-hard',
]);

/** The recorded end from which a wait runs by itself; null: it waits for something else, or there is none. */
function hardensFrom(
  { id, kind, neededIf }: StageSpec,
  relations: readonly Relation[],
  ends: ReadonlyMap<string, Minute | null>,
): Minute | null {
  if (kind !== 'wait' || neededIf) return null;
  const from = relations.filter((one) => one.to === id && !closes(one));
  if (from.length === 0 || from.some(({ why }) => !HARDENS.has(why))) return null;
  const over = from.map((one) => ends.get(one.from) ?? null);
  return over.some((end) => end === null) ? null : Math.max(...over.map((end) => end!));
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
  if (COURSE[stage.kind].endsByItself || start >= now) return stage;
  const going = stage.modes.filter((mode) => (modeEnd(mode, start) ?? start) >= now);
  return going.length > 0 ? { ...stage, modes: going } : { ...stage, fixedEnd: now };
}
