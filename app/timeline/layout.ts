/**
 * Places lanes, bars and labels. Bars of a row never overlap, labels of a row never overlap each
 * other or a bar, and none reaches out of the drawing; what finds no room loses its label, never its
 * bar. Pure: the width of text comes in as a function.
 */
import type { MomentKey } from '../shop/sheetData.ts';
import type { Minute } from '../time/instant.ts';
import type { Lane, Mark, TimelineItem } from './items.ts';
import type { TimeScale } from './scale.ts';

/** Width in px of a text as it will be drawn. */
export type Measure = (text: string, bold: boolean) => number;

export interface PlacedLabel {
  readonly text: string;
  readonly x: number;
  readonly width: number;
  readonly inside: boolean;
}

export interface PlacedItem {
  readonly item: TimelineItem;
  readonly y: number;
  readonly x: number;
  readonly width: number;
  readonly label: PlacedLabel | null;
}

export interface PlacedMark {
  readonly mark: Mark;
  readonly x: number;
  readonly y: number;
  readonly label: PlacedLabel | null;
}

export interface PlacedLane {
  readonly lane: Lane;
  readonly y: number;
  readonly height: number;
  readonly items: readonly PlacedItem[];
  readonly marks: readonly PlacedMark[];
}

export interface TimelineLayout {
  readonly lanes: readonly PlacedLane[];
  readonly height: number;
}

export interface LayoutOptions {
  readonly scale: TimeScale;
  readonly measure: Measure;
  /** Height to stay within where that costs labels only; bars may need more. */
  readonly wantedHeight: number;
}

export const ROW_HEIGHT = 20;
const LANE_PADDING = 4;
/** Bars shorter than this would not be seen or hit. */
const LEAST_BAR_PX = 4;
/** Flags and the hand-over's diamond. */
const FLAG_PX = 10;
const GAP_PX = 6;
const MARK_PX = 7;
/** Shapes closer than this read as one blot. */
const MARK_APART_PX = 9;
/**
 * Every lane starts with one row; rows for more labels are dealt out in turn, first to the lanes in
 * `LANES_BY_PRIORITY` order, while the height allows.
 */
export function layoutTimeline(lanes: readonly Lane[], options: LayoutOptions): TimelineLayout {
  let placed = new Map(lanes.map((lane) => [lane.id, packLane(lane.items, options, 1)]));
  let spare = options.wantedHeight - heightOf(lanes, placed);
  const waiting = [...lanes].sort((a, b) => rank(a) - rank(b));
  while (spare >= ROW_HEIGHT && waiting.length > 0) {
    const lane = waiting.shift()!;
    const slots = richer(lane, placed.get(lane.id)!, options, Math.floor(spare / ROW_HEIGHT));
    if (slots === null) continue;
    const more = rowsOf(slots) - rowsOf(placed.get(lane.id)!);
    placed = new Map(placed).set(lane.id, slots);
    spare -= more * ROW_HEIGHT;
    // Everything else depends on the cures: their labels are placed first.
    if (lane.id === 'cures') waiting.unshift(lane);
    else waiting.push(lane);
  }
  return stacked(lanes, placed, options);
}

/** How many rows at once are tried for one more label. */
const LOOK_AHEAD = 3;

/** The lane in as few more rows as show more words; null when none do. */
function richer(
  lane: Lane,
  before: readonly Slot[],
  options: LayoutOptions,
  spareRows: number,
): Slot[] | null {
  for (let extra = 1; extra <= Math.min(LOOK_AHEAD, spareRows); extra++) {
    const slots = packLane(lane.items, options, rowsOf(before) + extra);
    const isTooTall = rowsOf(slots) - rowsOf(before) > spareRows;
    if (!isTooTall && labelsIn(slots) > labelsIn(before)) return slots;
  }
  return null;
}

const LANES_BY_PRIORITY: readonly string[] = ['cures', 'work', 'routes', 'else'];
const rank = (lane: Lane): number => LANES_BY_PRIORITY.indexOf(lane.id);
const rowsOf = (slots: readonly Slot[]): number =>
  slots.reduce((max, slot) => Math.max(max, slot.row + 1), 0);
const labelsIn = (slots: readonly Slot[]): number =>
  slots.reduce((sum, slot) => sum + (slot.label === null ? 0 : slot.label.text.length), 0);

const laneHeight = (lane: Lane, slots: readonly Slot[]): number =>
  2 * LANE_PADDING + (rowsOf(slots) + (lane.marks.length > 0 ? 1 : 0)) * ROW_HEIGHT;

const heightOf = (lanes: readonly Lane[], placed: ReadonlyMap<string, readonly Slot[]>): number =>
  lanes.reduce((sum, lane) => sum + laneHeight(lane, placed.get(lane.id)!), 0);

function stacked(
  lanes: readonly Lane[],
  placed: ReadonlyMap<string, readonly Slot[]>,
  options: LayoutOptions,
): TimelineLayout {
  const out: PlacedLane[] = [];
  let y = 0;
  for (const lane of lanes) {
    const slots = placed.get(lane.id)!;
    const height = laneHeight(lane, slots);
    const top = y + LANE_PADDING;
    out.push({
      lane,
      y,
      height,
      items: slots.map(({ row, ...slot }) => ({ ...slot, y: top + row * ROW_HEIGHT })),
      marks: placeMarks(lane.marks, top + rowsOf(slots) * ROW_HEIGHT, options),
    });
    y += height;
  }
  return { lanes: out, height: y };
}

interface Slot {
  readonly item: TimelineItem;
  readonly row: number;
  readonly x: number;
  readonly width: number;
  label: PlacedLabel | null;
}

function packLane(items: readonly TimelineItem[], options: LayoutOptions, most: number): Slot[] {
  const ordered = [...items].sort((a, b) => a.start - b.start || b.end - a.end);
  const rows: Slot[][] = [];
  for (const item of ordered) {
    const box = barOf(item, options.scale);
    const full = labelFor(item.label, box, options, item.critical);
    const short = labelFor(item.short, box, options, item.critical);
    let label = freeRow(rows, box, full) < 0 && freeRow(rows, box, short) >= 0 ? short : full;
    let choice = rowFor(rows, item, box, label, most);
    if (choice.dropOwn && item.critical) {
      label = short;
      choice = rowFor(rows, item, box, label, most);
    }
    const slot: Slot = { item, row: choice.index, x: box.x, width: box.width, label };
    for (const other of choice.giveUp) other.label = null;
    if (choice.dropOwn) slot.label = null;
    (rows[choice.index] ??= []).push(slot);
  }
  for (const slot of rows.flat()) slot.label ??= cutLabel(slot, options);
  return rows.flat().sort((a, b) => a.item.start - b.item.start || a.row - b.row);
}

/** Bars at least this wide say the beginning of their name where there is no room for all of it. */
const CUT_FROM_PX = 56;

function cutLabel({ item, x, width }: Slot, { measure }: LayoutOptions): PlacedLabel | null {
  if (width < CUT_FROM_PX) return null;
  const room = width - 2 * GAP_PX;
  for (let letters = item.short.length - 1; letters > 2; letters--) {
    const text = `${item.short.slice(0, letters).trimEnd()}…`;
    const wide = Math.ceil(measure(text, item.critical));
    if (wide <= room) return { text, x: x + GAP_PX, width: wide, inside: true };
  }
  return null;
}

/** The first row in which nothing stands in the way of bar and label; -1 when there is none. */
const freeRow = (rows: readonly Slot[][], box: Box, label: PlacedLabel | null): number =>
  rows.findIndex((row) =>
    row.every((slot) => right(slot, slot.label) + GAP_PX <= left(box, label)),
  );

interface Box {
  readonly x: number;
  readonly width: number;
}

const end = (box: Box): number => box.x + box.width;
const left = (box: Box, label: PlacedLabel | null): number =>
  label === null ? box.x : Math.min(box.x, label.x);
const right = (box: Box, label: PlacedLabel | null): number =>
  label === null ? end(box) : Math.max(end(box), label.x + label.width);

function barOf(item: TimelineItem, scale: TimeScale): Box {
  const x = scale.x(item.start);
  const least = item.type === 'route' || item.type === 'end' ? FLAG_PX : LEAST_BAR_PX;
  const width = Math.max(least, scale.x(item.end) - x);
  return { x: Math.min(x, scale.width - least), width };
}

/** Inside the bar where it fits, else right of it, else left; null where neither side has room. */
function labelFor(
  text: string,
  box: Box,
  { scale, measure }: LayoutOptions,
  bold: boolean,
): PlacedLabel | null {
  const width = Math.ceil(measure(text, bold));
  if (width + 2 * GAP_PX <= box.width) return { text, x: box.x + GAP_PX, width, inside: true };
  const after = end(box) + GAP_PX;
  if (after + width + GAP_PX <= scale.width) return { text, x: after, width, inside: false };
  const before = box.x - GAP_PX - width;
  return before >= 0 ? { text, x: before, width, inside: false } : null;
}

interface RowChoice {
  readonly index: number;
  /** Neighbours whose labels are removed. */
  readonly giveUp: readonly Slot[];
  readonly dropOwn: boolean;
}

/** Bars may touch; a hair is left for the eye. */
const BAR_GAP_PX = 1;

/**
 * The first row with room for bar and label; then, for what matters, a new row; then one where
 * labels yield; a new row beyond `most` only where no bar could stand otherwise.
 */
function rowFor(
  rows: readonly Slot[][],
  item: TimelineItem,
  box: Box,
  label: PlacedLabel | null,
  most: number,
): RowChoice {
  const free = freeRow(rows, box, label);
  if (free >= 0) return { index: free, giveUp: [], dropOwn: false };
  const bare = rows.findIndex((row) =>
    row.every((slot) => right(slot, slot.label) + BAR_GAP_PX <= box.x),
  );
  const isFull = rows.length >= most;
  if (bare >= 0 && (item.minor || isFull)) {
    // What is critical is named even where that costs a neighbour its words.
    const better = item.critical ? yielding(rows, item, box, label) : null;
    return better && !better.dropOwn ? better : { index: bare, giveUp: [], dropOwn: true };
  }
  if (!isFull && !item.minor) return { index: rows.length, giveUp: [], dropOwn: false };
  return yielding(rows, item, box, label) ?? { index: rows.length, giveUp: [], dropOwn: false };
}

/** The row whose bars leave room and whose covering labels matter least; those labels go. */
function yielding(
  rows: readonly Slot[][],
  item: TimelineItem,
  box: Box,
  label: PlacedLabel | null,
): RowChoice | null {
  const choices = rows.flatMap((row, index) => {
    const barsEnd = Math.max(...row.map(end));
    if (barsEnd + BAR_GAP_PX > box.x) return [];
    const giveUp = row.filter((slot) => right(slot, slot.label) + GAP_PX > left(box, label));
    const cost = giveUp.reduce((sum, slot) => sum + importance(slot.item), 0);
    const dropOwn = label !== null && left(box, label) < barsEnd + GAP_PX && label.x < box.x;
    return [{ index, giveUp, dropOwn, cost }];
  });
  const cheapest = choices.sort((a, b) => a.cost - b.cost || a.index - b.index)[0];
  if (!cheapest) return null;
  // A label that matters less than those it would cover is the one to go, if its bar covers none.
  const covered = cheapest.giveUp.filter((slot) => right(slot, slot.label) + BAR_GAP_PX > box.x);
  if (cheapest.cost > importance(item) && covered.length < cheapest.giveUp.length) {
    return { index: cheapest.index, giveUp: covered, dropOwn: true };
  }
  return cheapest;
}

const importance = (item: TimelineItem): number => (item.critical ? 4 : 1) * (item.minor ? 0.2 : 1);

/**
 * Marks stand where they fall. Of those too close to be told apart the weightier one is drawn; words
 * are given by weight until there is no room.
 */
function placeMarks(
  marks: readonly Mark[],
  y: number,
  { scale, measure }: LayoutOptions,
): PlacedMark[] {
  const drawn: { mark: Mark; x: number }[] = [];
  for (const mark of [...marks].sort((a, b) => weight(a) - weight(b) || a.at - b.at)) {
    const x = scale.x(mark.at);
    const isInside = x >= MARK_PX && x <= scale.width - MARK_PX;
    if (isInside && drawn.every((other) => Math.abs(other.x - x) >= MARK_APART_PX)) {
      drawn.push({ mark, x });
    }
  }
  const taken: Box[] = drawn.map(({ x }) => ({ x: x - MARK_PX, width: 2 * MARK_PX }));
  return drawn
    .map(({ mark, x }) => {
      const text = markText(mark);
      const label = { text, x: x + MARK_PX + 2, width: Math.ceil(measure(text, false)) };
      const box = { x: label.x, width: label.width + GAP_PX };
      const isFree = taken.every((other) => end(other) <= box.x || other.x >= end(box));
      if (!isFree || label.x + label.width > scale.width) return { mark, x, y, label: null };
      taken.push(box);
      return { mark, x, y, label: { ...label, inside: false } };
    })
    .sort((a, b) => a.x - b.x);
}

/** Which label stays where there is room for one only: the least weight. */
const WEIGHTS: Readonly<Record<MomentKey, number>> = {
  gel: 0,
  debagFrom: 1,
  demouldFrom: 2,
  bagBy: 3,
  sandFrom: 4,
  openUntil: 5,
  bondUntil: 6,
  gelLatest: 7,
  firstMix: 9,
  fullFrom: 9,
};
const weight = (mark: Mark): number => WEIGHTS[mark.key];
const markText = (mark: Mark): string => `${mark.label} ${mark.iso.slice(11, 16)}`;

/** The item nearest in time to `at` in a lane; null when the lane has none. */
export function nearestIn(lane: Lane, at: Minute): TimelineItem | null {
  let best: TimelineItem | null = null;
  for (const item of lane.items) {
    if (best === null || Math.abs(item.start - at) < Math.abs(best.start - at)) best = item;
  }
  return best;
}
