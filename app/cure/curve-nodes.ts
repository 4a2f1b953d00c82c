/**
 * Where a curve of cure is tabulated. Nodes lie evenly in the cube root of the degree of cure up to half,
 * where the reaction starts, and evenly in -ln(1 - degree) above, where it runs out; and closer wherever
 * Tg rises quickly, since a stiff resin slows by a factor e for every `widthC` of it. Within a node the
 * same measure runs straight, so that the degree at any place is exact.
 */

/** A place y on the curve is node number and share of it: 3.5 is the middle of the fourth node. */
export interface CurveNodes {
  readonly count: number;
  degreeAtNode(y: number): number;
  nodeAtDegree(degree: number): number;
  /** Degree of cure at a share, 0 to 1, of a node, and its slope over that share. */
  degreeWithin(node: number, share: number): number;
  slopeWithin(node: number, share: number): number;
}

/** Widest nodes: so many up to half cure and above it. */
const LOW_NODES = 64;
const HIGH_NODES = 128;
/** The highest degree tabulated, as -ln(1 - degree). */
const LAST_U = 11.5;
const HALF_X = Math.cbrt(0.5);
const HALF_U = Math.LN2;
/** Tg rises within a node by no more than this share of `widthC`. */
const TG_STEP = 0.5;

/** Degree at a measure: its cube below half cure, 1 - exp(-u) above. */
const degreeOf = (low: boolean, v: number): number => (low ? v ** 3 : 1 - Math.exp(-v));

/**
 * @param tgAt glass transition, C, at a degree of cure; rises with it
 * @param widthC rise of Tg over which the slowing grows e-fold, K
 */
export function curveNodes(tgAt: (degree: number) => number, widthC: number): CurveNodes {
  const low = bounds(true, 0, HALF_X, HALF_X / LOW_NODES, tgAt, TG_STEP * widthC);
  const high = bounds(
    false,
    HALF_U,
    LAST_U,
    (LAST_U - HALF_U) / HIGH_NODES,
    tgAt,
    TG_STEP * widthC,
  );
  const lowCount = low.length - 1;
  const count = lowCount + high.length - 1;
  const from = Float64Array.from([...low.slice(0, -1), ...high.slice(0, -1)]);
  const width = Float64Array.from(
    [...low.slice(1), ...high.slice(1)].map((end, i) => end - from[i]!),
  );
  const degrees = Float64Array.from(from, (v, i) => degreeOf(i < lowCount, v));
  const degreeWithin = (i: number, share: number): number =>
    degreeOf(i < lowCount, from[i]! + share * width[i]!);
  return {
    count,
    degreeWithin,
    slopeWithin(i, share) {
      const v = from[i]! + share * width[i]!;
      return (i < lowCount ? 3 * v * v : Math.exp(-v)) * width[i]!;
    },
    degreeAtNode(y) {
      const i = Math.min(Math.floor(y), count - 1);
      return degreeWithin(i, y - i);
    },
    nodeAtDegree(degree) {
      if (degree <= 0) return 0;
      let [first, after] = [0, count];
      while (after - first > 1) {
        const middle = (first + after) >> 1;
        if (degrees[middle]! <= degree) first = middle;
        else after = middle;
      }
      const v = first < lowCount ? Math.cbrt(degree) : Math.min(LAST_U, -Math.log1p(-degree));
      return first + Math.min(1, (v - from[first]!) / width[first]!);
    },
  };
}

/** Bounds of nodes from one measure to another, none wider than `widest` nor over more Tg than `tgStepC`. */
function bounds(
  low: boolean,
  first: number,
  last: number,
  widest: number,
  tgAt: (degree: number) => number,
  tgStepC: number,
): number[] {
  const list = [first];
  let v = first;
  let tgC = tgAt(degreeOf(low, v));
  while (v < last) {
    let step = Math.min(widest, last - v);
    let risen = tgAt(degreeOf(low, v + step)) - tgC;
    while (risen > tgStepC) {
      // Nearly straight over a node: a little less than what would just suffice.
      step *= Math.max(0.25, (0.98 * tgStepC) / risen);
      risen = tgAt(degreeOf(low, v + step)) - tgC;
    }
    v = last - v - step < 1e-6 * widest ? last : v + step;
    tgC += risen;
    list.push(v);
  }
  return list;
}
