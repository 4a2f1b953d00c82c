/** What the ticks of a phone would write down, shown before any of it is. */
import type { FloorEntry } from '../../document/edit/records.ts';
import { recordsInForce } from '../../document/records.ts';
import type { FloorRecord } from '../../document/schema.ts';
import { DOUBT_KIND, type RecordDoubt } from '../../messages/records.ts';
import type { TickFault } from '../../messages/phone.ts';
import type { PlanOutcome } from '../../plan/outcome.ts';
import { askAbout, impliedEntries, localMinuteOf } from '../../plan/records.ts';
import type { Minute } from '../../time/instant.ts';
import { localToMinute } from '../../time/zone.ts';
import { stampEntries, stepsOf, type Step } from '../floor/steps.ts';
import { planSum } from './planSum.ts';
import type { Tick, Ticks } from './text.ts';

export interface TickRow {
  readonly tick: Tick;
  /** Of the stage; its id where the plan has no such stage. */
  readonly name: string;
  readonly step: Step | null;
  readonly fault: TickFault | null;
  /** As the build's clocks show it, `YYYY-MM-DDTHH:MM`. */
  readonly local: string;
  /** Asked before it is taken. */
  readonly doubts: readonly RecordDoubt[];
  /** The phone's clock had it before its pack was made. */
  readonly beforePack: boolean;
}

export interface Review {
  /** The pack is of another build: nothing of it can be taken. */
  readonly otherBuild: boolean;
  /** Route, stages or batches have changed since, or another plan was printed. */
  readonly olderPlan: boolean;
  readonly rows: readonly TickRow[];
  /** What must have come before and is not written down: goes with them. */
  readonly implied: readonly FloorEntry[];
  /** One for each stage, in order of time. */
  readonly entries: readonly FloorEntry[];
}

/**
 * Holds the ticks against the plan and the records as they are now.
 * @param left keys of ticks that somebody has taken out
 */
export function reviewTicks(
  outcome: PlanOutcome,
  ticks: Ticks,
  now: Minute,
  left: readonly string[],
): Review {
  const { result, detail } = outcome;
  const { zone, printed } = detail.build;
  const printedAt = printed ? (localToMinute(printed.at, zone)?.minute ?? null) : null;
  const otherBuild = ticks.build !== result.build.id;
  const olderPlan =
    planSum(result) !== ticks.planSum || (printedAt !== null && printedAt > ticks.planAt);
  if (otherBuild) return { otherBuild, olderPlan, rows: [], implied: [], entries: [] };
  const { rows, entries } = fold(outcome, ticks, left);
  const asked = new Map(
    askAbout(outcome, entries, now).map(({ entry, doubts }) => [entry.stage, doubts]),
  );
  const lastOf = new Map(
    rows.filter(({ taken }) => taken).map(({ tick }) => [tick.stage, tick.key]),
  );
  return {
    otherBuild,
    olderPlan,
    rows: rows.map(({ taken: _taken, ...row }) => ({
      ...row,
      beforePack: row.tick.at < ticks.planAt,
      doubts: lastOf.get(row.tick.stage) === row.tick.key ? (asked.get(row.tick.stage) ?? []) : [],
    })),
    implied: impliedEntries(outcome, entries),
    entries,
  };
}

/** True where a row holds something that somebody has to say yes to. */
export const isAsked = ({ fault, doubts, beforePack }: TickRow): boolean =>
  fault === null && (beforePack || doubts.length > 0);

/** True where a row cannot be taken whatever is said. */
export const isRefused = ({ fault, doubts }: TickRow): boolean =>
  fault !== null || doubts.some(({ code }) => DOUBT_KIND[code] === 'fault');

type Folded = Omit<TickRow, 'doubts' | 'beforePack'> & { readonly taken: boolean };

/** Each tick as a stamp at its own moment, over the records and the ticks before it. */
function fold(outcome: PlanOutcome, { ticks }: Ticks, left: readonly string[]) {
  const { zone } = outcome.detail.build;
  const written = new Map<string, FloorEntry>();
  const rows: Folded[] = [];
  // Each looks at its own stage alone: a long text costs no more than its ticks.
  for (const tick of ticks) {
    const stage = outcome.result.stages.find(({ id }) => id === tick.stage);
    const own = stage ? stageAlone(outcome, tick.stage, written) : null;
    const open = own && stage ? stepsOf(own, stage) : [];
    const step = open.find(({ key }) => key === tick.key) ?? null;
    const fault: TickFault | null = !stage
      ? 'not-in-plan'
      : step === null
        ? isOver(outcome, tick)
          ? 'already'
          : 'not-in-plan'
        : open[0] === step
          ? null
          : 'not-its-turn';
    const taken = fault === null && !left.includes(tick.key);
    if (taken) {
      for (const entry of stampEntries(own!, step!, tick.at)) {
        written.delete(entry.stage);
        written.set(entry.stage, entry);
      }
    }
    const local = localMinuteOf(tick.at, zone);
    rows.push({ tick, name: stage?.name ?? tick.stage, step, fault, local, taken });
  }
  return { rows, entries: [...written.values()] };
}

/** The step is no more to be stamped because something is written down of it. */
const isOver = ({ result, detail }: PlanOutcome, { stage }: Tick): boolean =>
  recordsInForce(detail.build).has(stage) ||
  result.stages.some(({ id, state }) => id === stage && state !== undefined);

/** The outcome with what is about to be written of one stage laid over its records. */
function stageAlone(
  outcome: PlanOutcome,
  stage: string,
  written: ReadonlyMap<string, FloorEntry>,
): PlanOutcome {
  const entry = written.get(stage);
  if (!entry) return outcome;
  const { detail } = outcome;
  const records = [...detail.build.records, asRecord(entry)];
  return { ...outcome, detail: { ...detail, build: { ...detail.build, records } } };
}

/** With the defaults that the document's schema gives. */
const asRecord = (entry: FloorEntry): FloorRecord => ({
  stage: entry.stage,
  start: entry.start,
  end: entry.end ?? null,
  note: entry.note ?? '',
  takenBack: entry.takenBack ?? false,
  mixes: (entry.mixes ?? []).map(({ batch, at, massG }) => ({ batch, at, massG: massG ?? null })),
  gelAt: entry.gelAt ?? null,
  people: entry.people ?? [],
  workedMinutes: entry.workedMinutes ?? null,
  massKg: entry.massKg ?? null,
  joints: entry.joints ?? null,
});
