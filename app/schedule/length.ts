/**
 * When a stage in a mode may begin and when it then ends, both ways round. Every function here is
 * nondecreasing in its minute. NEVER stands for 'not within the calendar'.
 */
import {
  intervalAfter,
  tableAddWork,
  tableStartForWork,
  type WorkTable,
} from '../time/calendar.ts';
import type { PlanMode } from './compile.ts';

export const NEVER = -2_000_000_000;
/** Later than any minute of a plan. */
export const FAR = 2_000_000_000;

/** The calendar's own mark for 'none' is any negative minute. */
const orNever = (minute: number): number => (minute < 0 ? NEVER : minute);

function nextOpenMinute(table: WorkTable, minute: number): number {
  const i = intervalAfter(table, minute);
  return i === table.count ? NEVER : Math.max(minute, table.start[i]!);
}

/** Latest open minute at or before `minute`. */
function lastOpenMinute(table: WorkTable, minute: number): number {
  const i = intervalAfter(table, minute);
  if (i < table.count && table.start[i]! <= minute) return minute;
  return i === 0 ? NEVER : table.end[i - 1]! - 1;
}

/** First start at or after `minute`; NEVER when the calendar holds none. */
export function startFrom(mode: PlanMode, minute: number): number {
  const { table, starts } = mode;
  if (starts !== null) return nextOpenMinute(starts, minute);
  if (table === null) return minute;
  if (mode.kind === 'unbroken') {
    for (let i = intervalAfter(table, minute); i < table.count; i++) {
      const start = Math.max(minute, table.start[i]!);
      if (table.end[i]! - start >= mode.minutes) return start;
    }
    return NEVER;
  }
  if (mode.kind === 'work' && mode.minutes <= 0) return minute;
  return nextOpenMinute(table, minute);
}

/** End of a stage begun at a start that its calendar allows; NEVER when it does not end. */
export function endFrom(mode: PlanMode, start: number): number {
  switch (mode.kind) {
    case 'elapsed':
    case 'unbroken':
      return start + mode.minutes;
    case 'work':
      return mode.table
        ? orNever(tableAddWork(mode.table, start, mode.minutes))
        : start + mode.minutes;
    case 'function':
      return mode.endOf!(start) ?? NEVER;
  }
}

/** Latest start at or before `minute` that the calendar allows; NEVER when there is none. */
export function startUpTo(mode: PlanMode, minute: number): number {
  const { table, starts } = mode;
  if (starts !== null) return lastOpenMinute(starts, minute);
  if (table === null) return minute;
  if (mode.kind === 'unbroken') return unbrokenUpTo(table, mode.minutes, minute);
  if (mode.kind === 'work' && mode.minutes <= 0) return minute;
  const start = lastOpenMinute(table, minute);
  if (start === NEVER || mode.kind !== 'work') return start;
  if (tableAddWork(table, start, mode.minutes) >= 0) return start;
  return orNever(tableStartForWork(table, table.end[table.count - 1]!, mode.minutes));
}

function unbrokenUpTo(table: WorkTable, minutes: number, minute: number): number {
  for (let i = Math.min(intervalAfter(table, minute), table.count - 1); i >= 0; i--) {
    const start = Math.min(minute, table.end[i]! - minutes);
    if (start >= table.start[i]!) return start;
  }
  return NEVER;
}

/** Latest start whose end is at or before `end`; NEVER when there is none. */
export function startToEndBy(mode: PlanMode, end: number): number {
  switch (mode.kind) {
    case 'elapsed':
    case 'unbroken':
      return startUpTo(mode, end - mode.minutes);
    case 'work':
      return workToEndBy(mode, end);
    case 'function': {
      const start = mode.latestStart!(end);
      return start === null ? NEVER : startUpTo(mode, start);
    }
  }
}

function workToEndBy({ table, starts, minutes }: PlanMode, end: number): number {
  const start =
    table && minutes > 0 ? orNever(tableStartForWork(table, end, minutes)) : end - minutes;
  return starts === null || start === NEVER ? start : lastOpenMinute(starts, start);
}

/** First start at or after `from` whose end is at or after `end`; NEVER when there is none. */
export function startToEndFrom(mode: PlanMode, end: number, from: number): number {
  const tooEarly = startToEndBy(mode, end - 1);
  return startFrom(mode, tooEarly === NEVER ? from : Math.max(from, tooEarly + 1));
}
