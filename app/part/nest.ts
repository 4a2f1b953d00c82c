/** Strips cut at an angle across a roll of cloth. x runs across the roll, y along it; all in mm. */
import { SLACK_MM } from './pack.ts';

/** One diagonal of strips, end to end. */
export interface Lane {
  readonly lengths: readonly number[];
  /** Where its first strip's lowest corner lies. */
  readonly xMm: number;
  readonly yMm: number;
}

/** Strips of one width cut at an angle to the roll. */
export interface StripNest {
  readonly widthMm: number;
  readonly angleDeg: number;
  /** Longest strip that the roll gives at this angle. */
  readonly laneMm: number;
  readonly lanes: readonly Lane[];
  /** Length taken off the roll. */
  readonly lengthMm: number;
  /** Share of the cloth that becomes strips. */
  readonly used: number;
  /** True when every way of laying them in lanes was tried. */
  readonly proven: boolean;
}

/** Up to this count of strips every way is tried. */
const MOST_TRIED = 5;
/** Up to this count several likely ways are; beyond it lanes are filled one after the other. */
const MOST_WEIGHED = 40;

/**
 * Nests strips cut at an angle across the roll. A strip lies at `angleDeg` to the roll's length; lanes
 * touch side by side, and each slides along itself between the selvages.
 * @param angleDeg by size, 0 < angle <= 90
 * @returns null when a strip is longer than a lane, or wider than the roll gives
 */
export function nestStrips(
  lengthsMm: readonly number[],
  widthMm: number,
  angleDeg: number,
  rollWidthMm: number,
): StripNest | null {
  const laneMm = laneLengthMm(widthMm, angleDeg, rollWidthMm);
  if (laneMm <= 0 || lengthsMm.some((length) => length > laneMm + SLACK_MM)) return null;
  const frame: Frame = { widthMm, angle: (Math.abs(angleDeg) * Math.PI) / 180, laneMm };
  let best: LaidLanes = { lengthMm: lengthsMm.length > 0 ? Infinity : 0, lanes: [] };
  const proven = lengthsMm.length <= MOST_TRIED;
  for (const bins of proven ? partitions(lengthsMm, laneMm) : likelyBins(lengthsMm, laneMm)) {
    for (const order of proven ? permutations(bins) : likelyOrders(bins)) {
      const laid = layLanes(order, frame);
      if (laid.lengthMm < best.lengthMm - SLACK_MM) best = laid;
    }
  }
  const cutMm2 = total(lengthsMm) * widthMm;
  const used = best.lengthMm > 0 ? cutMm2 / (best.lengthMm * rollWidthMm) : 0;
  return { widthMm, angleDeg: Math.abs(angleDeg), laneMm, ...best, used, proven };
}

/**
 * Longest strip that fits between the selvages, mm; 0 when none does.
 * @param widthMm of the strip
 * @param angleDeg of the strip to the roll's length, 0 < angle <= 90
 */
export function laneLengthMm(widthMm: number, angleDeg: number, rollWidthMm: number): number {
  const angle = (Math.abs(angleDeg) * Math.PI) / 180;
  return Math.max(0, (rollWidthMm - widthMm * Math.cos(angle)) / Math.sin(angle));
}

const total = (values: readonly number[]): number => values.reduce((sum, v) => sum + v, 0);

interface Frame {
  readonly widthMm: number;
  readonly angle: number;
  readonly laneMm: number;
}

interface LaidLanes {
  readonly lengthMm: number;
  readonly lanes: readonly Lane[];
}

/**
 * Lanes in order, touching: lane i stands i widths to the side, so at rest against the selvage it begins
 * i width / sin(angle) up the roll. Early lanes slide up as far as their slack lets them, to the line from
 * which the cut begins; later ones only as far as they must.
 */
function layLanes(order: readonly (readonly number[])[], frame: Frame): LaidLanes {
  const { widthMm, angle, laneMm } = frame;
  const [sin, cos] = [Math.sin(angle), Math.cos(angle)];
  const lengths = order.map(total);
  const rest = (i: number): number => (i * widthMm) / sin;
  const from = lengths.reduce(
    (least, length, i) => Math.min(least, (laneMm - length) * cos + rest(i)),
    Infinity,
  );
  const lanes = order.map((own, i): Lane => {
    const slide = Math.max(0, from - rest(i));
    // A slide of y up the roll is y tan(angle) across it; square to the roll there is none.
    const across = cos > 1e-9 ? (slide * sin) / cos : 0;
    return { lengths: own, xMm: widthMm * cos + across, yMm: Math.max(0, rest(i) - from) };
  });
  const top = lanes.reduce((most, lane, i) => Math.max(most, lane.yMm + lengths[i]! * cos), 0);
  return { lengthMm: top + widthMm * sin, lanes };
}

type Bins = readonly (readonly number[])[];

/** Every way of sharing lengths among bins of one size, order of bins left open. */
function* partitions(lengths: readonly number[], size: number): Generator<Bins> {
  if (lengths.length === 0) return;
  function* place(next: number, bins: number[][]): Generator<Bins> {
    if (next === lengths.length) {
      yield bins.map((bin) => [...bin]);
      return;
    }
    for (const bin of bins) {
      if (total(bin) + lengths[next]! > size + SLACK_MM) continue;
      bin.push(lengths[next]!);
      yield* place(next + 1, bins);
      bin.pop();
    }
    yield* place(next + 1, [...bins, [lengths[next]!]]);
  }
  yield* place(0, []);
}

function* permutations(bins: Bins): Generator<Bins> {
  if (bins.length <= 1) {
    yield bins;
    return;
  }
  for (let i = 0; i < bins.length; i++) {
    const others = [...bins.slice(0, i), ...bins.slice(i + 1)];
    for (const rest of permutations(others)) yield [bins[i]!, ...rest];
  }
}

/** First fit, longest first, into as few bins as that finds; then evened out over more and more. */
function* likelyBins(lengths: readonly number[], size: number): Generator<Bins> {
  const sorted = lengths.toSorted((a, b) => b - a);
  if (sorted.length > MOST_WEIGHED) {
    yield nextFit(sorted, size);
    return;
  }
  const fewest: number[][] = [];
  for (const length of sorted) {
    const bin = fewest.find((own) => total(own) + length <= size + SLACK_MM);
    if (bin) bin.push(length);
    else fewest.push([length]);
  }
  yield fewest;
  for (let count = fewest.length; count <= sorted.length; count++) {
    const even: number[][] = Array.from({ length: count }, () => []);
    for (const length of sorted) {
      even.reduce((least, bin) => (total(bin) < total(least) ? bin : least)).push(length);
    }
    if (even.every((bin) => total(bin) <= size + SLACK_MM)) yield even;
  }
}

/** Each bin is filled until the next length does not fit. */
function nextFit(sorted: readonly number[], size: number): Bins {
  const bins: number[][] = [];
  let room = 0;
  for (const length of sorted) {
    if (length > room + SLACK_MM) {
      bins.push([]);
      room = size;
    }
    bins.at(-1)!.push(length);
    room -= length;
  }
  return bins;
}

/** Short lanes last, first, or at both ends. */
function* likelyOrders(bins: Bins): Generator<Bins> {
  const falling = bins.toSorted((a, b) => total(b) - total(a));
  yield falling;
  yield falling.toReversed();
  const ends: (readonly number[])[] = [];
  falling.forEach((bin, i) => (i % 2 === 0 ? ends.push(bin) : ends.unshift(bin)));
  yield ends;
}
