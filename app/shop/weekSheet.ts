/** Week overviews: one table a week, days down, with what floats and what does not. */
import { dayNumber, weekdayOfDay } from '../time/zone.ts';
import { WEEKDAYS } from '../time/week.ts';
import { entriesOf, isWithoutWork, type Entry } from './agenda.ts';
import {
  daysOf,
  isWithheld,
  type CureSheetData,
  type SheetData,
  type LocalDay,
} from './sheetData.ts';
import type { StageResult } from '../document/schema.ts';
import { heldMark, notReleasedHead } from './notReleased.ts';
import { curesUnderVacuum, pumpWords, pumpWatchers } from './pump.ts';
import { WITHHELD_MARK, withheldBox } from './withheld.ts';
import { sheetOf, type Sheet } from './parts.ts';
import { h, type SheetNode } from './tree.ts';
import { weekStrip } from './weekStrip.ts';
import { dayClock, floatWords, longDay, shortDay } from './words.ts';

/** One sheet for every calendar week, Monday to Sunday, in which something happens. */
export function weekSheets(facts: SheetData): Sheet[] {
  const weeks = weeksOf(daysOf(facts));
  return weeks.flatMap((week, i) => {
    if (week.every((day) => isWithoutWork(entriesOf(facts, day)))) return [];
    const first = week[0]!.date;
    const last = week[week.length - 1]!.date;
    return sheetOf(
      facts,
      'week',
      `week-${first}`,
      `Week ${i + 1} of ${weeks.length}`,
      `${shortDay(first)} to ${longDay(last)}. Unveiling ${dayClock(facts.result.deadline)}.`,
      i === 0 && verdict(facts),
      withheldBox(facts, stagesIn(facts, week)),
      notReleasedHead(
        facts,
        stagesIn(facts, week).filter((stage) => !isWithheld(stage)),
      ),
      weekStrip(facts, week),
      weekTable(facts, week),
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

function weeksOf(days: readonly LocalDay[]): LocalDay[][] {
  const weeks: LocalDay[][] = [];
  for (const day of days) {
    const isMonday = weekdayOfDay(dayNumber(day.date)) === WEEKDAYS[0];
    if (weeks.length === 0 || isMonday) weeks.push([]);
    weeks[weeks.length - 1]!.push(day);
  }
  return weeks;
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

const HEAD = ['Time', 'Work', 'Who', 'Float', 'Latest start'] as const;

/** Every day is a row group of its own, so that a page never breaks between a day and its first row. */
function weekTable(facts: SheetData, week: readonly LocalDay[]): SheetNode {
  return h(
    'table',
    { class: 'agenda week' },
    h('caption', {}, 'Day by day'),
    h(
      'thead',
      {},
      h(
        'tr',
        {},
        HEAD.map((name) => h('th', { scope: 'col' }, name)),
      ),
    ),
    dayGroups(facts, week),
  );
}

function dayGroups(facts: SheetData, week: readonly LocalDay[]): SheetNode[] {
  const groups: SheetNode[] = [];
  let quiet: LocalDay[] = [];
  const flush = () => {
    if (quiet.length > 0) groups.push(idleDays(quiet));
    quiet = [];
  };
  for (const day of week) {
    const entries = entriesOf(facts, day).filter((entry) => !isWithoutWork([entry]));
    const runs = curesUnderVacuum(facts, day);
    const works = entries.some(({ type }) => type === 'work');
    if (!works && runs.length > 0) {
      flush();
      groups.push(pumpGroup(facts, day, runs));
      if (entries.length > 0) groups.push(dayGroup(facts, day, entries));
    } else if (entries.length === 0) quiet.push(day);
    else {
      flush();
      groups.push(dayGroup(facts, day, entries));
    }
  }
  flush();
  return groups;
}

/** Days without anything to do take one line together. */
function idleDays(days: readonly LocalDay[]): SheetNode {
  const [first, last] = [days[0]!, days[days.length - 1]!];
  const name = days.length === 1 ? dayName(first) : `${dayName(first)} to ${dayName(last)}`;
  return h(
    'tbody',
    {},
    h('tr', { class: 'quiet' }, h('td', { colspan: HEAD.length }, `${name}: no work`)),
  );
}

/** A day on which nothing but the pump runs. */
const pumpGroup = (facts: SheetData, day: LocalDay, cures: readonly CureSheetData[]): SheetNode =>
  h(
    'tbody',
    {},
    h(
      'tr',
      { class: 'quiet' },
      h(
        'td',
        { colspan: HEAD.length },
        `${dayName(day)}: no work; the pump runs. ` +
          `${cures.map((cure) => pumpWords(cure, day)).join('; ')}. ${pumpWatchers(facts, day)}`,
      ),
    ),
  );

const dayName = (day: LocalDay): string => shortDay(day.date) + clockNote(day);

function dayGroup(facts: SheetData, day: LocalDay, entries: readonly Entry[]): SheetNode {
  return h(
    'tbody',
    {},
    h('tr', { class: 'day' }, h('th', { scope: 'rowgroup', colspan: HEAD.length }, dayName(day))),
    entries.map((entry) => entryRow(facts, entry)),
  );
}

/** Days on which the clock is changed say so. */
export function clockNote(day: LocalDay): string {
  const hours = (day.end - day.start) / 60;
  return hours === 24 ? '' : ` (clocks change: ${hours} h)`;
}

function entryRow(facts: SheetData, entry: Entry): SheetNode {
  if (entry.type === 'mark') {
    return h(
      'tr',
      { class: 'mark' },
      h('th', { scope: 'row' }, entry.from),
      h(
        'td',
        { colspan: HEAD.length - 1 },
        `◆ ${entry.text}`,
        entry.alone && ' (nobody in the shop)',
      ),
    );
  }
  const stage = entry.placed!.stage;
  const mark = isWithheld(stage) ? WITHHELD_MARK : heldMark(stage);
  return h(
    'tr',
    { class: isWithheld(stage) ? 'withheld' : entry.type },
    h('th', { scope: 'row' }, entryTimes(entry)),
    h(
      'td',
      {},
      mark,
      entry.text,
      entry.part !== null && h('small', {}, ` day ${entry.part.day} of ${entry.part.of}`),
    ),
    h('td', {}, facts.shortNames(stage.people)),
    h('td', { class: stage.critical ? 'float critical' : 'float' }, floatCell(entry)),
    h('td', { class: 'latest' }, stage.latestStart === null ? '–' : dayClock(stage.latestStart)),
  );
}

const floatCell = (entry: Entry): string => {
  const { floatHours, critical } = entry.placed!.stage;
  return `${critical ? '▲ ' : ''}${floatWords(floatHours)}`;
};

/** `07:30–12:00`, `from 16:00`, `runs to 08:00`, `all day` */
export function entryTimes(entry: Entry): string {
  if (entry.type === 'mark') return entry.from;
  if (entry.to === '') return entry.from === 'runs' ? 'all day' : `from ${entry.from}`;
  return entry.from === 'runs' ? `to ${entry.to}` : `${entry.from}–${entry.to}`;
}
