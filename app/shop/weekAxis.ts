/** The scale of the week's picture: a column for each day, most of it for the working hours, the rest for the night. */
import type { Interval, Minute } from '../time/instant.ts';
import { entriesOf, isWithoutWork } from './agenda.ts';
import type { LocalDay, SheetData } from './sheetData.ts';

/** Width of the picture in its own units, about millimetres on paper. */
export const CHART_WIDTH = 270;
/** Width left of the days, for the names. */
export const NAMES = 22;
/** Height of the head with days and hours. */
export const HEAD = 8.2;
/** Share of the width of a day that its working hours take; the night has the rest. */
export const OPEN_SHARE = 0.84;
/** Widths of a day on which nobody works, with and without something to say, against one with work. */
const TOLD_SHARE = 0.62;
const IDLE_SHARE = 0.32;

export interface Axis {
  readonly from: Minute;
  readonly to: Minute;
  readonly days: readonly DayColumn[];
  x(at: Minute): number;
}

export interface DayColumn {
  readonly day: LocalDay;
  readonly left: number;
  readonly right: number;
  readonly opens: Minute;
  readonly closes: Minute;
}

/** Widths of the day columns in hundredths of the chart, the names first. */
export function columnWidths(facts: SheetData, week: readonly LocalDay[]): number[] {
  const columns = axisOf(facts, week).days;
  return [NAMES, ...columns.map(({ left, right }) => right - left)].map(
    (width) => (width / CHART_WIDTH) * 100,
  );
}

/** @param week days of the week, in order, at least one */
export function axisOf(facts: SheetData, week: readonly LocalDay[]): Axis {
  const hours = openHours(facts, week);
  const shares = week.map((day) =>
    isWorked(facts, day) ? 1 : isToldOf(facts, day) ? TOLD_SHARE : IDLE_SHARE,
  );
  const unit = (CHART_WIDTH - NAMES) / shares.reduce((sum, share) => sum + share, 0);
  let left = NAMES;
  const days = week.map((day, i): DayColumn => {
    const column = {
      day,
      left,
      right: left + unit * shares[i]!,
      opens: day.start + hours.opens,
      closes: Math.min(day.end, day.start + hours.closes),
    };
    left = column.right;
    return column;
  });
  const [from, to] = [week[0]!.start, week.at(-1)!.end];
  return { from, to, days, x: (at) => xOf(days, Math.min(Math.max(at, from), to)) };
}

function xOf(days: readonly DayColumn[], at: Minute): number {
  const column = days.find(({ day }) => at <= day.end) ?? days.at(-1)!;
  const { day, left, right, opens, closes } = column;
  const night = ((right - left) * (1 - OPEN_SHARE)) / 2;
  const share = (from: Minute, to: Minute) => (to > from ? (at - from) / (to - from) : 0);
  if (at < opens) return round(left + night * share(day.start, opens));
  if (at > closes) return round(right - night + night * share(closes, day.end));
  return round(left + night + (right - left) * OPEN_SHARE * share(opens, closes));
}

export const round = (value: number): number => Math.round(value * 100) / 100;

/** First and last hour of the week's work, minutes after midnight. */
function openHours(facts: SheetData, week: readonly LocalDay[]) {
  let opens = 8 * 60;
  let closes = 16 * 60;
  for (const day of week) {
    for (const { hands } of facts.placed) {
      for (const span of hands) {
        if (span.start >= day.end || span.end <= day.start) continue;
        opens = Math.min(opens, Math.max(0, span.start - day.start));
        closes = Math.max(closes, Math.min(day.end, span.end) - day.start);
      }
    }
  }
  return { opens: Math.floor(opens / 60) * 60, closes: Math.ceil(closes / 60) * 60 };
}

const isWorked = (facts: SheetData, day: LocalDay): boolean =>
  facts.placed.some(({ hands }) => hands.some((span) => meets(span, day)));

/** An outside job begins, an order is due, or a moment falls on the day. */
const isToldOf = (facts: SheetData, day: LocalDay): boolean =>
  entriesOf(facts, day).some((entry) => entry.kind !== 'cure' && !isWithoutWork([entry]));

export const meets = (span: Interval, { start, end }: Interval): boolean =>
  span.start < end && span.end > start;
