/**
 * The week as a picture: people as rows, the hours of each day across, cures as bars through the night
 * with gel and bag-off. Black, white and grey alone, so that any printer and copier does it.
 */
import type { Interval, Minute } from '../time/instant.ts';
import { minuteToIso } from '../time/zone.ts';
import { textWidthMm, wrapped } from './flow/letters.ts';
import { pumped } from './pump.ts';
import {
  isWithheld,
  minuteOf,
  type CureSheetData,
  type LocalDay,
  type PlacedStage,
  type SheetData,
} from './sheetData.ts';
import { h, type SheetNode } from './tree.ts';
import { WITHHELD_MARK } from './withheld.ts';
import { clock } from './words.ts';

export const CHART_WIDTH = 270;
/** Names stand here, left of the days. */
const NAMES = 22;
const HEAD = 8.6;
const PERSON = 10.5;
/** With few bars the numbers alone tell them apart. */
const PERSON_LOW = 6.8;
const FEW_BARS = 6;
/** Free above and below a bar, for the number of one that is too narrow to hold it. */
const BAND = 2.8;
const CURE = 8.5;
const OUTSIDE = 9;
/** Share of the width of a day that its working hours take; the night has the rest. */
const OPEN_SHARE = 0.84;
/** A day on which nobody works is so wide against one on which somebody does. */
const IDLE_SHARE = 0.42;
const SMALL_PT = 6.5;

/** Working stages of the week in the order of their numbers. */
export type Numbers = ReadonlyMap<string, number>;

interface Axis {
  readonly from: Minute;
  readonly to: Minute;
  readonly days: readonly DayColumn[];
  x(at: Minute): number;
}

interface DayColumn {
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

function axisOf(facts: SheetData, week: readonly LocalDay[]): Axis {
  const hours = openHours(facts, week);
  const shares = week.map((day) => (isWorked(facts, day) ? 1 : IDLE_SHARE));
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

const round = (value: number): number => Math.round(value * 100) / 100;

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

const meets = (span: Interval, { start, end }: Interval): boolean =>
  span.start < end && span.end > start;

interface Row {
  readonly name: string;
  readonly height: number;
  draw(y: number): SheetNode[];
}

export function weekChart(
  facts: SheetData,
  week: readonly LocalDay[],
  numbers: Numbers,
): SheetNode {
  const axis = axisOf(facts, week);
  const rows = [
    ...personRows(facts, axis, numbers),
    ...outsideRow(facts, axis, numbers),
    ...cureRows(facts, axis),
    ...heatRows(facts, axis),
  ];
  const height = HEAD + rows.reduce((sum, row) => sum + row.height, 0);
  let y = HEAD;
  const drawn = rows.map((row) => {
    const top = y;
    y += row.height;
    return [
      h('line', { class: 'rule', x1: 0, x2: CHART_WIDTH, y1: y, y2: y }),
      ...nameLines(row.name, top, row.height),
      ...row.draw(top),
    ];
  });
  return h(
    'svg',
    {
      class: 'wall',
      viewBox: `0 0 ${CHART_WIDTH} ${round(height + 0.4)}`,
      width: '100%',
      role: 'img',
      'aria-label': 'The week by person and hour; the table below holds the same',
    },
    axis.days.map((column) => dayColumn(column, height)),
    drawn,
    deadline(facts, axis, height),
  );
}

const text = (
  x: number,
  y: number,
  pt: number,
  content: string,
  attrs: { readonly class?: string; readonly 'text-anchor'?: string } = {},
): SheetNode => h('text', { x: round(x), y: round(y), 'font-size': inMm(pt), ...attrs }, content);

const inMm = (pt: number): number => round((pt * 25.4) / 72);

function nameLines(name: string, top: number, height: number): SheetNode[] {
  const lines = wrapped(name, NAMES - 1, { pt: 8, bold: true }).slice(0, 2);
  const first = top + height / 2 + 1 - (lines.length - 1) * 1.6;
  return lines.map((line, i) => text(0, first + i * 3.2, 8, line, { class: 'bold' }));
}

function dayColumn({ day, left, right, opens, closes }: DayColumn, height: number): SheetNode {
  const night = ((right - left) * (1 - OPEN_SHARE)) / 2;
  const step = closes - opens > 12 * 60 || right - left < 30 ? 240 : 120;
  const hours: Minute[] = [];
  for (let at = Math.ceil(opens / 60) * 60; at <= closes; at += step) hours.push(at);
  const x = (at: Minute) =>
    left + night + ((right - left) * OPEN_SHARE * (at - opens)) / (closes - opens);
  const shut = (from: number, width: number) =>
    h('rect', {
      class: 'shut',
      x: round(from),
      y: HEAD,
      width: round(width),
      height: height - HEAD,
    });
  return h(
    'g',
    {},
    shut(left, night),
    shut(right - night, night),
    h('line', { class: 'rule', x1: round(left), x2: round(left), y1: 0, y2: height }),
    text(left + 1, 3.6, 8.5, shortDayName(day, right - left), { class: 'bold' }),
    hours.map((at) => [
      h('line', { class: 'hour', x1: round(x(at)), x2: round(x(at)), y1: HEAD, y2: height }),
      text(x(at), 7.8, SMALL_PT, String(Math.round((at - day.start) / 60)), {
        'text-anchor': 'middle',
      }),
    ]),
  );
}

const NAMES_OF_DAYS = ['Sun', 'Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat'] as const;
/** `Tue 20 Apr`, `Tue 20` where the column is narrow. */
function shortDayName({ date }: LocalDay, width: number): string {
  const weekday = NAMES_OF_DAYS[new Date(`${date}T12:00Z`).getUTCDay()]!;
  const month = MONTHS_SHORT[Number(date.slice(5, 7)) - 1]!;
  const whole = `${weekday} ${Number(date.slice(8))} ${month}`;
  return textWidthMm(whole, { pt: 8.5, bold: true }) < width - 2
    ? whole
    : `${weekday} ${Number(date.slice(8))}`;
}
const MONTHS_SHORT = [
  'Jan',
  'Feb',
  'Mar',
  'Apr',
  'May',
  'Jun',
  'Jul',
  'Aug',
  'Sep',
  'Oct',
  'Nov',
  'Dec',
] as const;

function personRows(facts: SheetData, axis: Axis, numbers: Numbers): Row[] {
  const height = numbers.size > FEW_BARS ? PERSON : PERSON_LOW;
  return facts.build.crew.map((person): Row => {
    const own = facts.placed.filter(({ stage }) => stage.people.includes(person.id));
    return {
      name: facts.shortNames([person.id]),
      height,
      draw: (y) => own.flatMap((placed) => bars(placed, placed.hands, axis, y, height, numbers)),
    };
  });
}

/** Jobs of outside parties, one row for all. */
function outsideRow(facts: SheetData, axis: Axis, numbers: Numbers): Row[] {
  const own = facts.placed.filter(
    (placed) =>
      placed.stage.kind === 'outside' && meets(placed, { start: axis.from, end: axis.to }),
  );
  if (own.length === 0) return [];
  const draw = (y: number) =>
    own.flatMap((placed) => bars(placed, [placed], axis, y, OUTSIDE, numbers));
  return [{ name: 'Outside', height: OUTSIDE, draw }];
}

function bars(
  placed: PlacedStage,
  spans: readonly Interval[],
  axis: Axis,
  y: number,
  height: number,
  numbers: Numbers,
): SheetNode[] {
  const { stage } = placed;
  const number = numbers.get(stage.id);
  return spans
    .filter((span) => meets(span, { start: axis.from, end: axis.to }))
    .flatMap((span) => {
      const [left, right] = [axis.x(span.start), axis.x(span.end)];
      const width = Math.max(0.8, right - left);
      const tight = stage.critical ? ' tight' : '';
      return [
        h('rect', {
          class: `work${tight}`,
          x: left,
          y: y + BAND,
          width: round(width),
          height: height - 2 * BAND,
        }),
        ...label(
          `${isWithheld(stage) ? WITHHELD_MARK : ''}${number ?? ''}`.trim(),
          stage.name,
          left,
          width,
          y,
          height,
        ),
      ];
    });
}

/** The number, and the name where whole lines of it fit in; beside a narrow bar the number alone. */
function label(
  number: string,
  name: string,
  left: number,
  width: number,
  y: number,
  height: number,
): SheetNode[] {
  const lineMm = 2.6;
  const most = Math.floor((height - 2 * BAND) / lineMm);
  const type = { pt: SMALL_PT, bold: false };
  const lines = wrapped(`${number} ${name}`, width - 1.2, type);
  const fits = lines.length <= most && lines.every((line) => textWidthMm(line, type) <= width - 1);
  if (fits)
    return lines.map((line, i) => text(left + 0.7, y + BAND + 2.4 + i * lineMm, SMALL_PT, line));
  const isWide = textWidthMm(number, { pt: 8, bold: true }) < width - 0.6;
  // Neighbours take turns above and below, so that their numbers do not run together.
  const isAbove = Number.parseInt(number.replace(/\D/g, ''), 10) % 2 === 1;
  const place = isWide ? y + height / 2 + 1 : isAbove ? y + BAND - 0.5 : y + height - 0.4;
  const attrs = { class: 'bold', 'text-anchor': 'middle' } as const;
  return [text(left + width / 2, place, isWide ? 8 : 6.5, number, attrs)];
}

/** From the sealed bag to bag-off, with the gel from its earliest to its latest. */
function cureRows(facts: SheetData, axis: Axis): Row[] {
  return facts.cures.flatMap((cure): Row[] => {
    const span = pumped(facts, cure);
    if (span === null || !meets(span, { start: axis.from, end: axis.to })) return [];
    return [{ name: cure.name, height: CURE, draw: (y) => cureBar(facts, cure, span, axis, y) }];
  });
}

function cureBar(
  facts: SheetData,
  cure: CureSheetData,
  span: Interval,
  axis: Axis,
  y: number,
): SheetNode[] {
  const [left, right] = [axis.x(span.start), axis.x(span.end)];
  const middle = y + CURE / 2;
  const parts = [
    h('rect', {
      class: 'cure',
      x: left,
      y: y + 1.6,
      width: round(right - left),
      height: CURE - 3.2,
    }),
  ];
  const { gel = null, gelLatest = null } = cure.row ?? {};
  if (gel !== null) {
    const from = axis.x(minuteOf(gel));
    const to = axis.x(minuteOf(gelLatest ?? gel));
    if (to > axis.x(axis.from) && from < axis.x(axis.to)) {
      const width = Math.max(1, round(to - from));
      parts.push(h('rect', { class: 'gel', x: from, y: y + 3.2, width, height: CURE - 6.4 }));
      const words = `gel ${clock(gel)}${gelLatest === null ? '' : `–${clock(gelLatest)}`}`;
      parts.push(text(from + width + 0.8, middle + 0.9, SMALL_PT, words));
    }
  }
  if (span.end <= axis.to) {
    const words = `off ${clock(minuteToIso(span.end, facts.zone))}`;
    parts.push(h('path', { class: 'mark', d: `M${right} ${y + 0.6} V${y + CURE - 0.6}` }));
    const room = CHART_WIDTH - right > 14;
    const place = room ? { x: right + 0.8, anchor: 'start' } : { x: right - 0.8, anchor: 'end' };
    parts.push(
      text(place.x, y + CURE - 0.5, SMALL_PT, words, {
        class: 'bold',
        'text-anchor': place.anchor,
      }),
    );
  }
  return parts;
}

/** A post-cure runs through the night as a cure does. */
function heatRows(facts: SheetData, axis: Axis): Row[] {
  return facts.placed
    .filter(
      (placed) =>
        placed.stage.kind === 'post-cure' && meets(placed, { start: axis.from, end: axis.to }),
    )
    .map(({ stage, start, end }): Row => ({
      name: stage.name,
      height: CURE,
      draw: (y) => {
        const [left, right] = [axis.x(start), axis.x(end)];
        const width = round(right - left);
        return [
          h('rect', { class: 'cure', x: left, y: y + 1.6, width, height: CURE - 3.2 }),
          text(left + 0.8, y + CURE / 2 + 0.9, SMALL_PT, 'heat'),
        ];
      },
    }));
}

function deadline(facts: SheetData, axis: Axis, height: number): SheetNode | null {
  const at = minuteOf(facts.result.deadline);
  if (at < axis.from || at > axis.to) return null;
  const x = axis.x(at);
  return h('path', { class: 'mark', d: `M${x} ${HEAD - 3} V${height}` });
}
