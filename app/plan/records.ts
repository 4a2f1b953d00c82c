/** The rules of records: what one implies, and what is asked or refused before it is taken. */
import { recordsInForce } from '../document/records.ts';
import type { FloorEntry } from '../document/edit/records.ts';
import type { FloorRecord, FullBuild, PlanResult } from '../document/schema.ts';
import { DOUBT_KIND, type RecordDoubt } from '../messages/records.ts';
import { impliedBy } from '../schedule/network/implied.ts';
import type { Minute } from '../time/instant.ts';
import {
  isoToMinute,
  localToMinute,
  minuteToIso,
  minuteToLocal,
  secondMinute,
} from '../time/zone.ts';
import type { PlanDetail, PlanOutcome } from './outcome.ts';

/**
 * A wall-clock minute of the build's zone, as records write it: with its offset where the clock shows it
 * twice and this is the second.
 */
export function localMinuteOf(minute: Minute, zone: string): string {
  const { date, time } = minuteToLocal(minute, zone);
  const local = `${date}T${time}`;
  return localToMinute(local, zone)?.minute === minute ? local : minuteToIso(minute, zone);
}

const minuteIn =
  (zone: string) =>
  (local: string | null | undefined): Minute | null =>
    local ? (localToMinute(local, zone)?.minute ?? null) : null;

/** Starts of all recorded stages, with `entries` over what is recorded. */
function begunWith(build: FullBuild, entries: readonly FloorEntry[]): Map<string, Minute> {
  const minute = minuteIn(build.zone);
  const all = [...recordsInForce(build).values(), ...entries];
  const begun = new Map<string, Minute>();
  for (const one of all) {
    begun.delete(one.stage);
    const start = minute(one.start);
    if (start !== null && !one.takenBack) begun.set(one.stage, start);
  }
  return begun;
}

/**
 * What must have come before `entries` and is not written down: each with the times that the plan gave it
 * where they lie before, else as short before as it takes. To be asked, and written down with them.
 * @returns in the order of the plan
 */
export function impliedEntries(
  { result, detail }: PlanOutcome,
  entries: readonly FloorEntry[],
): FloorEntry[] {
  const { zone } = detail.build;
  const implied = impliedBy(begunWith(detail.build, entries), detail.before ?? {});
  return result.stages.flatMap(({ id, kind, start, end }) => {
    const by = implied.get(id);
    if (by === undefined || RUNS_ALONE.has(kind)) return [];
    const [from, to] = [start, end].map((iso) => (iso === null ? null : isoToMinute(iso)));
    const over = to !== null && to! <= by ? to! : by;
    const began = from !== null && over === to ? from! : over - (detail.workMinutes[id] ?? 0);
    return [
      {
        stage: id,
        start: localMinuteOf(began, zone),
        end: localMinuteOf(over, zone),
        note: GUESSED,
      },
    ];
  });
}

/** The note of a record whose times nobody has looked at the clock for. */
const GUESSED = 'Written down afterwards, times as planned';

export interface AskedEntry {
  readonly entry: FloorEntry;
  readonly doubts: readonly RecordDoubt[];
}

/** True where nothing in the doubts keeps a record from being taken, questions answered or not. */
export const canBeTaken = (doubts: readonly RecordDoubt[]): boolean =>
  doubts.every(({ code }) => DOUBT_KIND[code] !== 'fault');

/**
 * What is wrong with records that are about to be written down, each held against those in force and
 * against the others. An empty list of doubts: nothing to ask.
 */
export function askAbout(
  outcome: PlanOutcome,
  entries: readonly FloorEntry[],
  now: Minute,
): AskedEntry[] {
  const { build } = outcome.detail;
  const facts = factsOf(outcome, entries);
  return entries.map((entry) => {
    if (entry.takenBack) return { entry, doubts: [] };
    const own = factOf(outcome, entry);
    if (!own) return { entry, doubts: [] };
    const inForce = recordsInForce(build).get(entry.stage);
    return {
      entry,
      doubts: [
        ...backwards(own),
        ...shownTwice(build, entry),
        ...future(own, now),
        ...(inForce ? repeated(outcome, own, inForce) : []),
        ...tooEarly(outcome, own),
        ...outOfTurn(outcome, own, facts),
        ...elsewhere(outcome, own, facts),
        ...(outcome.result.stages.some(({ id }) => id === entry.stage)
          ? []
          : [{ code: 'not-in-plan' } as const]),
      ],
    };
  });
}

/** A record in minutes, with the people who did it. */
interface Fact {
  readonly stage: string;
  readonly start: Minute;
  readonly end: Minute | null;
  readonly people: readonly string[];
}

function factOf({ detail }: PlanOutcome, entry: FloorEntry): Fact | null {
  const minute = minuteIn(detail.build.zone);
  const start = minute(entry.start);
  if (start === null) return null;
  const known = new Set(detail.build.crew.map(({ id }) => id));
  const people = (entry.people ?? []).filter((id) => known.has(id));
  return { stage: entry.stage, start, end: minute(entry.end), people };
}

/** Everything recorded once `entries` are, by stage. */
function factsOf(outcome: PlanOutcome, entries: readonly FloorEntry[]): Map<string, Fact> {
  const facts = new Map<string, Fact>();
  for (const one of [...recordsInForce(outcome.detail.build).values(), ...entries]) {
    const fact = one.takenBack ? null : factOf(outcome, one);
    if (fact) facts.set(one.stage, fact);
    else facts.delete(one.stage);
  }
  return facts;
}

const backwards = ({ start, end }: Fact): RecordDoubt[] =>
  end !== null && end < start ? [{ code: 'ends-before-start', start, end }] : [];

/** A time of the hour that the clock shows twice, without saying which of the two. */
const shownTwice = ({ zone }: FullBuild, { start, end }: FloorEntry): RecordDoubt[] =>
  [start, end].flatMap((local): RecordDoubt[] => {
    const second = local ? secondMinute(local, zone) : null;
    return second === null || !local
      ? []
      : [{ code: 'shown-twice', first: localToMinute(local, zone)!.minute, second }];
  });

/** The entry with each time that the clock shows twice taken for the second of the two. */
export function atSecondHour(entry: FloorEntry, zone: string): FloorEntry {
  const later = (local: string): string => {
    const second = secondMinute(local, zone);
    return second === null ? local : minuteToIso(second, zone);
  };
  const { start, end } = entry;
  return { ...entry, start: later(start), ...(end ? { end: later(end) } : {}) };
}

function future({ start, end }: Fact, now: Minute): RecordDoubt[] {
  const at = Math.max(start, end ?? start);
  return at > now ? [{ code: 'in-the-future', at, now }] : [];
}

/** Written down once more with another time: an end after a start alone is no repetition. */
function repeated({ detail }: PlanOutcome, own: Fact, inForce: FloorRecord): RecordDoubt[] {
  const minute = minuteIn(detail.build.zone);
  const [start, end] = [minute(inForce.start), minute(inForce.end)];
  if (start === null || (start === own.start && (end === null || end === own.end))) return [];
  return [{ code: 'recorded-before', start, end }];
}

/** Begun before what it must follow had ended, or while that has no end. */
function outOfTurn(
  { detail, result }: PlanOutcome,
  own: Fact,
  facts: ReadonlyMap<string, Fact>,
): RecordDoubt[] {
  return beforeOf(detail, result, own.stage).flatMap((id): RecordDoubt[] => {
    const earlier = facts.get(id);
    const stage = result.stages.find((one) => one.id === id);
    if (!earlier || !stage) return [];
    const other = stage.name;
    if (earlier.start > own.start) {
      return [{ code: 'before-its-turn', other, ended: earlier.end ?? earlier.start }];
    }
    if (earlier.end === null) {
      return RUNS_ALONE.has(stage.kind)
        ? []
        : [{ code: 'still-going', other, since: earlier.start }];
    }
    return earlier.end > own.start && !OVERLAPS.has(stage.kind)
      ? [{ code: 'before-its-turn', other, ended: earlier.end }]
      : [];
  });
}

/** What a stage follows at once, or after no more than a wait, which nobody writes down. */
function beforeOf(detail: PlanDetail, result: PlanResult, stage: string): readonly string[] {
  return (detail.before?.[stage] ?? []).flatMap((id) => {
    const isWait = result.stages.find((one) => one.id === id)?.kind === 'wait';
    return isWait ? beforeOf(detail, result, id) : [id];
  });
}

/** Nobody writes down their end. */
const RUNS_ALONE: ReadonlySet<string> = new Set(['cure', 'watched-vacuum', 'wait', 'post-cure']);
/** What comes after them may begin before they end. */
const OVERLAPS: ReadonlySet<string> = new Set(['watched-vacuum']);

/** A bag taken off, or a part out of its mould, before the resin can be hard enough. */
function tooEarly({ result }: PlanOutcome, { stage, start }: Fact): RecordDoubt[] {
  const planned = result.stages.find(({ id }) => id === stage);
  const cures = result.cures.filter(
    ({ id }) => planned?.kind === 'demould' || id === planned?.cure,
  );
  const moments =
    planned?.kind === 'bag-off'
      ? cures.map(({ debagFrom }) => debagFrom)
      : planned?.kind === 'demould'
        ? cures.map(({ demouldFrom }) => demouldFrom)
        : [];
  const from = Math.max(-Infinity, ...moments.flatMap((iso) => (iso ? isoToMinute(iso)! : [])));
  return start < from ? [{ code: 'too-early', at: start, from }] : [];
}

/** The same person at two places at once. */
function elsewhere(
  { detail, result }: PlanOutcome,
  own: Fact,
  facts: ReadonlyMap<string, Fact>,
): RecordDoubt[] {
  const names = new Map(detail.build.crew.map(({ id, name }) => [id, name]));
  return [...facts.values()].flatMap((other) =>
    other.stage === own.stage
      ? []
      : own.people
          .filter((id) => other.people.includes(id))
          .flatMap((id): RecordDoubt[] => {
            const from = Math.max(own.start, other.start);
            const until = Math.min(own.end ?? own.start, other.end ?? other.start);
            if (until <= from) return [];
            const place = result.stages.find((stage) => stage.id === other.stage);
            const person = names.get(id) ?? id;
            return [{ code: 'two-places', person, other: place?.name ?? other.stage, from, until }];
          }),
  );
}
