/** The clocks that run at the bench, and the alarms that go by them. */
import { layupStageId, readStageId } from '../../document/ids.ts';
import { practiceOf } from '../../document/library.ts';
import { recordsInForce } from '../../document/records.ts';
import type { CureResult, StageResult } from '../../document/schema.ts';
import type { PlanOutcome } from '../../plan/outcome.ts';
import type { Minute } from '../../time/instant.ts';
import { isoToMinute, localToMinute } from '../../time/zone.ts';
import { cupUsedBy } from '../mixes.ts';
import { mixesOf, type Step } from './steps.ts';

export const CLOCKS = ['use-by', 'bag-by', 'gel-from', 'gel-by', 'off-from'] as const;
export type ClockKind = (typeof CLOCKS)[number];

/** One moment that something at the bench runs towards. */
export interface BenchClock {
  readonly kind: ClockKind;
  readonly cure: string;
  /** In words, as on the cards. */
  readonly name: string;
  readonly at: Minute;
  /** True where being late does harm: the cup, the bag. */
  readonly isLimit: boolean;
  readonly infused: boolean;
}

const minuteOf = (iso: string | null): Minute | null => (iso === null ? null : isoToMinute(iso));

/** How far a cure has come by what is written down. */
interface Progress {
  readonly cure: CureResult;
  readonly layups: readonly StageResult[];
  readonly mixed: boolean;
  readonly sealed: boolean;
  readonly gelled: boolean;
  readonly off: boolean;
}

function progressOf({ result, detail }: PlanOutcome): Progress[] {
  const records = recordsInForce(detail.build);
  return result.cures.map((cure) => {
    const own = result.stages.filter((stage) => stage.cure === cure.id);
    const layups = own.filter(({ kind }) => kind === 'layup');
    const over = (stage: StageResult | undefined): boolean =>
      stage?.state === 'done' || stage?.state === 'implied';
    const gelled = own.some(
      ({ id }) => readStageId(id)?.what === 'cure' && Boolean(records.get(id)?.gelAt),
    );
    const off = own.some(({ kind, state }) => kind === 'bag-off' && state !== undefined);
    return {
      cure,
      layups,
      mixed: layups.some(({ state }) => state !== undefined),
      sealed: over(layups.at(-1)),
      gelled,
      off,
    };
  });
}

/** Every clock that runs, the nearest first. */
export function runningClocks(outcome: PlanOutcome): BenchClock[] {
  const clocks = progressOf(outcome).flatMap((progress): BenchClock[] => {
    const { cure, mixed, sealed, gelled, off } = progress;
    const clock = (kind: ClockKind, at: Minute | null): BenchClock[] =>
      at === null
        ? []
        : [
            {
              kind,
              cure: cure.id,
              name: cure.name,
              at,
              isLimit: kind === 'use-by' || kind === 'bag-by',
              infused: cure.infused === true,
            },
          ];
    if (!mixed || off) return [];
    if (!sealed) {
      return [
        ...clock('use-by', cupOf(outcome, progress)),
        ...clock('bag-by', minuteOf(cure.bagBy)),
        ...clock('gel-from', minuteOf(cure.gel)),
      ];
    }
    return [
      ...(gelled ? [] : clock('gel-from', minuteOf(cure.gel))),
      ...(gelled ? [] : clock('gel-by', minuteOf(cure.gelLatest))),
      ...clock('off-from', minuteOf(cure.debagFrom)),
    ];
  });
  return clocks.sort((a, b) => a.at - b.at);
}

/** When the cup that was mixed last has to be used up. */
function cupOf(outcome: PlanOutcome, { cure, layups }: Progress): Minute | null {
  const records = recordsInForce(outcome.detail.build);
  const { zone } = outcome.detail.build;
  const running = layups.find(({ id }) => records.get(id)?.end === null);
  const last = running && records.get(running.id)?.mixes.at(-1);
  if (!running || !last) return null;
  const potLife = mixesOf(outcome, running).find(({ batch }) => batch === last.batch)?.potLifeMin;
  const at = localToMinute(last.at, zone)?.minute;
  return potLife === undefined || at === undefined
    ? null
    : cupUsedBy(at, potLife, minuteOf(cure.bagBy));
}

/** The clock that matters: the nearest that is not past, or the last limit that is. */
export const nearestClock = (clocks: readonly BenchClock[], now: Minute): BenchClock | null =>
  clocks.find(({ at, isLimit }) => isLimit || at >= now) ?? clocks.at(-1) ?? null;

export const ALARMS = ['mix-by', 'bag-by', 'gel-look', 'bag-off'] as const;
export type AlarmKind = (typeof ALARMS)[number];

/** Something that somebody has to be told, again and again until they say that they heard it. */
export interface Alarm {
  /** The same however the plan moves. */
  readonly id: string;
  readonly kind: AlarmKind;
  readonly stage: string;
  readonly name: string;
  readonly at: Minute;
  /** It sounds again so long after it was answered, unless what it asks for is stamped. */
  readonly againMinutes: number;
}

/** Minutes until an answered alarm sounds again. */
const AGAIN_MINUTES: Readonly<Record<AlarmKind, number>> = {
  'mix-by': 15,
  'bag-by': 5,
  'gel-look': 30,
  'bag-off': 60,
};

/**
 * Every alarm of the plan as the records have it, the earliest first.
 * @param steps those that could be stamped now
 */
export function alarmsOf(outcome: PlanOutcome, steps: readonly Step[]): Alarm[] {
  const practice = practiceOf(outcome.detail.library);
  const again = { ...AGAIN_MINUTES, 'gel-look': practice('look-every-minutes') };
  const cures = progressOf(outcome);
  const mixes = cures.flatMap(({ layups }): Alarm[] => {
    const next = steps.find(
      (step) => step.stamp === 'mixed' && layups.some(({ id }) => id === step.stage),
    );
    return next?.at === undefined || next.at === null
      ? []
      : [
          {
            id: next.key,
            kind: 'mix-by',
            stage: next.stage,
            name: next.name,
            at: next.at,
            againMinutes: again['mix-by'],
          },
        ];
  });
  const others = cures.flatMap(({ cure, layups, mixed, sealed, gelled, off }): Alarm[] => {
    const key = readStageId(layups[0]?.id ?? '');
    if (!mixed || off || key?.what !== 'layup') return [];
    const alarm = (kind: AlarmKind, stage: string, at: string | null): Alarm[] => {
      const minute = minuteOf(at);
      const id = `${stage}/${kind}`;
      return minute === null
        ? []
        : [{ id, kind, stage, name: cure.name, at: minute, againMinutes: again[kind] }];
    };
    if (!sealed) return alarm('bag-by', layups.at(-1)!.id, cure.bagBy);
    return [
      ...(gelled ? [] : alarm('gel-look', layupStageId('cure', key.layup), cure.gel)),
      ...alarm('bag-off', layupStageId('bag-off', key.layup), cure.debagFrom),
    ];
  });
  return [...mixes, ...others].sort((a, b) => a.at - b.at);
}

/** Minute of the last answer to each alarm, by its id. */
export type Answered = Readonly<Record<string, Minute>>;

/** Alarms that sound now: due, and not answered or answered too long ago. */
export const soundingAlarms = (
  alarms: readonly Alarm[],
  answered: Answered,
  now: Minute,
): Alarm[] =>
  alarms.filter(({ id, at, againMinutes }) => {
    const heard = answered[id];
    return at <= now && (heard === undefined || now >= heard + againMinutes);
  });
