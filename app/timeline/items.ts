/** What the timeline shows of a plan, before any pixel: the rows of the part and what stands in them. */
import { courseOf, type Course } from '../shop/course.ts';
import { means } from '../document/movedStages.ts';
import type { StageKind } from '../document/schema.ts';
import type { StartHour } from '../plan/startHours.ts';
import type { PlanOutcome } from '../plan/outcome.ts';
import { minuteOf, sheetDataOf, type PlacedStage, type SheetData } from '../shop/sheetData.ts';
import type { Interval, Minute } from '../time/instant.ts';
import { captionsOf, type Captions } from './captions.ts';
import { cureShapeOf, type CureShape } from './cureShape.ts';
import { partRows, rowsOfStage, type PartRow, type RowId } from './rows.ts';
import { spokenStage } from './spoken.ts';

export type ItemType = 'work' | 'cure' | 'heat' | 'wait' | 'outside';

export interface TimelineItem {
  readonly id: string;
  readonly type: ItemType;
  readonly kind: StageKind;
  /** First row first; several where one bag holds several layups. */
  readonly rows: readonly RowId[];
  readonly name: string;
  /** Full name: what, who, start, end, spare time, what is wrong with it. */
  readonly spoken: string;
  readonly start: Minute;
  readonly end: Minute;
  /** Stretches drawn solid; the rest of the bar is a pause. */
  readonly stretches: readonly Interval[];
  readonly latestStart: Minute | null;
  readonly floatHours: number | null;
  readonly critical: boolean;
  /** By what the floor wrote down. */
  readonly course: Course;
  /** Its start is fixed by hand. */
  readonly pinned: boolean;
  /** Short attendance that goes with a cure: it yields its words first. */
  readonly minor: boolean;
  readonly shape: CureShape | null;
  /** Hours at which wet work may start, good and bad; null for other stages. */
  readonly starts: readonly StartHour[] | null;
  readonly captions: Captions;
}

export interface TimelineRow {
  readonly row: PartRow;
  readonly items: readonly TimelineItem[];
}

/** The rows of the part from top to bottom, each with the stages that begin in it. */
export function timelineRows(outcome: PlanOutcome): TimelineRow[] {
  const facts = sheetDataOf(outcome);
  const placed = facts.placed.map((one) => ({ one, rows: rowsOfStage(facts, one.stage) }));
  const used = new Set(placed.flatMap(({ rows }) => rows));
  const rows = partRows(facts, used);
  const last = lastOfRows(placed);
  const items = placed.map(({ one, rows: own }) =>
    itemOf(facts, one, own, last.get(own[0]!) === one.stage.id),
  );
  return rows.map((row) => ({
    row,
    items: items.filter((item) => item.rows[0] === row.id),
  }));
}

interface InRows {
  readonly one: PlacedStage;
  readonly rows: readonly RowId[];
}

/** The stage of each row that ends last, by row: what the row delivers. */
function lastOfRows(placed: readonly InRows[]): Map<RowId, string> {
  const ends = new Map<RowId, PlacedStage>();
  for (const { one, rows } of placed) {
    const before = ends.get(rows[0]!);
    if (!before || one.end > before.end) ends.set(rows[0]!, one);
  }
  return new Map([...ends].map(([row, { stage }]) => [row, stage.id]));
}

function itemOf(
  facts: SheetData,
  placed: PlacedStage,
  rows: readonly RowId[],
  isLast: boolean,
): TimelineItem {
  const { stage, start, end, hands } = placed;
  const type = TYPES[stage.kind] ?? (hands.length > 0 ? 'work' : 'wait');
  const shape = stage.kind === 'cure' ? cureShapeOf(facts, stage) : null;
  const pinned = facts.build.pins.some((pin) => means(pin.stage, stage.id));
  const { kind } = stage;
  return {
    ...{ id: stage.id, type, kind, rows, name: stage.name, start, end, shape, pinned },
    spoken: spokenStage(facts, stage, hands.length),
    stretches: hands.length > 0 ? hands : [{ start, end }],
    latestStart: stage.latestStart === null ? null : minuteOf(stage.latestStart),
    floatHours: stage.floatHours,
    critical: stage.critical,
    course: courseOf(stage),
    minor: MINOR.has(kind),
    starts: facts.detail.shown?.starts?.[stage.id] ?? null,
    captions: captionsOf(facts, { placed, type, shape, isLast, pinned, row: rows[0]! }),
  };
}

/** Left out: work where somebody's hands are on it, else a wait. */
const TYPES: Partial<Readonly<Record<StageKind, ItemType>>> = {
  cure: 'cure',
  'post-cure': 'heat',
  'mould-heat': 'heat',
  outside: 'outside',
};
const MINOR: ReadonlySet<StageKind> = new Set(['prepare', 'watched-vacuum', 'bag-off']);

/** True for a stage that a person may move by hand. */
export const isMovable = (item: Pick<TimelineItem, 'kind'>): boolean => item.kind !== 'hand-over';

/** Everything that must lie inside the drawing: items with their tails, now and the deadline. */
export function spansOf(outcome: PlanOutcome, rows: readonly TimelineRow[]): Interval[] {
  const { now, deadline } = outcome.detail;
  const items = rows.flatMap((row) => row.items);
  return [
    { start: Math.min(now, deadline), end: Math.max(now, deadline) },
    ...items.map(({ start, end }) => ({ start, end })),
  ];
}
