/** A day: what to do when, by whom, what limits it, and boxes for what really happened. */
import { entriesOf, needsSheet, type Entry } from './agenda.ts';
import type { StageKind, StageResult } from '../document/schema.ts';
import { capital } from '../messages/words.ts';
import { COURSE_MARK, COURSE_WORDS, courseOf } from './course.ts';
import { allowedFromOf } from './allowedFrom.ts';
import {
  daysOf,
  isStaffed,
  isWithheld,
  minuteOf,
  type SheetData,
  type LocalDay,
} from './sheetData.ts';
import { cautionsOf } from './hazards.ts';
import { heldMark, notReleasedHead } from './notReleased.ts';
import { pumpRows, curesUnderVacuum } from './pump.ts';
import { WITHHELD_MARK, withheldBox } from './withheld.ts';
import { columns, sheetOf, type Sheet } from './parts.ts';
import { orderLine } from './orderWords.ts';
import { h, type SheetNode } from './tree.ts';
import { clockNote, entryTimes } from './weekSheet.ts';
import { dayClock, gelSpan, longDay, shortDay } from './words.ts';

/** Time, work, who, start at the latest; from, to and by whom in real life. */
const WIDTHS = [13.5, 37.5, 12, 17, 7, 7, 6] as const;

/**
 * The days on which hands are needed or a moment falls.
 * @param person the one whose days they are; null: everybody's
 */
export function daySheets(facts: SheetData, person: string | null = null): Sheet[] {
  const said = new Set<string>();
  return daysOf(facts).flatMap((day) => {
    const entries = entriesOf(facts, day).filter((entry) => isOf(entry, person));
    const isBusy =
      needsSheet(entries) || (person === null && curesUnderVacuum(facts, day).length > 0);
    return isBusy ? [daySheet(facts, day, entries, said)] : [];
  });
}

/** What runs through a day has its line where it begins, heat apart; moments are everybody's. */
const isOf = (entry: Entry, person: string | null): boolean => {
  if (entry.type === 'mark') return true;
  const runsThrough = entry.type === 'run' && entry.from === 'runs' && entry.to === '';
  if (runsThrough && entry.kind !== 'post-cure') return false;
  return person === null || entry.placed!.stage.people.includes(person);
};

/** @param said cautions that stand on an earlier day: each is said where its step is first met */
function daySheet(
  facts: SheetData,
  day: LocalDay,
  entries: readonly Entry[],
  said: Set<string>,
): Sheet {
  const stages = entries.flatMap(({ placed }) => placed?.stage ?? []);
  const released = stages.filter((stage) => !isWithheld(stage));
  return sheetOf(
    {
      kind: 'day',
      id: `day-${day.date}`,
      title: longDay(day.date) + clockNote(day),
      short: shortDay(day.date),
      bare: true,
      days: [day.date, day.date],
      people: [...new Set(stages.flatMap(({ people }) => people))],
    },
    withheldBox(facts, stages),
    notReleasedHead(facts, released),
    dayTable(facts, day, entries, said, needsReadings(released)),
    overnight(facts, day, entries),
  );
}

function daysLeft(facts: SheetData, day: LocalDay): string {
  const hours = Math.floor((facts.detail.deadline - day.start) / 60);
  if (hours < 0) return `Unveiling was ${dayClock(facts.result.deadline)}.`;
  const days = Math.floor(hours / 24);
  const left = days === 0 ? 'today' : days === 1 ? 'tomorrow' : `in ${days} days`;
  return `Unveiling ${left}.`;
}

function dayTable(
  facts: SheetData,
  day: LocalDay,
  entries: readonly Entry[],
  said: Set<string>,
  withReadings: boolean,
): SheetNode {
  return h(
    'table',
    { class: 'agenda daily' },
    columns(WIDTHS),
    h(
      'tbody',
      {},
      dayBar(facts, day, withReadings),
      orderRow(entries),
      runsOf(entries).map((run) =>
        isByItself(run[0]!)
          ? [
              run.length === 1 ? markRow(run[0]!) : marksRow(run),
              ...run.flatMap(({ placed }) =>
                placed === null ? [] : cautionRow(cautionsOnce(facts, placed.stage, said)),
              ),
            ]
          : run.flatMap((entry) => entryRows(facts, entry, said)),
      ),
      pumpRows(facts, day),
    ),
  );
}

/** The day, room for its readings where the work depends on them, and who closed it. */
function dayBar(facts: SheetData, day: LocalDay, withReadings: boolean): SheetNode {
  const box = (label: string): SheetNode => h('td', {}, h('small', {}, label));
  return h(
    'tr',
    { class: 'day-bar' },
    h(
      'th',
      { scope: 'colgroup', colspan: withReadings ? 2 : 4 },
      longDay(day.date) + clockNote(day),
      h('small', {}, ` ${daysLeft(facts, day)}`),
    ),
    withReadings && [box('Air °C, %'), box('Mould °C: start, end')],
    h('td', { colspan: 3 }, h('small', {}, 'From, to, by. Day closed by')),
  );
}

/** Moments, and what dries or settles by itself, share a line where they follow each other. */
function runsOf(entries: readonly Entry[]): Entry[][] {
  const runs: Entry[][] = [];
  for (const entry of entries.filter(isShown)) {
    const last = runs.at(-1);
    if (isByItself(entry) && last !== undefined && isByItself(last[0]!)) last.push(entry);
    else runs.push([entry]);
  }
  return runs;
}

/** Nobody starts or ends it by hand, so there is nothing to write down. */
const isByItself = ({ type, kind, placed }: Entry): boolean =>
  type === 'mark' || (type === 'run' && BY_ITSELF.has(kind!) && !isWithheld(placed!.stage));

const BY_ITSELF: ReadonlySet<StageKind> = new Set(['wait', 'resin-warm']);

/** Orders have a line of their own; a cure is told by its moments and the pump. */
const isShown = ({ kind, type }: Entry): boolean =>
  type === 'mark' || (kind !== 'order' && kind !== 'cure');

const markWords = ({ text, alone }: Entry): string =>
  `◆ ${text}${alone ? ' (nobody in the shop)' : ''}`;

const marksRow = (marks: readonly Entry[]): SheetNode =>
  h(
    'tr',
    { class: 'mark' },
    h(
      'td',
      { colspan: WIDTHS.length },
      marks.map((mark, i) => [
        i > 0 && '; ',
        h('strong', {}, `${entryTimes(mark)} `),
        markWords(mark),
      ]),
    ),
  );

/** What is ordered on the day, once for all suppliers. */
function orderRow(entries: readonly Entry[]): SheetNode[] {
  const orders = entries.filter(isOrder);
  if (orders.length === 0) return [];
  const names = orders.map(({ placed }) => placed!.stage.name);
  const times = orders.map(({ from }) => from);
  return [
    h(
      'tr',
      { class: 'work' },
      h('th', { scope: 'row' }, `from ${times.sort()[0]!}`),
      h('td', { colspan: 3 }, orderLine(names)),
      h('td', { class: 'write' }),
      h('td', { class: 'write' }),
      h('td', { class: 'write' }),
    ),
  ];
}

const isOrder = ({ kind, from, placed }: Entry): boolean =>
  kind === 'order' && from !== 'runs' && !isWithheld(placed!.stage);

function entryRows(facts: SheetData, entry: Entry, said: Set<string>): SheetNode[] {
  const { stage } = entry.placed!;
  if (isWithheld(stage)) return [withheldRow(entry)];
  return [workRow(facts, entry), ...cautionRow(cautionsOnce(facts, stage, said))];
}

/** Steps whose cautions stand on their own card. */
const ON_A_CARD: ReadonlySet<StageKind> = new Set([
  'layup',
  'watched-vacuum',
  'cure',
  'bag-off',
  'demould',
  'heat-setup',
  'post-cure',
  'heat-takedown',
]);

function cautionsOnce(facts: SheetData, stage: StageResult, said: Set<string>): string[] {
  if (ON_A_CARD.has(stage.kind)) return [];
  const fresh = cautionsOf(facts.outcome, stage).filter((line) => !said.has(line));
  fresh.forEach((line) => said.add(line));
  return fresh;
}

const cautionRow = (lines: readonly string[]): SheetNode[] =>
  lines.length === 0
    ? []
    : [h('tr', { class: 'care' }, h('td', { colspan: WIDTHS.length }, `! ${lines.join(' ')}`))];

function workRow(facts: SheetData, entry: Entry): SheetNode {
  const { stage } = entry.placed!;
  const allowed = allowedFromOf(facts, stage);
  return h(
    'tr',
    { class: entry.type },
    h('th', { scope: 'row' }, entryTimes(entry)),
    h(
      'td',
      {},
      h('strong', {}, COURSE_MARK[courseOf(stage)] + heldMark(stage) + entry.text),
      entry.part !== null && ` (day ${entry.part.day} of ${entry.part.of})`,
      allowed !== null && h('div', { class: 'limits' }, `${capital(allowed)}.`),
    ),
    h('td', {}, facts.shortNames(stage.people)),
    h('td', { class: 'latest' }, COURSE_WORDS[courseOf(stage)] || latestWords(stage)),
    h('td', { class: 'write' }),
    h('td', { class: 'write' }),
    h('td', { class: 'write' }),
  );
}

/** Its place stays, so that the gap in the day is understood; there is nothing to do or write. */
const withheldRow = (entry: Entry): SheetNode =>
  h(
    'tr',
    { class: 'withheld' },
    h('th', { scope: 'row' }, entryTimes(entry)),
    h('td', { colspan: WIDTHS.length - 1 }, h('s', {}, WITHHELD_MARK + entry.text)),
  );

const markRow = (entry: Entry): SheetNode =>
  h(
    'tr',
    { class: 'mark' },
    h('th', { scope: 'row' }, entryTimes(entry)),
    h('td', { colspan: WIDTHS.length - 1 }, markWords(entry)),
  );

/** `▲ Tue 20 Apr 14:20`; the mark where nothing is to spare. */
function latestWords({ latestStart, critical, floatHours }: StageResult): string {
  if (latestStart === null) return '–';
  const none = floatHours !== null && Math.round(floatHours * 60) === 0;
  return `${critical || none ? '▲ ' : 'by '}${dayClock(latestStart)}`;
}

/** Work whose outcome depends on the air of the room. */
const OF_THE_AIR: ReadonlySet<StageKind> = new Set([
  'seal',
  'release',
  'test-panel',
  'layup',
  'closeout',
  'fair',
  'prime',
]);

const needsReadings = (stages: readonly StageResult[]): boolean =>
  stages.some(({ kind }) => OF_THE_AIR.has(kind));

/** What goes on after the last one has left, the pump apart. */
function overnight(facts: SheetData, day: LocalDay, entries: readonly Entry[]): SheetNode | null {
  const heated = entries.filter(
    ({ type, kind, placed }) =>
      type === 'run' && kind === 'post-cure' && placed!.end > day.end && !isWithheld(placed!.stage),
  );
  const lines = [...heated.map((entry) => entry.text), ...gelsTonight(facts, day)];
  if (lines.length === 0) return null;
  return h(
    'p',
    { class: 'overnight' },
    h('strong', {}, 'Through the night: '),
    `${lines.join('; ')}.`,
  );
}

/** Gels that begin or may end after hours on this day or before the next one's start. */
function gelsTonight(facts: SheetData, day: LocalDay): string[] {
  const opens = facts.detail.shopHours.find((span) => span.start >= day.end)?.start ?? day.end;
  const tonight = (iso: string | null): boolean => {
    if (iso === null) return false;
    const at = minuteOf(iso);
    return !isStaffed(facts, at) && at >= day.start && at < opens;
  };
  return facts.cures.flatMap(({ name, row: cure, withheld }) => {
    if (cure === null || withheld.length > 0) return [];
    if (tonight(cure.gel)) return [`${name} gels ${gelSpan(cure)}, with nobody there at first`];
    return tonight(cure.gelLatest)
      ? [`${name} may gel as late as ${dayClock(cure.gelLatest!)}: pump and alarm on until then`]
      : [];
  });
}
