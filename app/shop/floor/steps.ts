/** What is stamped at the bench: the steps of each stage, and the record that a stamp becomes. */
import { layupStageId, readStageId } from '../../document/ids.ts';
import { recordsInForce } from '../../document/records.ts';
import type { FloorEntry } from '../../document/edit/records.ts';
import type { StageKind, StageResult } from '../../document/schema.ts';
import type { PlanOutcome } from '../../plan/outcome.ts';
import { localMinuteOf } from '../../plan/records.ts';
import type { Minute } from '../../time/instant.ts';
import { isoToMinute } from '../../time/zone.ts';

export const STAMPS = ['started', 'mixed', 'bag-down', 'gel', 'off', 'done'] as const;
export type Stamp = (typeof STAMPS)[number];

/** What a wrong stamp of could hurt: the key is held for it. */
export const IS_HELD: Readonly<Record<Stamp, boolean>> = {
  started: false,
  mixed: true,
  'bag-down': true,
  gel: true,
  off: false,
  done: false,
};

/** One moment that somebody stamps. */
export interface Step {
  readonly key: string;
  readonly stage: string;
  readonly name: string;
  readonly stamp: Stamp;
  /** Which batch of the cure, and of how many in this stretch; null: no mix. */
  readonly batch: { readonly number: number; readonly of: number; readonly massG: number } | null;
  /** When the plan has it; null: not placed. */
  readonly at: Minute | null;
  readonly people: readonly string[];
  /** Begun, and not over. */
  readonly running: boolean;
  /** Belongs to a cure whose cloth is laid dry and filled under its bag. */
  readonly infused: boolean;
}

/** How often a kind of stage is stamped: as it begins and ends, once, or by a cure's own moments. */
const STAMPED: Readonly<
  Record<StageKind, 'twice' | 'once' | 'never' | 'layup' | 'bag-off' | 'gel'>
> = {
  'sign-off': 'once',
  order: 'once',
  arrival: 'once',
  machining: 'twice',
  mould: 'twice',
  seal: 'twice',
  'bag-test': 'twice',
  'test-panel': 'twice',
  release: 'twice',
  'resin-warm': 'twice',
  'mould-heat': 'twice',
  cutting: 'twice',
  'core-fit': 'twice',
  inserts: 'twice',
  rehearsal: 'twice',
  prepare: 'twice',
  'lay-dry': 'twice',
  'drop-test': 'twice',
  layup: 'layup',
  'watched-vacuum': 'never',
  cure: 'gel',
  'bag-off': 'bag-off',
  'tap-test': 'twice',
  'heat-setup': 'twice',
  'post-cure': 'twice',
  'heat-takedown': 'twice',
  demould: 'twice',
  repair: 'twice',
  trim: 'twice',
  'dry-fit': 'twice',
  closeout: 'twice',
  'edge-fill': 'twice',
  rim: 'twice',
  'fit-check': 'twice',
  fair: 'twice',
  prime: 'twice',
  wait: 'never',
  wrap: 'twice',
  drive: 'twice',
  outside: 'twice',
  hardware: 'twice',
  'hand-over': 'once',
  own: 'twice',
};

/** True of what nobody stamps: it passes by itself. */
export const isNeverStamped = (kind: StageKind): boolean => STAMPED[kind] === 'never';

const minuteOf = (iso: string | null): Minute | null => (iso === null ? null : isoToMinute(iso));

/** Every step that is still to be stamped, in the order of the plan; those of one stage in their own order. */
export function openSteps(outcome: PlanOutcome): Step[] {
  const steps = outcome.result.stages.flatMap((stage) => stepsOf(outcome, stage));
  return steps
    .map((step, i) => ({ step, i }))
    .sort((a, b) => (a.step.at ?? Infinity) - (b.step.at ?? Infinity) || a.i - b.i)
    .map(({ step }) => step);
}

/** What of a stage is still to be stamped, in order. */
export function stepsOf(outcome: PlanOutcome, stage: StageResult): Step[] {
  const record = recordsInForce(outcome.detail.build).get(stage.id);
  const over = stage.state === 'implied' || (record !== undefined && record.end !== null);
  const [start, end] = [minuteOf(stage.start), minuteOf(stage.end)];
  const step = (stamp: Stamp, at: Minute | null, batch: Step['batch'] = null): Step => ({
    key: [stage.id, stamp, ...(batch ? [batch.number] : [])].join('/'),
    stage: stage.id,
    name: stage.name,
    stamp,
    batch,
    at,
    people: stage.people,
    running: record !== undefined,
    infused: outcome.result.cures.some(({ id, infused }) => id === stage.cure && infused === true),
  });
  if (over) return [];
  switch (STAMPED[stage.kind]) {
    case 'never':
      return [];
    case 'once':
      return [step('done', end)];
    case 'twice':
      return record ? [step('done', end)] : [step('started', start), step('done', end)];
    case 'bag-off':
      return record ? [step('done', end)] : [step('off', start), step('done', end)];
    case 'gel':
      return record?.gelAt ? [] : gelSteps(outcome, stage, step);
    case 'layup': {
      const mixed = new Set((record?.mixes ?? []).map(({ batch }) => batch));
      const own = mixesOf(outcome, stage);
      const mixes = own
        .filter(({ batch }) => !mixed.has(batch))
        .map(({ batch, mixAt, totalG }) =>
          step('mixed', minuteOf(mixAt), { number: batch, of: own.at(-1)!.batch, massG: totalG }),
        );
      return [...mixes, step(isLastStretch(outcome, stage) ? 'bag-down' : 'done', end)];
    }
  }
}

type MakeStep = (stamp: Stamp, at: Minute | null) => Step;

/** The smear of a bag is looked at; heat and waits have none. */
function gelSteps({ result }: PlanOutcome, stage: StageResult, step: MakeStep): Step[] {
  const cure = result.cures.find(({ id }) => id === stage.cure);
  const past = result.stages.some(
    ({ cure: of, kind, state }) => of === stage.cure && kind === 'bag-off' && state !== undefined,
  );
  return cure && !past && readStageId(stage.id)?.what === 'cure'
    ? [step('gel', minuteOf(cure.gel))]
    : [];
}

/** The batches of one stretch of wet work: mixed from its start on, and before the next begins. */
export function mixesOf({ result }: PlanOutcome, stage: StageResult) {
  const starts = result.stages
    .filter(({ kind, cure, start }) => kind === 'layup' && cure === stage.cure && start !== null)
    .map(({ start }) => minuteOf(start)!)
    .filter((start) => start > minuteOf(stage.start)!);
  const until = Math.min(Infinity, ...starts);
  return result.mixes.filter(({ cure, mixAt }) => {
    const at = minuteOf(mixAt);
    return cure === stage.cure && at !== null && at >= minuteOf(stage.start)! && at < until;
  });
}

const isLastStretch = ({ result }: PlanOutcome, stage: StageResult): boolean =>
  result.stages.findLast(({ kind, cure }) => kind === 'layup' && cure === stage.cure)?.id ===
  stage.id;

/** What a stamp writes down, the stage's own record first. */
export function stampEntries(outcome: PlanOutcome, step: Step, now: Minute): FloorEntry[] {
  const { result, detail } = outcome;
  const { zone } = detail.build;
  const at = localMinuteOf(now, zone);
  const stage = result.stages.find(({ id }) => id === step.stage)!;
  const joints = result.routes.find(({ id }) => id === result.route.id)?.joints ?? null;
  const inForce = recordsInForce(detail.build).get(step.stage);
  const begun: FloorEntry = inForce
    ? { ...inForce }
    : { stage: step.stage, start: at, end: null, people: [...step.people], joints };
  switch (step.stamp) {
    case 'started':
    case 'off':
      return [begun];
    case 'done':
    case 'bag-down':
      return [{ ...begun, end: at }];
    case 'mixed': {
      const { number, massG } = step.batch!;
      const mix = { batch: number, at, massG: Math.round(massG * 10) / 10 };
      return [{ ...begun, mixes: [...(begun.mixes ?? []), mix] }];
    }
    case 'gel': {
      const planned = minuteOf(stage.start);
      const start = inForce?.start ?? (planned === null ? at : localMinuteOf(planned, zone));
      const cure: FloorEntry = { ...begun, start, people: [], gelAt: at };
      const ref = readStageId(step.stage);
      const look = ref?.what === 'cure' ? layupStageId('gel-look', ref.layup) : '';
      const seen = result.stages.find(({ id, state }) => id === look && state === undefined);
      return seen ? [cure, { stage: look, start: at, end: at, people: [...seen.people] }] : [cure];
    }
  }
}
