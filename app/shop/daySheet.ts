/** One sheet a day: what to do when, by whom, what limits it, and boxes for what really happened. */
import { entriesOf, needsSheet, type Entry } from './agenda.ts';
import type { StageResult } from '../document/schema.ts';
import { capital } from '../messages/words.ts';
import { doorOf } from './doors.ts';
import {
  daysOf,
  isStaffed,
  isWithheld,
  minuteOf,
  type SheetData,
  type LocalDay,
} from './sheetData.ts';
import { DEFERRAL } from '../messages/safety.ts';
import { cautionsOf } from './hazards.ts';
import { heldMark, notReleasedHead } from './notReleased.ts';
import { pumpBox, curesUnderVacuum } from './pump.ts';
import { WITHHELD_MARK, withheldBox } from './withheld.ts';
import { row, sheetOf, signatures, table, type Sheet } from './parts.ts';
import { h, type SheetNode } from './tree.ts';
import { clockNote, entryTimes } from './weekSheet.ts';
import { dayClock, floatWords, gelSpan, longDay } from './words.ts';

const HEAD = ['Time', 'Work', 'Who', 'Started', 'Finished', 'Initials'] as const;

/** Sheets of the days on which hands are needed or a moment falls. */
export function daySheets(facts: SheetData): Sheet[] {
  const days = daysOf(facts).map((day) => ({ day, entries: entriesOf(facts, day) }));
  const busy = days.filter(
    ({ day, entries }) => needsSheet(entries) || curesUnderVacuum(facts, day).length > 0,
  );
  return busy.map(({ day, entries }, i) =>
    sheetOf(
      facts,
      'day',
      `day-${day.date}`,
      longDay(day.date) + clockNote(day),
      `Sheet ${i + 1} of ${busy.length}. ${daysLeft(facts, day)}`,
      withheldBox(facts, stagesOf(entries)),
      notReleasedHead(facts, released(entries)),
      dayTable(facts, entries),
      pumpBox(facts, day),
      needsSheet(entries) && roomReadings(),
      overnight(facts, day, entries),
      h('p', { class: 'defer' }, DEFERRAL),
      signatures('Day closed by', 'Time', 'Weather, notes'),
    ),
  );
}

const stagesOf = (entries: readonly Entry[]): StageResult[] =>
  entries.flatMap(({ placed }) => placed?.stage ?? []);

/** What is withheld waits for more than an answer. */
const released = (entries: readonly Entry[]): StageResult[] =>
  stagesOf(entries).filter((stage) => !isWithheld(stage));

function daysLeft(facts: SheetData, day: LocalDay): string {
  const hours = Math.floor((facts.detail.deadline - day.start) / 60);
  if (hours < 0) return `Unveiling was ${dayClock(facts.result.deadline)}.`;
  const days = Math.floor(hours / 24);
  const left = days === 0 ? 'today' : days === 1 ? 'tomorrow' : `in ${days} days`;
  return `Unveiling ${left}, ${dayClock(facts.result.deadline)}.`;
}

function dayTable(facts: SheetData, entries: readonly Entry[]): SheetNode {
  const said = new Set<string>();
  return h(
    'table',
    { class: 'agenda daily' },
    h('caption', {}, 'Today by the clock'),
    h(
      'thead',
      {},
      h(
        'tr',
        {},
        HEAD.map((name) => h('th', { scope: 'col' }, name)),
      ),
    ),
    h(
      'tbody',
      {},
      entries.map((entry) => entryRow(facts, entry, said)),
    ),
  );
}

function entryRow(facts: SheetData, entry: Entry, said: Set<string>): SheetNode {
  if (entry.type === 'mark') return markRow(entry);
  const { stage } = entry.placed!;
  if (isWithheld(stage)) return withheldRow(entry);
  const fresh = cautionsOf(facts.outcome, stage).filter((line) => !said.has(line));
  fresh.forEach((line) => said.add(line));
  return h(
    'tr',
    { class: entry.type },
    h('th', { scope: 'row' }, entryTimes(entry)),
    h(
      'td',
      {},
      h('strong', {}, heldMark(stage) + entry.text),
      entry.part !== null && ` (day ${entry.part.day} of ${entry.part.of})`,
      h('div', { class: 'limits' }, limits(facts, entry)),
      fresh.map((line) => h('div', { class: 'caution' }, `! ${line}`)),
    ),
    h('td', {}, facts.shortNames(stage.people)),
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
    h('td', { colspan: HEAD.length - 1 }, h('s', {}, WITHHELD_MARK + entry.text)),
  );

function markRow(entry: Entry): SheetNode {
  return h(
    'tr',
    { class: 'mark' },
    h('th', { scope: 'row' }, entry.from),
    h('td', { colspan: 2 }, `◆ ${entry.text}`, entry.alone && ' (nobody in the shop)'),
    h('td', { class: 'write' }),
    h('td', { class: 'write' }),
    h('td', { class: 'write' }),
  );
}

/** `No float. Needs mould, pump ports.` */
function limits(facts: SheetData, entry: Entry): string {
  const { stage } = entry.placed!;
  const parts: string[] = [];
  const door = doorOf(facts, stage);
  if (stage.floatHours !== null) {
    const none = Math.round(stage.floatHours * 60) === 0;
    parts.push(
      none ? '▲ No float' : `${stage.critical ? '▲ ' : ''}Float ${floatWords(stage.floatHours)}`,
    );
  }
  if (stage.latestStart !== null) parts.push(`latest start ${dayClock(stage.latestStart)}`);
  if (stage.gear.length > 0) parts.push(`needs ${facts.gearNames(stage.gear)}`);
  const lines = [
    door === null ? '' : `${capital(door)}.`,
    parts.length === 0 ? '' : `${parts.join('; ')}.`,
  ];
  return lines.filter((line) => line !== '').join(' ');
}

const roomReadings = (): SheetNode =>
  table(
    'room',
    'Room and mould',
    ['When', 'Room °C', 'Mould °C', 'Humidity %', 'By'],
    ['Start', 'Midday', 'End'].map((when) => row('', when, '', '', '', '')),
  );

/** What goes on after the last one has left, the pump apart. */
function overnight(facts: SheetData, day: LocalDay, entries: readonly Entry[]): SheetNode | null {
  const heated = entries.filter(
    ({ type, kind, placed }) =>
      type === 'run' && kind === 'post-cure' && placed!.end > day.end && !isWithheld(placed!.stage),
  );
  const lines = [...heated.map((entry) => entry.text), ...gelsTonight(facts, day)];
  if (lines.length === 0) return null;
  return h(
    'section',
    { class: 'overnight' },
    h('h2', {}, 'Through the night'),
    h(
      'ul',
      {},
      lines.map((line) => h('li', {}, line)),
    ),
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
  return facts.cures.flatMap(({ name, row, withheld }) => {
    if (row === null || withheld.length > 0) return [];
    if (tonight(row.gel)) return [`${name} gels ${gelSpan(row)}, with nobody there at first`];
    return tonight(row.gelLatest)
      ? [`${name} may gel as late as ${dayClock(row.gelLatest!)}: pump and alarm on until then`]
      : [];
  });
}
