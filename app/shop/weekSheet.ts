/** This week on the wall: people by the hour, cures through the night, holds, what must not slip. */
import { dayNumber, weekdayOfDay } from '../time/zone.ts';
import { WEEKDAYS } from '../time/week.ts';
import { entriesOf, isWithoutWork, type Entry } from './agenda.ts';
import { daysOf, isWithheld, reasonsOf, type SheetData, type LocalDay } from './sheetData.ts';
import type { StageResult } from '../document/schema.ts';
import { heldMark, notReleasedHead } from './notReleased.ts';
import { curesUnderVacuum, pumpWords, pumpWatchers } from './pump.ts';
import { NOT_TO_BE_BUILT, WITHHELD_MARK, withheldBox } from './withheld.ts';
import { holdsOf } from './holdSheet.ts';
import { columns, sheetOf, type Sheet } from './parts.ts';
import { h, type SheetNode } from './tree.ts';
import { columnWidths } from './weekAxis.ts';
import { weekChart } from './weekChart.ts';
import type { Numbers } from './weekRows.ts';
import { orderLine } from './orderWords.ts';
import { dayClock, floatWords, longDay, shortDay } from './words.ts';

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

/** What the reader must know before trusting the table. */
export function verdict(facts: SheetData): SheetNode | null {
  const { stops, unplaced, result } = facts;
  if (stops.length === 0 && unplaced.length === 0 && result.fits) return null;
  return h(
    'section',
    { class: 'verdict' },
    h('h2', {}, result.fits ? 'It fits, but' : 'This plan does not fit'),
    h(
      'ul',
      {},
      stops.map((finding) => h('li', {}, finding.message)),
      unplaced.length > 0 && h('li', {}, `Not placed: ${unplaced.join(', ')}.`),
    ),
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
  const entries = entriesOf(facts, day).filter((entry) => !isWithoutWork([entry]));
  const note = clockNote(day);
  const orders = entries.filter(({ kind, from }) => kind === 'order' && from !== 'runs');
  const lines = [
    ...ordersLine(orders),
    ...entries
      .filter(({ kind }) => kind !== 'order')
      .map((entry) => entryLine(facts, entry, numbers)),
  ];
  if (!entries.some(({ type }) => type === 'work')) {
    const runs = curesUnderVacuum(facts, day);
    const pump = `${NO_WORK}; the pump runs. ${runs.map((cure) => pumpWords(cure, day)).join('; ')}. ${pumpWatchers(facts, day)}`;
    if (runs.length > 0) lines.unshift(h('div', { class: 'by-day-line' }, pump));
    else if (lines.length === 0) lines.push(h('div', { class: 'by-day-line' }, NO_WORK));
  }
  return note === '' ? lines : [h('div', {}, shortDay(day.date) + note), ...lines];
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
  const mark = isWithheld(stage) ? WITHHELD_MARK : heldMark(stage);
  const number = numbers.get(stage.id);
  const who = stage.people.length === 0 ? '' : `, ${facts.shortNames(stage.people)}`;
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
    { class: 'side-by-side' },
    panel(
      'Hold points',
      holds.map(({ when, what }) => `☐ ${when}: ${what}`),
      'None this week.',
    ),
    panel(
      'Must not slip',
      tight.map(
        ({ stage }) =>
          `▲ ${stage.name}: float ${floatWords(stage.floatHours)}${stage.latestStart === null ? '' : `, latest start ${dayClock(stage.latestStart)}`}`,
      ),
      'Nothing this week is short of time.',
    ),
  );
}

/** Hours of float under which a slip is felt: one bag that leaks takes as much. */
const TIGHT_HOURS = 4;
const isTight = ({ floatHours, critical, kind }: StageResult): boolean =>
  kind !== 'cure' && (critical || (floatHours !== null && floatHours < TIGHT_HOURS));

/** Few lines run on; many stand in two columns. */
const panel = (title: string, lines: readonly string[], none: string): SheetNode =>
  lines.length < 3
    ? h(
        'p',
        { class: 'by-day-line' },
        h('strong', {}, `${title}: `),
        lines.length === 0 ? none : lines.join('; '),
      )
    : h(
        'section',
        { class: 'panel' },
        h('h2', {}, title),
        h(
          'div',
          { class: 'two' },
          lines.map((line) => h('div', { class: 'by-day-line' }, line)),
        ),
      );

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
