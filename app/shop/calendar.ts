/** The plan as an iCalendar file (RFC 5545), one event for every placed stage. */
import type { PlanOutcome } from '../plan/outcome.ts';
import type { Minute } from '../time/instant.ts';
import { DEFERRAL } from '../messages/safety.ts';
import { alarmsOfStage, type CalendarAlarm } from './calendarAlarms.ts';
import { cautionsOf } from './hazards.ts';
import type { StageResult } from '../document/schema.ts';
import {
  isWithheld,
  sheetDataOf,
  milestonesOf,
  minuteOf,
  type SheetData,
  type PlacedStage,
} from './sheetData.ts';
import { NOT_TO_BE_BUILT } from './withheld.ts';
import { dayClock, floatWords } from './words.ts';

/** RFC 5545 section 3.1: lines of at most 75 octets, the line break left out. */
const MOST_OCTETS = 75;

/**
 * Events keep their UID from plan to plan (build and stage ids), so that importing a later plan
 * moves them. Times are UTC; DTSTAMP is the plan's now, not the clock's.
 */
export function calendarIcs(outcome: PlanOutcome): string {
  const facts = sheetDataOf(outcome);
  const { build } = facts.result;
  const lines = [
    'BEGIN:VCALENDAR',
    'VERSION:2.0',
    'PRODID:-//Backcure//Shop schedule//EN',
    'CALSCALE:GREGORIAN',
    `X-WR-CALNAME:${escapeText(build.name)}`,
    ...facts.placed.flatMap((placed) => stageEvent(facts, placed)),
    ...unveilingEvent(facts),
    'END:VCALENDAR',
  ];
  return lines.map((line) => `${fold(line)}\r\n`).join('');
}

function stageEvent(facts: SheetData, placed: PlacedStage): string[] {
  const { stage } = placed;
  return [
    'BEGIN:VEVENT',
    `UID:${uid(facts, stage.id)}`,
    `DTSTAMP:${utc(minuteOf(facts.result.now))}`,
    `DTSTART:${utc(placed.start)}`,
    // An event without length has no end: DTEND must lie after DTSTART.
    ...(placed.end > placed.start ? [`DTEND:${utc(placed.end)}`] : []),
    `SUMMARY:${escapeText(`${withheldMark(stage)}${stage.name} (${facts.result.build.name})`)}`,
    `DESCRIPTION:${escapeText(description(facts, placed))}`,
    `CATEGORIES:${escapeText(stage.kind)}`,
    // A cure by itself takes nobody's time.
    `TRANSP:${placed.hands.length > 0 ? 'OPAQUE' : 'TRANSPARENT'}`,
    ...alarmsOfStage(facts, placed).flatMap(alarmLines),
    'END:VEVENT',
  ];
}

/** RFC 5545 section 3.6.6; the trigger counts from the event's start, in minutes of real time. */
const alarmLines = ({ minutesFromStart, text }: CalendarAlarm): string[] => [
  'BEGIN:VALARM',
  'ACTION:DISPLAY',
  `TRIGGER:${minutesFromStart < 0 ? '-' : ''}PT${Math.abs(minutesFromStart)}M`,
  `DESCRIPTION:${escapeText(text)}`,
  'END:VALARM',
];

const withheldMark = (stage: StageResult): string =>
  isWithheld(stage) ? `${NOT_TO_BE_BUILT}: ` : '';

function unveilingEvent(facts: SheetData): string[] {
  return [
    'BEGIN:VEVENT',
    `UID:${uid(facts, 'unveiling')}`,
    `DTSTAMP:${utc(minuteOf(facts.result.now))}`,
    `DTSTART:${utc(minuteOf(facts.result.deadline))}`,
    `SUMMARY:${escapeText(`Unveiling: ${facts.result.build.name}`)}`,
    'TRANSP:OPAQUE',
    'END:VEVENT',
  ];
}

function description(facts: SheetData, { stage }: PlacedStage): string {
  if (isWithheld(stage)) return [NOT_TO_BE_BUILT, ...stage.withheld!].join('\n');
  const lines: string[] = [];
  if (stage.people.length > 0) lines.push(`Who: ${facts.personNames(stage.people)}`);
  if (stage.gear.length > 0) lines.push(`Gear: ${facts.gearNames(stage.gear)}`);
  if (stage.floatHours !== null) lines.push(`Float: ${floatWords(stage.floatHours)}`);
  if (stage.latestStart !== null) lines.push(`Latest start: ${dayClock(stage.latestStart)}`);
  const cure = stage.kind === 'cure' && facts.cures.find(({ id }) => id === stage.cure)?.row;
  if (cure) {
    for (const { label, at } of milestonesOf(cure)) {
      if (at !== null) lines.push(`${label}: ${dayClock(at)}`);
    }
  }
  const cautions = cautionsOf(facts.outcome, stage);
  if (cautions.length > 0) lines.push(...cautions, DEFERRAL);
  lines.push(`Times in ${facts.zone}`);
  return lines.join('\n');
}

/** Ids are limited to characters that need no escape in a UID; `@` parts them from the build. */
const uid = (facts: SheetData, stage: string): string =>
  escapeText(`${stage}@${facts.result.build.id}.backcure`);

const utc = (minute: Minute): string =>
  new Date(minute * 60_000).toISOString().slice(0, 19).replace(/[-:]/g, '') + 'Z';

/** RFC 5545 section 3.3.11: backslash, semicolon, comma and line break are escaped, other controls left out. */
export function escapeText(text: string): string {
  return text
    .replace(/[\\;,]/g, (character) => `\\${character}`)
    .replace(/\r\n|\r|\n/g, '\\n')
    .replace(/\p{Cc}/gu, (character) => (character === '\t' ? character : ''));
}

/** Folds a content line after 75 octets, never inside a character. */
export function fold(line: string): string {
  const pieces: string[] = [];
  let piece = '';
  let octets = 0;
  for (const character of line) {
    const size = utf8Octets(character.codePointAt(0)!);
    if (octets + size > MOST_OCTETS) {
      pieces.push(piece);
      piece = ' ';
      octets = 1;
    }
    piece += character;
    octets += size;
  }
  pieces.push(piece);
  return pieces.join('\r\n');
}

const utf8Octets = (codePoint: number): number =>
  codePoint < 0x80 ? 1 : codePoint < 0x800 ? 2 : codePoint < 0x10000 ? 3 : 4;
