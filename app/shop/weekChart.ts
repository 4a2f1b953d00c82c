/**
 * The week as a picture: people as rows, the hours of each day across, cures as bars through the night
 * with gel and bag-off. Black, white and grey alone, so that any printer and copier does it.
 */
import type { Minute } from '../time/instant.ts';
import { hourOfDay } from '../time/words.ts';
import { textWidthMm, wrapped } from './flow/letters.ts';
import { minuteOf, type LocalDay, type SheetData } from './sheetData.ts';
import { h, type SheetNode } from './tree.ts';
import {
  axisOf,
  CHART_WIDTH,
  HEAD,
  NAMES,
  OPEN_SHARE,
  round,
  type Axis,
  type DayColumn,
} from './weekAxis.ts';
import { SMALL_PT, text, weekRows, type Numbers } from './weekRows.ts';
import { shortDay, shortWeekday } from './words.ts';

/**
 * @param week days of the week, in order
 * @param numbers of the working stages, by id
 */
export function weekChart(
  facts: SheetData,
  week: readonly LocalDay[],
  numbers: Numbers,
): SheetNode {
  const axis = axisOf(facts, week);
  const rows = weekRows(facts, axis, numbers);
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
      text(x(at), 7.8, SMALL_PT, hourOfDay(Math.round((at - day.start) / 60)), {
        'text-anchor': 'middle',
      }),
    ]),
  );
}

/** `Tue 20 Apr`, `Tue 20` where the column is narrow. */
function shortDayName({ date }: LocalDay, width: number): string {
  const whole = shortDay(date);
  return textWidthMm(whole, { pt: 8.5, bold: true }) < width - 2
    ? whole
    : `${shortWeekday(date)} ${Number(date.slice(8))}`;
}

function deadline(facts: SheetData, axis: Axis, height: number): SheetNode | null {
  const at = minuteOf(facts.result.deadline);
  if (at < axis.from || at > axis.to) return null;
  const x = axis.x(at);
  return h('path', { class: 'mark', d: `M${x} ${HEAD - 3} V${height}` });
}
