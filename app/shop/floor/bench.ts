/** What the bench shows: the step that is now, what else could be stamped, what comes next, and its clocks. */
import type { FloorEntry } from '../../document/edit/records.ts';
import { recordsInForce } from '../../document/records.ts';
import { floorRecordSchema, type StageResult } from '../../document/schema.ts';
import type { PlanOutcome } from '../../plan/outcome.ts';
import type { Minute } from '../../time/instant.ts';
import { localToMinute, minuteToIso } from '../../time/zone.ts';
import { nearestClock, runningClocks, type BenchClock } from './clocks.ts';
import { isNeverStamped, openSteps, type Step } from './steps.ts';

export interface Bench {
  readonly steps: readonly Step[];
  /** What the key stamps; null: nothing is left. */
  readonly current: Step | null;
  /** Steps that could be stamped now, one of each stage, the current one among them. */
  readonly choices: readonly Step[];
  /** What comes once the current one is stamped. */
  readonly next: Step | null;
  readonly clocks: readonly BenchClock[];
  readonly clock: BenchClock | null;
  /** True while resin is wet or curing: the computer may not sleep. */
  readonly curing: boolean;
}

const MOST_CHOICES = 6;

/**
 * The bench at a moment.
 * @param picked key of the step that somebody chose; the first of the plan where it is none of them
 */
export function benchAt(outcome: PlanOutcome, now: Minute, picked: string | null): Bench {
  const steps = openSteps(outcome);
  const first = new Map<string, Step>();
  for (const step of steps) if (!first.has(step.stage)) first.set(step.stage, step);
  const open = [...first.values()].filter((step) => isReady(outcome, step));
  const choices = open.slice(0, MOST_CHOICES);
  const current = choices.find(({ key }) => key === picked) ?? choices[0] ?? null;
  const clocks = runningClocks(outcome);
  return {
    steps,
    current,
    choices,
    next:
      steps.find((step) => step.key !== current?.key && isAfter(step, current, choices)) ?? null,
    clocks,
    clock: nearestClock(clocks, now),
    curing: clocks.length > 0,
  };
}

/** Nothing that must come before it is still to begin; a gel is looked for once its bag is down. */
function isReady({ result, detail }: PlanOutcome, { stage, stamp }: Step): boolean {
  const stages = new Map(result.stages.map((one) => [one.id, one]));
  const hasBegun = (id: string): boolean => stages.get(id)?.state !== undefined;
  const cleared = (id: string): boolean =>
    (detail.before?.[id] ?? []).every((earlier) => {
      const one = stages.get(earlier);
      if (!one || hasBegun(earlier)) return true;
      return isNeverStamped(one.kind) && cleared(earlier);
    });
  if (stamp !== 'gel') return cleared(stage);
  const cure = stages.get(stage)?.cure;
  const layups = result.stages.filter((one) => one.kind === 'layup' && one.cure === cure);
  return layups.every(({ state }) => state === 'done' || state === 'implied');
}

/** The next step of the plan, past the current one. */
const isAfter = (step: Step, current: Step | null, choices: readonly Step[]): boolean =>
  current === null ||
  step.stage === current.stage ||
  choices.includes(step) ||
  (step.at ?? 0) >= (current.at ?? 0);

/**
 * The plan with records that have just been written down, before it is planned again: their stages stand
 * as recorded, all others where they were.
 */
export function withStamps(outcome: PlanOutcome, entries: readonly FloorEntry[]): PlanOutcome {
  const { result, detail } = outcome;
  const records = [...detail.build.records, ...entries.map((one) => floorRecordSchema.parse(one))];
  const build = { ...detail.build, records };
  const inForce = recordsInForce(build);
  const iso = (local: string | null): string | null => {
    const minute = local === null ? null : localToMinute(local, build.zone)?.minute;
    return minute === null || minute === undefined ? null : minuteToIso(minute, build.zone);
  };
  const touched = new Set(entries.map(({ stage }) => stage));
  const stages = result.stages.map((stage): StageResult => {
    if (!touched.has(stage.id)) return stage;
    const { state: _before, ...plain } = stage;
    const record = inForce.get(stage.id);
    if (!record) return plain;
    const [start, end] = [iso(record.start) ?? stage.start, iso(record.end) ?? stage.end];
    return { ...plain, start, end, state: record.end === null ? 'running' : 'done' };
  });
  return { result: { ...result, stages }, detail: { ...detail, build } };
}
