/** What a day holds, in order of the clock: work, what runs by itself, and moments that matter. */
import type { StageKind } from '../document/schema.ts';
import type { Interval, Minute } from '../time/instant.ts';
import { minuteToIso } from '../time/zone.ts';
import { allowedFromWords, type AllowedMoment } from './allowedFrom.ts';
import {
  isStaffed,
  isWithheld,
  milestonesOf,
  minuteOf,
  type SheetData,
  type LocalDay,
  type MomentKey,
  type PlacedStage,
} from './sheetData.ts';
import { whoStays } from './whoStays.ts';
import { byCodeUnit, clock, shortDay } from './words.ts';
import { clockTime } from '../time/words.ts';

export interface Entry {
  readonly type: 'work' | 'run' | 'mark';
  readonly at: Minute;
  /** `07:30` or `from Mon`, as it reads on that day. */
  readonly from: string;
  readonly to: string;
  readonly text: string;
  readonly kind: StageKind | null;
  readonly placed: PlacedStage | null;
  /** The cure of a moment that a line on its cure tells as well. */
  readonly ofCure: string | null;
  /** For work over several days: which one this is. */
  readonly part: { readonly day: number; readonly of: number } | null;
  /** True where nobody is in the shop at that moment. */
  readonly alone: boolean;
}

/** Entries of a day, by start, marks before what starts with them. */
export function entriesOf(facts: SheetData, day: LocalDay): Entry[] {
  const entries = [
    ...facts.placed.flatMap((placed) => stageEntry(facts, placed, day)),
    ...marksOf(facts, day),
  ];
  const rank = { mark: 0, work: 1, run: 2 } as const;
  return entries.sort(
    (a, b) => a.at - b.at || rank[a.type] - rank[b.type] || byCodeUnit(a.text, b.text),
  );
}

const meets = (span: Interval, day: LocalDay): boolean =>
  span.start < day.end &&
  (span.end > day.start || (span.start === span.end && span.start >= day.start));

function stageEntry(facts: SheetData, placed: PlacedStage, day: LocalDay): Entry[] {
  return placed.hands.length > 0 ? workEntry(facts, placed, day) : runEntry(facts, placed, day);
}

/** Stretches of one day are one entry: breaks are not listed. */
function workEntry(facts: SheetData, placed: PlacedStage, day: LocalDay): Entry[] {
  const today = placed.hands.filter((span) => meets(span, day));
  if (today.length === 0) return [];
  const start = Math.max(today[0]!.start, day.start);
  const end = Math.min(today[today.length - 1]!.end, day.end);
  const days = workDays(placed, facts.zone);
  return [
    {
      type: 'work',
      at: start,
      from: wall(start, facts.zone),
      to: wallEnd(end, day, facts.zone),
      text: placed.stage.name,
      kind: placed.stage.kind,
      placed,
      ofCure: null,
      part: days.length > 1 ? { day: days.indexOf(day.date) + 1, of: days.length } : null,
      alone: false,
    },
  ];
}

function workDays(placed: PlacedStage, zone: string): string[] {
  return [...new Set(placed.hands.map((span) => minuteToIso(span.start, zone).slice(0, 10)))];
}

function runEntry(facts: SheetData, placed: PlacedStage, day: LocalDay): Entry[] {
  if (!meets(placed, day)) return [];
  const start = Math.max(placed.start, day.start);
  return [
    {
      type: 'run',
      at: start,
      from: placed.start >= day.start ? wall(placed.start, facts.zone) : 'runs',
      to: placed.end <= day.end ? wallEnd(placed.end, day, facts.zone) : '',
      text:
        placed.end <= day.end
          ? placed.stage.name
          : `${placed.stage.name}, to ${shortDay(placed.endIso)} ${clock(placed.endIso)}`,
      kind: placed.stage.kind,
      placed,
      ofCure: null,
      part: null,
      alone: false,
    },
  ];
}

/** Moments that stand in the agenda; the cure card holds all of them. */
const STANDS_IN_AGENDA: Readonly<Record<MomentKey, 'always' | 'last in mould' | 'never'>> = {
  firstMix: 'never',
  bagBy: 'always',
  openUntil: 'never',
  gel: 'always',
  gelLatest: 'always',
  debagFrom: 'always',
  demouldFrom: 'last in mould',
  sandFrom: 'last in mould',
  bondUntil: 'never',
  fullFrom: 'never',
};
const isAllowedMoment = (key: MomentKey): key is AllowedMoment =>
  key === 'debagFrom' || key === 'demouldFrom' || key === 'sandFrom';
/** Moments that somebody ought to see; the others only say from when something is allowed. */
const ON_THE_MINUTE: ReadonlySet<MomentKey> = new Set(['bagBy', 'gel', 'gelLatest']);

/** True where the day holds nothing but what runs through it. */
export const isWithoutWork = (entries: readonly Entry[]): boolean =>
  entries.every((entry) => entry.type === 'run' && entry.from === 'runs' && entry.to === '');

/** True where the day needs a sheet: hands, heat that runs, or a moment that somebody ought to see. */
export const needsSheet = (entries: readonly Entry[]): boolean =>
  entries.some(
    (entry) =>
      (entry.type === 'work' && !isWithheld(entry.placed!.stage)) ||
      (entry.kind === 'post-cure' && !isWithheld(entry.placed!.stage)) ||
      entry.alone ||
      isOrdered(entry) ||
      entry.text === 'Unveiling',
  );

/** An order takes nobody's hours, and is placed by somebody all the same. */
const isOrdered = ({ kind, from }: Entry): boolean => kind === 'order' && from !== 'runs';

function marksOf(facts: SheetData, day: LocalDay): Entry[] {
  const marks: Entry[] = [];
  const add = (
    iso: string | null,
    text: string,
    mattersAtOnce: boolean,
    ofCure: string | null = null,
  ) => {
    if (iso === null) return;
    const at = minuteOf(iso);
    if (at < day.start || at >= day.end) return;
    marks.push({
      type: 'mark',
      at,
      from: clock(iso),
      to: '',
      text,
      kind: null,
      placed: null,
      ofCure,
      part: null,
      alone: mattersAtOnce && !isStaffed(facts, at),
    });
  };
  for (const { stage } of facts.placed) {
    if (stage.kind !== 'post-cure' || isWithheld(stage)) continue;
    for (const { start, end } of stage.attended) {
      const who = whoStays(facts, { start: minuteOf(start), end: minuteOf(end) }) ?? 'Somebody';
      add(start, `${who} stays in the shop until ${clock(end)}: heat is on`, false);
    }
  }
  for (const cure of facts.cures) {
    if (!cure.row || cure.withheld.length > 0) continue;
    const leaves = cure.id === facts.lastInMould;
    for (const { key, label, at } of milestonesOf(cure.row)) {
      const place = STANDS_IN_AGENDA[key];
      const isWanted = place === 'always' || (leaves && place === 'last in mould');
      const allowed = isAllowedMoment(key) ? allowedFromWords(facts, cure, key, at ?? '') : null;
      const text = allowed === null ? `${label}: ${cure.name}` : `${cure.name}: ${allowed}`;
      if (isWanted) add(at, text, ON_THE_MINUTE.has(key), key === 'bagBy' ? null : cure.id);
    }
  }
  add(facts.result.deadline, 'Unveiling', false);
  return marks;
}

const wall = (minute: Minute, zone: string): string => clock(minuteToIso(minute, zone));

/** Midnight at the end of a day reads 24:00, not 00:00. */
const wallEnd = (minute: Minute, day: LocalDay, zone: string): string =>
  minute === day.end ? clockTime('24:00') : wall(minute, zone);
