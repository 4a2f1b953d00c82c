/** The week as a picture: seven days across, one row for each stage that meets the week. */
import type { StageResult } from '../document/schema.ts';
import { WITHHELD_MARK } from './withheld.ts';
import {
  isWithheld,
  minuteOf,
  type SheetData,
  type LocalDay,
  type PlacedStage,
} from './sheetData.ts';
import { plural } from '../units/words.ts';
import { h, type SheetNode } from './tree.ts';
import { shortDay } from './words.ts';

const WIDTH = 720;
const NAMES_WIDTH = 190;
const ROW = 15;
const HEAD_HEIGHT = 20;
/** More rows than this would leave no room for the table. */
const MOST_ROWS = 24;
const LETTER_WIDTH = 5.6;

/** A strip of bars: solid for hands-on, hatched outline for what runs by itself. */
export function weekStrip(facts: SheetData, week: readonly LocalDay[]): SheetNode | null {
  const from = week[0]!.start;
  const to = week[week.length - 1]!.end;
  const rows = facts.placed.filter((placed) => placed.start < to && placed.end > from);
  if (rows.length === 0) return null;
  const shown = rows.slice(0, MOST_ROWS);
  const height = HEAD_HEIGHT + shown.length * ROW + 4;
  const x = (minute: number) =>
    round(
      NAMES_WIDTH +
        ((Math.min(Math.max(minute, from), to) - from) / (to - from)) * (WIDTH - NAMES_WIDTH),
    );
  return h(
    'svg',
    {
      class: 'strip',
      viewBox: `0 0 ${WIDTH} ${height}`,
      role: 'img',
      'aria-label': 'The week as bars',
    },
    h('title', {}, `Bars of ${plural(shown.length, 'stage')}; the table below holds the same`),
    nights(facts, from, to, x, height),
    week.map((day) => dayHead(day, x, height)),
    shown.map((placed, i) => stageRow(placed, HEAD_HEIGHT + i * ROW, x, from, to)),
    deadline(facts, from, to, x, height),
  );
}

type Scale = (minute: number) => number;
const round = (value: number): number => Math.round(value * 10) / 10;

/** Everything outside the shop's hours is shaded. */
function nights(facts: SheetData, from: number, to: number, x: Scale, height: number): SheetNode[] {
  const open = facts.detail.shopHours.filter((span) => span.end > from && span.start < to);
  const shaded: SheetNode[] = [];
  let at = from;
  for (const span of [...open, { start: to, end: to }]) {
    const end = Math.min(span.start, to);
    // Breaks in the shift are not shaded.
    if (end - at > 120) {
      shaded.push(
        h('rect', {
          class: 'night',
          x: x(at),
          y: HEAD_HEIGHT,
          width: round(x(end) - x(at)),
          height: height - HEAD_HEIGHT,
        }),
      );
    }
    at = Math.max(at, span.end);
  }
  return shaded;
}

function dayHead(day: LocalDay, x: Scale, height: number): SheetNode {
  return h(
    'g',
    {},
    h('line', { class: 'rule', x1: x(day.start), x2: x(day.start), y1: 0, y2: height }),
    h('text', { class: 'day', x: x(day.start) + 3, y: 13 }, shortDay(day.date)),
  );
}

function stageRow(placed: PlacedStage, y: number, x: Scale, from: number, to: number): SheetNode {
  const spans = placed.hands.length > 0 ? placed.hands : [placed];
  const type = placed.hands.length > 0 ? 'work' : 'run';
  return h(
    'g',
    { class: placed.stage.critical ? `bar ${type} critical` : `bar ${type}` },
    h('text', { x: 0, y: y + 11 }, shorten(`${markOf(placed.stage)}${placed.stage.name}`)),
    spans
      .filter((span) => span.start < to && span.end > from)
      .map((span) =>
        h('rect', {
          x: x(span.start),
          y: y + 3,
          width: Math.max(1.5, round(x(span.end) - x(span.start))),
          height: ROW - 6,
        }),
      ),
  );
}

const markOf = (stage: StageResult): string =>
  isWithheld(stage) ? WITHHELD_MARK : stage.critical ? '▲ ' : '';

const shorten = (name: string): string => {
  const letters = Math.floor(NAMES_WIDTH / LETTER_WIDTH);
  return name.length <= letters ? name : `${name.slice(0, letters - 1).trimEnd()}…`;
};

function deadline(
  facts: SheetData,
  from: number,
  to: number,
  x: Scale,
  height: number,
): SheetNode | null {
  const at = minuteOf(facts.result.deadline);
  if (at < from || at > to) return null;
  return h('line', { class: 'deadline', x1: x(at), x2: x(at), y1: HEAD_HEIGHT - 4, y2: height });
}
