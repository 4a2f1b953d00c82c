/**
 * Places rows, bars and words. Bars of a row never cover each other, words cover neither words nor bars,
 * nothing reaches out of the drawing; what finds no room loses its words, never its bar. Pure: the width
 * of text comes in as a function.
 */
import {
  intersects,
  placeCaptions,
  type Box,
  type PlacedCaption,
  type Side,
  type Wanting,
} from './boxes.ts';
import { selectedWords } from './captions.ts';
import type { Batch } from './cureShape.ts';
import { framesOf, metricsOf, type Frame, type LayoutOptions } from './frames.ts';
import type { TimelineItem, TimelineRow } from './items.ts';
import type { PartRow } from './rows.ts';
import type { StartHour } from '../plan/startHours.ts';

export interface PlacedItem {
  readonly item: TimelineItem;
  readonly box: Box;
  /** Right end of the drawing, the tail of a cure included. */
  readonly reach: number;
  readonly caption: PlacedCaption | null;
}

export interface PlacedBatch {
  readonly batch: Batch;
  readonly box: Box;
  readonly caption: PlacedCaption | null;
}

export interface PlacedRow {
  readonly row: PartRow;
  readonly y: number;
  readonly height: number;
  readonly items: readonly PlacedItem[];
  readonly batches: readonly PlacedBatch[];
  /** Cells of the strip of start hours; empty where nothing wet is selected. */
  readonly starts: readonly (Box & { readonly of: StartHour })[];
}

export interface TimelineLayout {
  readonly rows: readonly PlacedRow[];
  readonly height: number;
}

export function layoutTimeline(
  rows: readonly TimelineRow[],
  options: LayoutOptions,
): TimelineLayout {
  const frames = framesOf(rows, options);
  const cures = rows.map((row) => cureBars(row, frames, options));
  const placed = rows.map((row, i) => {
    const frame = frames[i]!;
    const bars = [...handBars(frame, options), ...cures[i]!];
    const here = { x: 0, y: frame.y, width: options.scale.width, height: frame.height };
    // Bags that begin in a row above and reach through this one.
    const through = cures.flatMap((others, other) =>
      other === i ? [] : others.map(({ box }) => box).filter((box) => intersects(box, here)),
    );
    return placeRow(row, { frame, bars, through }, options);
  });
  const last = frames.at(-1);
  return { rows: placed, height: last ? last.y + last.height : 0 };
}

/** Every placed stage by its id. */
export const placedById = ({ rows }: TimelineLayout): ReadonlyMap<string, PlacedItem> =>
  new Map(rows.flatMap(({ items }) => items.map((one) => [one.item.id, one] as const)));

type Bar = Omit<PlacedItem, 'caption'>;

interface InRow {
  readonly frame: Frame;
  readonly bars: readonly Bar[];
  readonly through: readonly Box[];
}

function placeRow(
  row: TimelineRow,
  { frame, bars, through }: InRow,
  options: LayoutOptions,
): PlacedRow {
  const { gap } = metricsOf(options);
  const cups = options.grain === 'day' ? bars.flatMap((bar) => cupsOf(bar, options)) : [];
  const wanting = [
    ...bars.map((bar) => wantingOf(bar, frame, options)),
    ...cups.map((cup) => cup.wanting),
  ];
  const captions = placeCaptions(wanting, [...bars.map(({ box }) => box), ...through], {
    ...{ width: options.scale.width, gap, measure: options.measure },
  });
  return {
    ...{ row: row.row, y: frame.y, height: frame.height },
    items: bars
      .map((bar) => ({ ...bar, caption: captions.get(bar.item.id) ?? null }))
      .sort((a, b) => a.item.start - b.item.start),
    batches: cups.map(({ batch, box, wanting: { id } }) => ({
      ...{ batch, box },
      caption: captions.get(id) ?? null,
    })),
    starts: startCells(row, frame, options),
  };
}

function handBars({ packed, handsY, step }: Frame, options: LayoutOptions): Bar[] {
  return packed.map(({ item, track, x, width }) => {
    const box = { x, y: handsY + track * step, width, height: step - 2 * options.unit };
    return { item, box, reach: x + width };
  });
}

const OFF_BAR_PX = 3;

/** From the resin track of the first row to the foot of the last: what lies in one bag is one block. */
function cureBars(row: TimelineRow, frames: readonly Frame[], options: LayoutOptions): Bar[] {
  const { scale, unit } = options;
  const { pad, leastBar, cups } = metricsOf(options);
  return row.items.flatMap((item): Bar[] => {
    const { shape } = item;
    const own = frames.filter(({ id }) => item.rows.some((one) => one === id));
    const [first, last] = [own[0], own.at(-1)];
    if (!shape || !first || !last) return [];
    const y = first.handsY + first.hands;
    const wide = scale.x(shape.off) - scale.x(shape.open.start) + OFF_BAR_PX * unit;
    const width = Math.max(2 * leastBar, wide);
    const x = Math.max(0, Math.min(scale.x(shape.open.start), scale.width - width));
    const box = { x, y, width, height: last.y + last.height - pad - cups - y };
    const tail = shape.untilSandable === null ? 0 : scale.x(shape.untilSandable);
    return [{ item, box, reach: Math.max(x + width, Math.min(tail, scale.width)) }];
  });
}

const BESIDE: readonly Side[] = ['right', 'left'];
const WITHIN: readonly Side[] = ['inside', 'right', 'left'];

function wantingOf({ item, box, reach }: Bar, frame: Frame, options: LayoutOptions): Wanting {
  const { grain, selected, zone } = options;
  const { line, hands } = metricsOf(options);
  const own = item.captions[grain];
  const isSelected = item.id === selected;
  // Words inside are read on paper colour alone: not on the solid of work with hands.
  const isOpen = item.type === 'outside' || item.type === 'wait' || item.type === 'heat';
  const { pad, cups } = metricsOf(options);
  const foot = frame.y + frame.height - pad - cups;
  const middle = item.shape
    ? (box.y + Math.min(foot, box.y + box.height)) / 2
    : grain === 'whole' && item.type !== 'outside'
      ? frame.y + frame.height / 2
      : box.y + box.height / 2;
  const height = grain === 'whole' ? line : Math.min(line, hands);
  return {
    ...{ id: item.id, shape: box, reach },
    texts: isSelected ? [selectedWords(item.name, item, zone), item.name] : own.texts,
    worth: isSelected ? SELECTED : own.worth,
    bold: item.critical || isSelected,
    slides: isSelected || (grain === 'whole' && own.worth >= DELIVERS),
    sides: isOpen && box.height >= height ? WITHIN : BESIDE,
    line: { y: middle - height / 2, height },
  };
}

/** Over the whole build, what a row hands on and who has the part elsewhere is said even away from its bar. */
const DELIVERS = 80;
/** What a person has picked is named before all else. */
const SELECTED = 1000;
const CUP_WORTH = 80;

/** The cups of a cure under its block, each a line from mix to use-by with its words below. */
function cupsOf({ item, box }: Bar, options: LayoutOptions) {
  const { scale, unit } = options;
  const { cups: height } = metricsOf(options);
  return (item.shape?.batches ?? []).map((batch) => {
    const x = scale.x(batch.start);
    const wide = Math.max(2 * unit, scale.x(batch.end) - x - unit);
    const mark = { x, y: box.y + box.height + unit, width: wide, height: 3 * unit };
    const line = { y: mark.y + mark.height, height: height - 5 * unit };
    const wanting: Wanting = {
      ...{ id: `${item.id}/${batch.number}`, shape: { ...mark, x: x - CUP_INDENT_PX, width: 0 } },
      ...{ reach: 0, texts: batch.words, worth: CUP_WORTH, bold: false, sides: ['right'], line },
    };
    return { batch, box: mark, wanting };
  });
}
/** Words begin under the mark of their cup. */
const CUP_INDENT_PX = 5;

function startCells(
  { items }: TimelineRow,
  frame: Frame,
  { scale, selected, unit }: LayoutOptions,
): (Box & { readonly of: StartHour })[] {
  if (frame.strip === 0) return [];
  const starts = items.find(({ id }) => id === selected)?.starts ?? [];
  return starts.map((of) => {
    const x = scale.x(of.at);
    const width = Math.max(unit, scale.x(of.until) - x - unit / 2);
    return { of, x, y: frame.y + 2 * unit, width, height: frame.strip - 3 * unit };
  });
}
