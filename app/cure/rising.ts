/**
 * Rising functions over the nodes of a curve: integrated node by node, read and inverted by the cubic
 * through both ends of a node and their slopes.
 */

/** Gauss-Legendre on [0, 1]. */
const GAUSS = [
  [0.0694318442029737, 0.173927422568727],
  [0.330009478207572, 0.326072577431273],
  [0.669990521792428, 0.326072577431273],
  [0.930568155797026, 0.173927422568727],
] as const;

/** Shares of a node at which a curve is looked at: those of GAUSS, then both ends. */
export const PLACES = [...GAUSS.map(([at]) => at), 0, 1];
const AT_START = GAUSS.length;
const AT_END = GAUSS.length + 1;

/** A rising function of y: its values at the nodes, and its slopes on both sides of them. */
export interface Rising {
  readonly values: Float64Array;
  readonly below: Float64Array;
  readonly above: Float64Array;
}

/** Value between nodes by the cubic through both ends and their slopes. */
export function valueAt({ values, below, above }: Rising, y: number): number {
  const i = Math.min(Math.floor(y), values.length - 2);
  const s = y - i;
  const rest = 1 - s;
  return (
    values[i]! * (1 + 2 * s) * rest * rest +
    above[i]! * s * rest * rest +
    values[i + 1]! * s * s * (3 - 2 * s) -
    below[i + 1]! * s * s * rest
  );
}

/** Place at which the sum of two rising functions, the second times `factor`, takes a value. */
export function placeOf(
  a: Rising,
  b: Rising,
  factor: number,
  offset: number,
  value: number,
): number {
  const last = a.values.length - 1;
  const atNode = (i: number): number => a.values[i]! + factor * (b.values[i]! - offset);
  let low = 0;
  let high = last;
  if (value >= atNode(last)) return last;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (atNode(middle) <= value) low = middle;
    else high = middle;
  }
  const [bottom, top] = [atNode(low), atNode(low + 1)];
  const slopeLow = a.above[low]! + factor * b.above[low]!;
  const slopeHigh = a.below[low + 1]! + factor * b.below[low + 1]!;
  let [least, most] = [0, 1];
  let s = (value - bottom) / (top - bottom);
  for (let round = 0; round < 40; round++) {
    const rest = 1 - s;
    const miss =
      bottom * (1 + 2 * s) * rest * rest +
      slopeLow * s * rest * rest +
      top * s * s * (3 - 2 * s) -
      slopeHigh * s * s * rest -
      value;
    if (miss > 0) most = s;
    else least = s;
    const slope =
      6 * s * rest * (top - bottom) + slopeLow * rest * (1 - 3 * s) + slopeHigh * s * (3 * s - 2);
    const next = s - miss / slope;
    const step = next > least && next < most ? next : (least + most) / 2;
    if (Math.abs(step - s) < 1e-13) break;
    s = step;
  }
  return low + s;
}

/** A function that is 0 at all nodes. */
export const emptyRising = (nodes: number): Rising => ({
  values: new Float64Array(nodes + 1),
  below: new Float64Array(nodes + 1),
  above: new Float64Array(nodes + 1),
});

/**
 * Adds a node's integral. Slopes at its ends are held to three times its mean, so that the cubic between
 * them never falls (de Boor & Swartz 1977).
 * @param slopes at PLACES of the node
 */
export function addNode({ values, below, above }: Rising, i: number, slopes: Float64Array): void {
  let step = 0;
  for (let p = 0; p < GAUSS.length; p++) step += GAUSS[p]![1] * slopes[p]!;
  values[i + 1] = values[i]! + step;
  above[i] = Math.min(3 * step, slopes[AT_START]!);
  below[i + 1] = Math.min(3 * step, slopes[AT_END]!);
}
