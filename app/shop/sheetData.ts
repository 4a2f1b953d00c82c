/** The plan as the sheets ask for it: names instead of ids, days instead of instants. */
import { sealedWords } from '../messages/sealed.ts';
import type {
  CureResult,
  Finding,
  FullBuild,
  Hazard,
  MixResult,
  PlanResult,
  StageResult,
} from '../document/schema.ts';
import type { CureDetail, PlanDetail, PlanOutcome } from '../plan/outcome.ts';
import { zonesFinished } from '../document/finish.ts';
import { practiceOf } from '../document/library.ts';
import type { PracticeLookup } from '../cure/practice.ts';
import { hardenerIdOf } from '../document/hardener.ts';
import type { Layup } from '../part/types.ts';
import { intersect, LONGEST_BREAK_MINUTES } from '../time/calendar.ts';
import type { Calendar, Interval, Minute } from '../time/instant.ts';
import { dayName, dayTimeToMinute, isoToMinute, localDayNumber } from '../time/zone.ts';

export type ResinRow = PlanDetail['library']['resins'][number];
export type HardenerRow = ResinRow['hardeners'][number];

/** One cure with everything its cards need. */
export interface CureSheetData {
  readonly id: string;
  readonly name: string;
  readonly row: CureResult | null;
  readonly layups: readonly Layup[];
  readonly mixes: readonly MixResult[];
  readonly hardener: HardenerRow | null;
  /** What it is made with and goes through; null while the plan does not say. */
  readonly made: CureDetail | null;
  /** End of the last wet stretch: the bag is down. */
  readonly sealed: string | null;
  readonly watchedUntil: string | null;
  readonly bagOffAt: string | null;
  /** Why nothing of it may be done; empty where it may. */
  readonly withheld: readonly string[];
}

export interface SheetData {
  readonly outcome: PlanOutcome;
  readonly result: PlanResult;
  readonly detail: PlanDetail;
  readonly build: FullBuild;
  readonly zone: string;
  readonly resin: ResinRow | null;
  readonly cures: readonly CureSheetData[];
  /** Placed stages in start order, ties by their place in the result. */
  readonly placed: readonly PlacedStage[];
  /** Names of stages that have no place in time. */
  readonly unplaced: readonly string[];
  readonly stops: readonly Finding[];
  readonly waysTold: WaysTold;
  readonly practice: PracticeLookup;
  /** Hazards of resin, hardener, release and the finishing rounds of this finish. */
  readonly hazards: readonly Hazard[];
  personNames(ids: readonly string[]): string;
  /** Given names where they tell the crew apart: short enough for a column. */
  shortNames(ids: readonly string[]): string;
  /** The cure after which the part leaves the mould; null when nothing is cured in one. */
  readonly lastInMould: string | null;
  gearNames(ids: readonly string[]): string;
}

/** A stage that has a start and an end. */
export interface PlacedStage {
  readonly stage: StageResult;
  readonly start: Minute;
  readonly end: Minute;
  readonly startIso: string;
  readonly endIso: string;
  /** Stretches in which hands are on it; empty for cures, waits and outside jobs. */
  readonly hands: readonly Interval[];
}

/** @throws Error when an instant of the result is not ISO 8601; the result's own schema forbids it. */
export function minuteOf(iso: string): Minute {
  const minute = isoToMinute(iso);
  if (minute === null) throw new Error(`not an instant: ${iso}`);
  return minute;
}

/** Findings that the wall tells with their ways out: all that have some, stops alone, or none. */
export type WaysTold = 'all' | 'stops' | 'none';

export function sheetDataOf(outcome: PlanOutcome, waysTold: WaysTold = 'none'): SheetData {
  const { result, detail } = outcome;
  const { build, library } = detail;
  const resin = library.resins.find((row) => row.id === build.resin.system) ?? null;
  const cures = curesOf(result, detail, resin);
  return {
    outcome,
    result,
    detail,
    build,
    zone: result.build.zone,
    resin,
    cures,
    placed: placedStages(result, detail),
    unplaced: result.stages.filter((stage) => stage.start === null).map((stage) => stage.name),
    practice: practiceOf(library),
    hazards: hazardsOf(detail, resin, cures),
    stops: result.findings.filter((finding) => finding.severity === 'stop'),
    waysTold,
    personNames: (ids) =>
      ids.map((id) => build.crew.find((person) => person.id === id)?.name ?? id).join(', '),
    shortNames: (ids) => ids.map((id) => shortName(build, id)).join(', '),
    lastInMould: lastInMould(result, detail),
    gearNames: (ids) => ids.map(gearName).join(', '),
  };
}

function hazardsOf(
  { build, library }: PlanDetail,
  resin: ResinRow | null,
  cures: readonly CureSheetData[],
): Hazard[] {
  const release = library.releases.find((row) => row.id === build.mould.release);
  const rounds = library.finishing.filter((row) => zonesFinished(build, row.finishes).length > 0);
  const hardeners = cures.map((cure) => cure.hardener);
  const all = [resin, ...hardeners, release, ...rounds].flatMap((row) => row?.hazards ?? []);
  return [...new Set(all)];
}

function curesOf(result: PlanResult, detail: PlanDetail, resin: ResinRow | null): CureSheetData[] {
  return result.route.cures.map(({ id, name, layups }) => {
    const stagesOf = (kind: StageResult['kind']) =>
      result.stages
        .filter((stage) => stage.cure === id && stage.kind === kind && stage.start !== null)
        .sort((a, b) => minuteOf(a.start!) - minuteOf(b.start!));
    return {
      id,
      name,
      row: result.cures.find((cure) => cure.id === id) ?? null,
      layups: layups.flatMap((layup) => detail.part.layups.filter((row) => row.id === layup)),
      mixes: result.mixes.filter((mix) => mix.cure === id),
      hardener:
        resin?.hardeners.find((row) => row.id === hardenerIdOf(detail.build, layups)) ?? null,
      made: detail.cures[id] ?? null,
      sealed: stagesOf('layup').at(-1)?.end ?? null,
      watchedUntil: stagesOf('watched-vacuum')[0]?.end ?? null,
      bagOffAt: stagesOf('bag-off')[0]?.start ?? null,
      withheld: reasonsOf(result.stages.filter((stage) => stage.cure === id)),
    };
  });
}

/** Why stages are withheld, each reason once. */
export const reasonsOf = (stages: readonly StageResult[]): string[] => [
  ...new Set(stages.flatMap((stage) => stage.withheld ?? [])),
];

export const isWithheld = (stage: StageResult): boolean => (stage.withheld?.length ?? 0) > 0;

function placedStages(result: PlanResult, detail: PlanDetail): PlacedStage[] {
  const placed: PlacedStage[] = [];
  for (const stage of result.stages) {
    if (stage.start === null || stage.end === null) continue;
    placed.push({
      stage,
      start: minuteOf(stage.start),
      end: minuteOf(stage.end),
      startIso: stage.start,
      endIso: stage.end,
      hands: handsOn(stage, detail),
    });
  }
  return placed.sort((a, b) => a.start - b.start || a.end - b.end);
}

/** Hours of the people on it, together; a cure is looked after by stages of its own. */
function handsOn(stage: StageResult, detail: PlanDetail): Interval[] {
  if (stage.people.length === 0 || stage.kind === 'cure' || stage.kind === 'post-cure') return [];
  const whole: Interval = { start: minuteOf(stage.start!), end: minuteOf(stage.end!) };
  const hours = stage.people.flatMap((id) => [detail.personHours[id] ?? []]);
  const stretches = hours.reduce<Calendar>((left, own) => intersect(left, own), [whole]);
  // Pinned or recorded work may lie outside the hours; it counts all the same.
  return stretches.length > 0 ? [...stretches] : [whole];
}

function shortName(build: FullBuild, id: string): string {
  const name = build.crew.find((person) => person.id === id)?.name ?? id;
  const given = name.split(' ')[0]!;
  const alike = build.crew.filter((person) => person.name.split(' ')[0] === given);
  return alike.length > 1 ? name : given;
}

function lastInMould(result: PlanResult, detail: PlanDetail): string | null {
  const inMould = new Set<string>(
    detail.part.layups.filter((layup) => layup.place === 'chain').map((layup) => layup.id),
  );
  const chain = result.route.cures.filter((cure) => cure.layups.some((id) => inMould.has(id)));
  return chain.at(-1)?.id ?? null;
}

/** True when somebody is in the shop, or only out for a break. */
export function isStaffed({ detail }: SheetData, at: Minute): boolean {
  const next = detail.shopHours.findIndex((span) => span.end >= at);
  const span = detail.shopHours[next];
  if (!span) return false;
  if (span.start <= at) return true;
  const before = detail.shopHours[next - 1];
  return before !== undefined && span.start - before.end <= LONGEST_BREAK_MINUTES;
}

/** Resource ids are words with hyphens; on paper they are plain words. */
const gearName = (id: string): string => id.replaceAll('-', ' ');

/** A local day as a stretch of instants; 23 or 25 hours long where the clock changes. */
export interface LocalDay {
  readonly date: string;
  readonly start: Minute;
  readonly end: Minute;
}

function localDay(day: number, zone: string): LocalDay {
  return {
    date: dayName(day),
    start: dayTimeToMinute(day, 0, zone),
    end: dayTimeToMinute(day + 1, 0, zone),
  };
}

/** Days from the first to the last stage, in order; empty when nothing is placed. */
export function daysOf(facts: SheetData): LocalDay[] {
  const first = facts.placed[0];
  if (!first) return [];
  const end = Math.max(...facts.placed.map((stage) => Math.max(stage.end - 1, stage.start)));
  const days: LocalDay[] = [];
  const last = localDayNumber(end, facts.zone);
  for (let day = localDayNumber(first.start, facts.zone); day <= last; day++) {
    days.push(localDay(day, facts.zone));
  }
  return days;
}

/** The moments of a cure that sheets and timeline tell. */
export type MomentKey =
  | 'firstMix'
  | 'bagBy'
  | 'openUntil'
  | 'gel'
  | 'gelLatest'
  | 'debagFrom'
  | 'demouldFrom'
  | 'sandFrom'
  | 'bondUntil'
  | 'fullFrom';

/** The milestones of a cure in the order in which they fall, with the trade's words. */
export function milestonesOf(
  row: CureResult,
): { readonly key: MomentKey; readonly label: string; readonly at: string | null }[] {
  return [
    { key: 'firstMix', label: 'First mix', at: row.firstMix },
    { key: 'bagBy', label: sealedWords(row.infused).by, at: row.bagBy },
    { key: 'openUntil', label: 'Open until', at: row.openUntil },
    { key: 'gel', label: 'Gel from', at: row.gel },
    { key: 'gelLatest', label: 'Gel by', at: row.gelLatest },
    { key: 'debagFrom', label: 'Bag off from', at: row.debagFrom },
    { key: 'demouldFrom', label: 'Demould from', at: row.demouldFrom },
    { key: 'sandFrom', label: 'Sand from', at: row.sandFrom },
    { key: 'bondUntil', label: 'Bond before', at: row.bondUntil },
    { key: 'fullFrom', label: 'Full cure from', at: row.fullFrom },
  ];
}
