/** From minutes to pixels and back, over folded days, and the three grains. */
import type { Interval, Minute } from '../time/instant.ts';
import type { Grain } from './captions.ts';
import type { Fold } from './folds.ts';

/**
 * A scale of straight pieces: outside folds every minute is as wide as any other, so that days of 23 or
 * 25 h are true to length; a fold has the width of its strip, however long it lasts.
 */
export interface TimeScale {
  readonly from: Minute;
  readonly to: Minute;
  readonly pxPerMinute: number;
  /** Width of the whole span, px. */
  readonly width: number;
  readonly folds: readonly Fold[];
  readonly x: (minute: Minute) => number;
  /** Inverse of `x`, not rounded. */
  readonly minute: (x: number) => number;
}

export interface FoldedWorld extends Interval {
  readonly folds: readonly Fold[];
  /** Width of one fold's strip, px. */
  readonly stripPx: number;
}

interface Piece extends Interval {
  readonly x: number;
  readonly slope: number;
}

export function timeScale(world: FoldedWorld, pxPerMinute: number): TimeScale {
  const pieces = piecesOf(world, pxPerMinute);
  const last = pieces.at(-1)!;
  const width = last.x + (last.end - last.start) * last.slope;
  const at = (fits: (piece: Piece) => boolean): Piece => {
    let [low, high] = [0, pieces.length - 1];
    while (low < high) {
      const middle = Math.ceil((low + high) / 2);
      if (fits(pieces[middle]!)) low = middle;
      else high = middle - 1;
    }
    return pieces[low]!;
  };
  return {
    ...{ from: world.start, to: world.end, pxPerMinute, width, folds: world.folds },
    x: (minute) => {
      if (minute < world.start) return (minute - world.start) * pxPerMinute;
      if (minute > world.end) return width + (minute - world.end) * pxPerMinute;
      const { start, x, slope } = at((piece) => piece.start <= minute);
      return x + (minute - start) * slope;
    },
    minute: (px) => {
      if (px < 0) return world.start + px / pxPerMinute;
      if (px > width) return world.end + (px - width) / pxPerMinute;
      const { start, x, slope } = at((piece) => piece.x <= px);
      return start + (px - x) / slope;
    },
  };
}

function piecesOf({ start, end, folds, stripPx }: FoldedWorld, pxPerMinute: number): Piece[] {
  const pieces: Piece[] = [];
  let [at, x] = [start, 0];
  const add = (until: Minute, slope: number) => {
    if (until <= at) return;
    pieces.push({ start: at, end: until, x, slope });
    x += (until - at) * slope;
    at = until;
  };
  for (const fold of folds) {
    add(fold.start, pxPerMinute);
    add(fold.end, stripPx / (fold.end - fold.start));
  }
  add(end, pxPerMinute);
  if (pieces.length === 0) pieces.push({ start, end: start + 1, x: 0, slope: pxPerMinute });
  return pieces;
}

const DAY_MINUTES = 1440;
/** Days across the window at the finer grains; weekends without work are folded away. */
const DAYS_ACROSS = { week: 5, day: 0.6 } as const;
/** Closest zoom: four hours across the window. */
const CLOSEST_MINUTES = 240;

/** Minutes that are not folded, and the width of all strips. */
function openOf({ start, end, folds, stripPx }: FoldedWorld) {
  const folded = folds.reduce((sum, fold) => sum + fold.end - fold.start, 0);
  return { minutes: Math.max(1, end - start - folded), strips: folds.length * stripPx };
}

/** Pixels a minute at which a grain begins; `whole` shows everything. */
export function pxPerMinuteOf(grain: Grain, world: FoldedWorld, viewWidth: number): number {
  const { minutes, strips } = openOf(world);
  // Strips alone may be wider than a narrow window: the days keep a little.
  const fit = Math.max(viewWidth - strips, viewWidth / 4) / minutes;
  if (grain === 'whole') return fit;
  // Never wider than the whole: a short build already fits.
  return Math.max(fit, viewWidth / (DAYS_ACROSS[grain] * DAY_MINUTES));
}

/** A zoom step kept between the whole world and a few hours. */
export function clampZoom(pxPerMinute: number, world: FoldedWorld, viewWidth: number): number {
  const fit = pxPerMinuteOf('whole', world, viewWidth);
  const closest = Math.max(fit, viewWidth / CLOSEST_MINUTES);
  return Math.min(Math.max(pxPerMinute, fit), closest);
}

/** Widths of a day, px, from which stages are named, and from which clock times are written. */
const NAMED_DAY_PX = 90;
const CLOCK_DAY_PX = 420;

/** What a zoom is worth: words come with the room for them. */
export function grainAt(pxPerMinute: number, unit: number): Grain {
  const dayPx = (pxPerMinute * DAY_MINUTES) / unit;
  return dayPx >= CLOCK_DAY_PX ? 'day' : dayPx >= NAMED_DAY_PX ? 'week' : 'whole';
}
