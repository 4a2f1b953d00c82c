/** This week on the wall: people by the hour, cures through the night, holds, what must not slip. */
import { dayNumber, minuteToIso, weekdayOfDay } from '../time/zone.ts';
import { WEEKDAYS } from '../time/week.ts';
import { entriesOf, isWithoutWork, type Entry } from './agenda.ts';
import {
  daysOf,
  isStaffed,
  isWithheld,
  minuteOf,
  reasonsOf,
  type CureSheetData,
  type LocalDay,
  type SheetData,
} from './sheetData.ts';
import { COURSE_MARK, courseOf } from './course.ts';
import { allowedFromWords, type AllowedMoment } from './allowedFrom.ts';
import { listed } from '../messages/words.ts';
import type { StageResult } from '../document/schema.ts';
import { heldMark, notReleasedHead } from './notReleased.ts';
import { curesUnderVacuum, pumpWatchers } from './pump.ts';
import { NOT_TO_BE_BUILT, WITHHELD_MARK, withheldBox } from './withheld.ts';
import { holdsOf } from './holdSheet.ts';
import { columns, sheetOf, type Sheet } from './parts.ts';
import { h, type SheetNode } from './tree.ts';
import { verdict } from './verdict.ts';
import { columnWidths } from './weekAxis.ts';
import { weekChart } from './weekChart.ts';
import { withoutWork, type Numbers } from './weekRows.ts';
import { orderLine } from './orderWords.ts';
import { clock, dayClock, floatWords, gelSpan, longDay, shortDay } from './words.ts';

/** One sheet for every calendar week, Monday to Sunday, in which something happens. */
export function weekSheets(facts: SheetData): Sheet[] {
  const weeks = weeksOf(daysOf(facts));
  return weeks.flatMap((week, i) => {
    if (week.every((day) => isWithoutWork(entriesOf(facts, day)))) return [];
    const first = week[0]!.date;
    const last = week[week.length - 1]!.date;
    const numbers = numbersOf(facts, week);
    return sheetOf(
      {
        kind: 'week',
        id: `week-${first}`,
        title: `Week ${i + 1} of ${weeks.length}: ${shortDay(first)} to ${longDay(last)}`,
        short: `Week ${i + 1}`,
        subtitle: `Unveiling ${dayClock(facts.result.deadline)}.`,
        days: [first, last],
        people: [...new Set(stagesIn(facts, week).flatMap(({ people }) => people))],
        landscape: true,
      },
      i === 0 && verdict(facts),
      withheldIn(facts, weeks, i),
      notReleasedHead(
        facts,
        stagesIn(facts, week).filter((stage) => !isWithheld(stage)),
      ),
      weekChart(facts, week, numbers),
      dayTable(facts, week, numbers),
      awayLine(facts, week),
      cureLines(facts, week),
      pumpLines(facts, week),
      panels(facts, week),
    );
  });
}

/** Stages that stand in the table of a week. */
const stagesIn = (facts: SheetData, week: readonly LocalDay[]): StageResult[] => {
  const entries = week
    .flatMap((day) => entriesOf(facts, day))
    .filter((one) => !isWithoutWork([one]));
  return [...new Set(entries.flatMap(({ placed }) => placed?.stage ?? []))];
};

export function weeksOf(days: readonly LocalDay[]): LocalDay[][] {
  const weeks: LocalDay[][] = [];
  for (const day of days) {
    const isMonday = weekdayOfDay(dayNumber(day.date)) === WEEKDAYS[0];
    if (weeks.length === 0 || isMonday) weeks.push([]);
    weeks[weeks.length - 1]!.push(day);
  }
  return weeks;
}

/** Why stages are withheld stands on the first week that has some; later ones point there. */
function withheldIn(
  facts: SheetData,
  weeks: readonly (readonly LocalDay[])[],
  index: number,
): SheetNode | null {
  const said = new Set(weeks.slice(0, index).flatMap((week) => reasonsOf(stagesIn(facts, week))));
  const own = stagesIn(facts, weeks[index]!);
  const isNew = reasonsOf(own).some((reason) => !said.has(reason));
  if (isNew || !own.some(isWithheld)) return withheldBox(facts, own);
  const first = weeks.findIndex((week) => stagesIn(facts, week).some(isWithheld));
  return h(
    'p',
    { class: 'abort' },
    h('strong', {}, `${WITHHELD_MARK}${NOT_TO_BE_BUILT}: what is marked ${WITHHELD_MARK.trim()}`),
    `, for the reasons on week ${first + 1}.`,
  );
}

/** What the chart shows, day by day in words, under its own columns. */
function dayTable(facts: SheetData, week: readonly LocalDay[], numbers: Numbers): SheetNode {
  return h(
    'table',
    { class: 'by-day' },
    columns(columnWidths(facts, week)),
    h(
      'tbody',
      {},
      h(
        'tr',
        {},
        h('th', { scope: 'row' }, 'By day'),
        week.map((day) => h('td', {}, dayCell(facts, day, numbers))),
      ),
    ),
  );
}

function dayCell(facts: SheetData, day: LocalDay, numbers: Numbers): SheetNode[] {
  const entries = entriesOf(facts, day).filter(
    (entry) => !isWithoutWork([entry]) && entry.ofCure === null,
  );
  const note = clockNote(day);
  const orders = entries.filter(({ kind, from }) => kind === 'order' && from !== 'runs');
  const lines = [
    ...ordersLine(orders),
    ...entries
      .filter(({ kind }) => kind !== 'order' && kind !== 'cure')
      .map((entry) => entryLine(facts, entry, numbers)),
  ];
  if (isPumpAlone(facts, day)) lines.unshift(line(`${NO_WORK}; the pump runs`));
  else if (lines.length === 0) lines.push(line(NO_WORK));
  return note === '' ? lines : [h('div', {}, shortDay(day.date) + note), ...lines];
}

const line = (content: string): SheetNode => h('div', { class: 'by-day-line' }, content);

/** Who has no row of hours in the picture. */
function awayLine(facts: SheetData, week: readonly LocalDay[]): SheetNode | null {
  const away = withoutWork(facts, { start: week[0]!.start, end: week[week.length - 1]!.end });
  if (away.length === 0) return null;
  const names = away.length === facts.build.crew.length ? 'all' : facts.shortNames(away);
  return h('div', { class: 'by-day-line' }, h('strong', {}, 'No work this week: '), `${names}.`);
}

/** A bag is under vacuum on a day on which nobody works. */
const isPumpAlone = (facts: SheetData, day: LocalDay): boolean =>
  curesUnderVacuum(facts, day).length > 0 &&
  entriesOf(facts, day).every(({ type }) => type !== 'work');

/** A line for each cure with a moment in the week: gel, and from when the bag and the part may come off. */
function cureLines(facts: SheetData, week: readonly LocalDay[]): SheetNode[] {
  const told = new Set(
    week.flatMap((day) => entriesOf(facts, day).flatMap(({ ofCure }) => ofCure ?? [])),
  );
  return facts.cures
    .filter(({ id }) => told.has(id))
    .map((cure) =>
      h(
        'div',
        { class: 'by-day-line' },
        h('strong', {}, `${cure.name}: `),
        cureMoments(facts, cure),
      ),
    );
}

function cureMoments(facts: SheetData, cure: CureSheetData): string {
  const { gel = null, gelLatest = null } = cure.row ?? {};
  const allowed = (moment: AllowedMoment) => allowedFromWords(facts, cure, moment);
  const alone = (iso: string | null) => iso !== null && !isStaffed(facts, minuteOf(iso));
  const nobody =
    alone(gel) || alone(gelLatest) ? ' (nobody in the shop for all or some of it)' : '';
  return [
    gel === null ? null : `gel ${gelSpan({ gel, gelLatest })}${nobody}`,
    allowed('debagFrom'),
    ...(cure.id === facts.lastInMould ? [allowed('demouldFrom'), allowed('sandFrom')] : []),
  ]
    .flatMap((words) => words ?? [])
    .join('; ');
}

/** Days on which the pump runs and nobody works: who looks, once for days that are alike. */
function pumpLines(facts: SheetData, week: readonly LocalDay[]): SheetNode | null {
  const days = week.filter((day) => isPumpAlone(facts, day));
  if (days.length === 0) return null;
  const watched = new Map<string, string[]>();
  for (const day of days) {
    const who = pumpWatchers(facts, day);
    watched.set(who, [...(watched.get(who) ?? []), shortDay(day.date)]);
  }
  const whoWords = [...watched].map(([who, on]) => `${listed(on)}: ${who}`);
  return h(
    'div',
    { class: 'by-day-line' },
    h('strong', {}, 'The pump runs with no work beside it: '),
    whoWords.join(' '),
  );
}

/** What is ordered on a day, once for all suppliers. */
const ordersLine = (orders: readonly Entry[]): SheetNode[] =>
  orders.length === 0
    ? []
    : [
        h(
          'div',
          { class: 'by-day-line' },
          orderLine(orders.map(({ placed }) => placed!.stage.name)),
        ),
      ];

function entryLine(facts: SheetData, entry: Entry, numbers: Numbers): SheetNode {
  if (entry.type === 'mark') {
    const alone = entry.alone ? ' (nobody in the shop)' : '';
    return h('div', { class: 'by-day-line' }, `◆ ${entry.from} ${entry.text}${alone}`);
  }
  const stage = entry.placed!.stage;
  const mark = COURSE_MARK[courseOf(stage)] + (isWithheld(stage) ? WITHHELD_MARK : heldMark(stage));
  const number = numbers.get(stage.id);
  const isAll = stage.people.length > 1 && stage.people.length === facts.build.crew.length;
  const names = isAll ? 'all' : facts.shortNames(stage.people);
  const who = stage.people.length === 0 ? '' : `, ${names}`;
  return h(
    'div',
    { class: 'by-day-line' },
    number !== undefined && h('strong', {}, `${number} `),
    h(stage.critical ? 'strong' : 'span', {}, `${stage.critical ? '▲ ' : ''}${entryTimes(entry)}`),
    ` ${mark}${entry.text}${who}`,
  );
}

/** Work of hands, numbered through the week in the order of its start. */
function numbersOf(facts: SheetData, week: readonly LocalDay[]): Numbers {
  const numbers = new Map<string, number>();
  for (const day of week) {
    for (const { placed, type } of entriesOf(facts, day)) {
      if (placed === null || numbers.has(placed.stage.id)) continue;
      if (type === 'work' || placed.stage.kind === 'outside')
        numbers.set(placed.stage.id, numbers.size + 1);
    }
  }
  return numbers;
}

/** Hold points of the week, and what moves the date when it moves. */
function panels(facts: SheetData, week: readonly LocalDay[]): SheetNode {
  const [from, to] = [week[0]!.start, week[week.length - 1]!.end];
  const holds = holdsOf(facts).filter(({ at }) => at !== null && at >= from && at < to);
  const tight = facts.placed.filter(
    ({ stage, start }) => start >= from && start < to && isTight(stage),
  );
  return h(
    'div',
    {},
    panel(
      'Hold points',
      holds.map(({ at, what }) => `☐ ${inWeek(minuteToIso(at!, facts.zone))} ${what}`),
      'none this week.',
    ),
    panel(
      'Must not slip: latest start, then float',
      tight.map(
        ({ stage }) =>
          `▲ ${stage.latestStart === null ? '' : `${inWeek(stage.latestStart)} `}${stage.name} (${floatWords(stage.floatHours)})`,
      ),
      'nothing this week is short of time.',
    ),
  );
}

/** Hours of float under which a slip is felt: one bag that leaks takes as much. */
const TIGHT_HOURS = 4;
const isTight = ({ floatHours, critical, kind }: StageResult): boolean =>
  kind !== 'cure' && (critical || (floatHours !== null && floatHours < TIGHT_HOURS));

/** `Tue 20 14:20`: the month stands at the head of the week. */
const inWeek = (iso: string): string => `${shortDay(iso).replace(/ \S+$/, '')} ${clock(iso)}`;

const PANEL_COLUMNS = 3;

/** Few lines run on; many stand in columns, read down. */
const panel = (title: string, lines: readonly string[], none: string): SheetNode =>
  lines.length < 3
    ? h(
        'div',
        { class: 'by-day-line' },
        h('strong', {}, `${title}: `),
        lines.length === 0 ? none : lines.join('; '),
      )
    : h(
        'div',
        { class: 'wall-lines' },
        inColumns([h('strong', {}, title), ...lines]).map((column) =>
          h(
            'div',
            {},
            column.map((one) => h('div', { class: 'by-day-line' }, one)),
          ),
        ),
      );

function inColumns<T>(items: readonly T[]): T[][] {
  const each = Math.ceil(items.length / PANEL_COLUMNS);
  return Array.from({ length: PANEL_COLUMNS }, (_, i) => items.slice(i * each, (i + 1) * each));
}

const NO_WORK = 'No work';

/** Days on which the clock is changed say so. */
export function clockNote(day: LocalDay): string {
  const hours = (day.end - day.start) / 60;
  return hours === 24 ? '' : ` (clocks change: ${hours} h)`;
}

/** `07:30–12:00`, `from 16:00`, `runs to 08:00`, `all day` */
export function entryTimes(entry: Entry): string {
  if (entry.type === 'mark') return entry.from;
  if (entry.to === '') return entry.from === 'runs' ? 'all day' : `from ${entry.from}`;
  return entry.from === 'runs' ? `to ${entry.to}` : `${entry.from}–${entry.to}`;
}
