/** How high each row is, and where its hands and its resin stand in it. */
import type { Measure } from './boxes.ts';
import type { Grain } from './captions.ts';
import type { TimelineItem, TimelineRow } from './items.ts';
import { packRow, tracksOf, type Track } from './pack.ts';
import type { TimeScale } from './scale.ts';

export interface LayoutOptions {
  readonly scale: TimeScale;
  readonly grain: Grain;
  readonly measure: Measure;
  readonly zone: string;
  readonly selected: string | null;
  /** Of all lengths: 1 where text has 16 px. */
  readonly unit: number;
}

/** Lengths at one grain, px. */
export interface Metrics {
  readonly hands: number;
  readonly resin: number;
  /** Of the resin's track, for its cups. */
  readonly cups: number;
  readonly pad: number;
  readonly leastRow: number;
  /** Tracks that words may open in a row. */
  readonly tracks: number;
  readonly leastBar: number;
  readonly line: number;
  readonly gap: number;
  readonly strip: number;
}

const SHARED = { pad: 3, strip: 12, leastRow: 34, leastBar: 3, line: 16, gap: 5 };
const METRICS: Readonly<Record<Grain, Metrics>> = {
  whole: { ...SHARED, hands: 6, resin: 14, cups: 0, tracks: 3 },
  week: { ...SHARED, hands: 18, resin: 18, cups: 0, tracks: 4 },
  day: { ...SHARED, hands: 18, resin: 38, cups: 19, tracks: 4 },
};

export function metricsOf({ grain, unit }: Pick<LayoutOptions, 'grain' | 'unit'>): Metrics {
  const { tracks, ...lengths } = METRICS[grain];
  const scaled = Object.entries(lengths).map(([key, px]) => [key, px * unit] as const);
  return { ...(Object.fromEntries(scaled) as Omit<Metrics, 'tracks'>), tracks };
}

export interface Frame {
  readonly id: string;
  readonly packed: readonly Track[];
  readonly y: number;
  readonly height: number;
  /** Top and height of the tracks of hands. */
  readonly handsY: number;
  readonly hands: number;
  /** Height of one of them. */
  readonly step: number;
  /** Height of the strip of start hours at its top; 0 without one. */
  readonly strip: number;
  readonly hasResin: boolean;
}

/** Rows follow each other without a gap; a row with resin has a track for it under its hands. */
export function framesOf(rows: readonly TimelineRow[], options: LayoutOptions): Frame[] {
  const { grain, scale, measure, selected } = options;
  const metrics = metricsOf(options);
  const wet = new Set(
    rows.flatMap(({ items }) => items.flatMap((item) => (item.shape ? item.rows : []))),
  );
  const wishPx = (item: TimelineItem): number => {
    const [full] = item.captions[grain].texts;
    return grain === 'whole' || !full || item.minor ? 0 : measure(full, false) + 2 * metrics.gap;
  };
  const { leastBar: leastPx, tracks: most } = metrics;
  let y = 0;
  return rows.map(({ row, items }) => {
    const byHands = items.filter((item) => !item.shape);
    const packed = packRow(byHands, { x: scale.x, width: scale.width, leastPx, wishPx, most });
    const hasResin = wet.has(row.id);
    const tracks = Math.max(hasResin ? 1 : 0, tracksOf(packed));
    const step = hasResin ? metrics.hands : trackStep(tracks, metrics);
    const hands = tracks * step;
    // A strip of start hours stands over the selected wet work.
    const strip = items.some(({ id, starts }) => id === selected && starts) ? metrics.strip : 0;
    const inner = hands + strip + (hasResin ? metrics.resin : 0);
    const height = Math.max(metrics.leastRow, inner + 2 * metrics.pad);
    // Without resin the tracks stand in the middle of the row.
    const handsY = y + (hasResin ? metrics.pad + strip : (height - hands) / 2);
    const frame = { id: row.id, packed, y, height, handsY, hands, step, strip, hasResin };
    y += height;
    return frame;
  });
}

const MOST_SHARE = 2;

/** Few tracks share the row's least height, up to twice what a track needs. */
const trackStep = (tracks: number, { leastRow, pad, hands }: Metrics): number =>
  Math.max(hands, Math.min(MOST_SHARE * hands, (leastRow - 2 * pad) / Math.max(1, tracks)));
