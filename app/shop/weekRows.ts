/** The rows of the week's picture: people, outside jobs, cures and heat, each with its bars. */
import type { Interval } from '../time/instant.ts';
import { minuteToIso } from '../time/zone.ts';
import { textWidthMm, wrapped } from './flow/letters.ts';
import { pumped } from './pump.ts';
import { COURSE_MARK, courseOf } from './course.ts';
import {
  isWithheld,
  minuteOf,
  type CureSheetData,
  type PlacedStage,
  type SheetData,
} from './sheetData.ts';
import { h, type SheetNode } from './tree.ts';
import { CHART_WIDTH, meets, round, type Axis } from './weekAxis.ts';
import { WITHHELD_MARK } from './withheld.ts';
import { clock } from './words.ts';

const PERSON = 8.8;
/** With few bars the numbers alone tell them apart. */
const PERSON_LOW = 8;
const FEW_BARS = 6;
/** Free above and below a bar, for the number of one that is too narrow to hold it. */
const BAND = 2.6;
/** Heights of the rows of cures and of outside jobs. */
const CURE = 7.6;
const OUTSIDE = 9;
/** Size of the small letters, pt. */
export const SMALL_PT = 6.5;

/** Working stages of the week in the order of their numbers. */
export type Numbers = ReadonlyMap<string, number>;

export interface Row {
  readonly name: string;
  readonly height: number;
  draw(y: number): SheetNode[];
}

/** All rows of the week, from the top. */
export const weekRows = (facts: SheetData, axis: Axis, numbers: Numbers): Row[] => [
  ...personRows(facts, axis, numbers),
  ...outsideRow(facts, axis, numbers),
  ...cureRows(facts, axis),
  ...heatRows(facts, axis),
];

export const text = (
  x: number,
  y: number,
  pt: number,
  content: string,
  attrs: { readonly class?: string; readonly 'text-anchor'?: string } = {},
): SheetNode => h('text', { x: round(x), y: round(y), 'font-size': inMm(pt), ...attrs }, content);

const inMm = (pt: number): number => round((pt * 25.4) / 72);

function personRows(facts: SheetData, axis: Axis, numbers: Numbers): Row[] {
  const height = numbers.size > FEW_BARS ? PERSON : PERSON_LOW;
  const away = withoutWork(facts, { start: axis.from, end: axis.to });
  const there = facts.build.crew.filter(({ id }) => !away.includes(id));
  return there.map((person): Row => {
    const own = handsOf(facts, person.id);
    return {
      name: facts.shortNames([person.id]),
      height,
      draw: (y) => own.flatMap((placed) => bars(placed, placed.hands, axis, y, height, numbers)),
    };
  });
}

const handsOf = (facts: SheetData, person: string): PlacedStage[] =>
  facts.placed.filter(({ stage }) => stage.people.includes(person));

/** Who has no work between two moments, and so no row: ids, in the order of the crew. */
export const withoutWork = (facts: SheetData, span: Interval): string[] =>
  facts.build.crew
    .map(({ id }) => id)
    .filter((id) =>
      handsOf(facts, id).every(({ hands }) => !hands.some((stretch) => meets(stretch, span))),
    );

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
      const course = courseOf(stage);
      const tight = stage.critical ? ' tight' : '';
      return [
        h('rect', {
          class: `work ${course}${tight}`,
          x: left,
          y: y + BAND,
          width: round(width),
          height: height - 2 * BAND,
        }),
        ...label(
          // The number first: a cross before it would be read as “times”.
          `${number ?? ''} ${COURSE_MARK[course]}${isWithheld(stage) ? WITHHELD_MARK : ''}`.trim(),
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
