/** From minutes to pixels and back, and the three zooms. */
import type { Interval, Minute } from '../time/instant.ts';
import { dayTimeToMinute, localDayNumber } from '../time/zone.ts';

/** A straight scale: every minute is as wide as any other, so days of 23 or 25 h are true to length. */
export interface TimeScale {
  readonly from: Minute;
  readonly to: Minute;
  readonly pxPerMinute: number;
  /** Width of the whole span, px. */
  readonly width: number;
  readonly x: (minute: Minute) => number;
  /** Inverse of `x`, not rounded. */
  readonly minute: (x: number) => number;
}

export function timeScale(world: Interval, pxPerMinute: number): TimeScale {
  const { start: from, end: to } = world;
  return {
    from,
    to,
    pxPerMinute,
    width: (to - from) * pxPerMinute,
    x: (minute) => (minute - from) * pxPerMinute,
    minute: (x) => from + x / pxPerMinute,
  };
}

export type Zoom = 'fit' | 'week' | 'day';
const WEEK_MINUTES = 7 * 1440;
const DAY_MINUTES = 1440;
/** Closest zoom: four hours across the window. */
const CLOSEST_MINUTES = 240;

/** Pixels a minute for a zoom; `fit` shows the whole world. */
export function pxPerMinuteOf(zoom: Zoom, world: Interval, viewWidth: number): number {
  const fit = viewWidth / Math.max(1, world.end - world.start);
  if (zoom === 'fit') return fit;
  // Never wider than the whole: a short build already fits.
  return Math.max(fit, viewWidth / (zoom === 'week' ? WEEK_MINUTES : DAY_MINUTES));
}

/** A zoom step kept between the whole world and a few hours. */
export function clampZoom(pxPerMinute: number, world: Interval, viewWidth: number): number {
  const fit = pxPerMinuteOf('fit', world, viewWidth);
  const closest = Math.max(fit, viewWidth / CLOSEST_MINUTES);
  return Math.min(Math.max(pxPerMinute, fit), closest);
}

/** Whole local days around everything that is drawn. */
export function wholeDaysAround(spans: readonly Interval[], zone: string): Interval {
  const start = Math.min(...spans.map((span) => span.start));
  const end = Math.max(...spans.map((span) => span.end));
  const last = localDayNumber(end, zone);
  return {
    start: dayTimeToMinute(localDayNumber(start, zone), 0, zone),
    end: dayTimeToMinute(last + 1, 0, zone),
  };
}
