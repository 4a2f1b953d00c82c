/**
 * The one curve of a resin: an autocatalytic rate with a single activation energy,
 *
 *   d(alpha)/dt = k (c + alpha^m) (1 - alpha)^n rateFactor(T),
 *
 * (Kamal & Sourour's form with one Arrhenius factor), so that any temperature history folds into
 * one dose, and Tg over alpha by DiBenedetto. Both are tabulated once per curve; everything after is
 * a look-up.
 */
import { curveNodes, type CurveNodes } from './curve-nodes.ts';

/** Shape of the rate: everything but its speed and its activation energy. */
export interface RateShape {
  /** Share of the reaction that needs no product to start it, c. */
  readonly seed: number;
  readonly m: number;
  readonly n: number;
}

/** Glass transition over degree of cure, and how a stiff resin slows. */
export interface Glass {
  /** Tg of the fresh mix, C. */
  readonly tg0C: number;
  /** Tg fully cured, C. */
  readonly tgFullC: number;
  /** DiBenedetto's lambda. */
  readonly lambda: number;
  /** The cure begins to slow when Tg stands this far over the cure temperature, K. */
  readonly slowsOverC: number;
  /** The rate is halved when Tg stands this far over the cure temperature, K. */
  readonly halfOverC: number;
  /** Tg rise over which the slowing grows e-fold, K. */
  readonly widthC: number;
}

/** Speed and heat of one resin on its curve. */
export interface CureKinetics {
  readonly shape: RateShape;
  readonly glass: Glass;
  readonly referenceC: number;
  readonly activationEnergyJMol: number;
  /** k at the reference temperature, 1/h. */
  readonly ratePerHour: number;
  /** Heat of reaction of the mix, J/g. */
  readonly heatJG: number;
}

/** d(alpha) / (k dt): the dimensionless rate at a degree of cure. */
export function shapeRate(shape: RateShape, degree: number): number {
  if (degree >= 1) return 0;
  return (shape.seed + Math.max(0, degree) ** shape.m) * (1 - Math.max(0, degree)) ** shape.n;
}

/**
 * Glass transition at a degree of cure, C: Tg = Tg0 + (Tg1 - Tg0) lambda a / (1 - (1 - lambda) a)
 * (DiBenedetto; the form of Pascault & Williams 1990).
 */
export function tgAtDegreeC(glass: Glass, degree: number): number {
  const { tg0C, tgFullC, lambda } = glass;
  return tg0C + ((tgFullC - tg0C) * lambda * degree) / (1 - (1 - lambda) * degree);
}

/** Degree of cure at a glass transition: the inverse of `tgAtDegreeC`, held within 0 to 1. */
export function degreeAtTg(glass: Glass, tgC: number): number {
  const share = (tgC - glass.tg0C) / (glass.tgFullC - glass.tg0C);
  const degree = share / (glass.lambda + (1 - glass.lambda) * share);
  return Math.min(1, Math.max(0, degree));
}

/** Gauss-Legendre on [0, 1]. */
const GAUSS = [
  [0.0694318442029737, 0.173927422568727],
  [0.330009478207572, 0.326072577431273],
  [0.669990521792428, 0.326072577431273],
  [0.930568155797026, 0.173927422568727],
] as const;

/**
 * The curve of a shape. A place on it is counted in nodes y, from 0: the degree of cure is a plain
 * function of y, and the dimensionless dose x = k x (equivalent hours) rises with it.
 */
export interface CureCurveTable {
  readonly shape: RateShape;
  readonly glass: Glass;
  /** Place on the curve at a dimensionless dose, and the other way round. */
  nodeAtDose(x: number): number;
  doseAtNode(y: number): number;
  /** Degree of cure and glass transition, C, at a place on the curve. */
  degreeAtNode(y: number): number;
  tgAtNode(y: number): number;
  /** Dimensionless dose that reaches a degree of cure. */
  doseFor(degree: number): number;
  /** Degree of cure at a dimensionless dose. */
  degreeAt(x: number): number;
  /** The way along the curve while the resin stays at one temperature. */
  at(temperatureC: number): CurveAtTemperature;
}

/** Time along the curve at one temperature, slowing included, as undisturbed dimensionless dose. */
export interface CurveAtTemperature {
  /** Dimensionless dose at which the slowing begins, and its place on the curve. */
  readonly slowsFrom: number;
  readonly slowsFromNode: number;
  /** What it takes to come from 0 to a place on the curve; rises with it. */
  spentAtNode(y: number): number;
  /** Place on the curve reached by so much. */
  nodeBy(spent: number): number;
  /** The same two with doses for places. */
  spent(x: number): number;
  reachedBy(spent: number): number;
}

/** A rising function of y: its values at the nodes, and its slopes on both sides of them. */
interface Rising {
  readonly values: Float64Array;
  readonly below: Float64Array;
  readonly above: Float64Array;
}

/** Value between nodes by the cubic through both ends and their slopes. */
function valueAt({ values, below, above }: Rising, y: number): number {
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
function placeOf(a: Rising, b: Rising, factor: number, offset: number, value: number): number {
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

/** Slowing sharper than this is taken as this sharp, K. */
const LEAST_WIDTH_C = 0.5;

/** The last few curves: every clock of a plan asks for the same one. */
const tabulated = new Map<string, CureCurveTable>();
const KEPT_TABLES = 16;

/** Tabulates a curve; a few thousand evaluations of the rate the first time. */
export function cureCurveTable(shape: RateShape, glass: Glass): CureCurveTable {
  const { tg0C, tgFullC, lambda, slowsOverC, halfOverC, widthC } = glass;
  const key = [
    ...[shape.seed, shape.m, shape.n],
    ...[tg0C, tgFullC, lambda, slowsOverC, halfOverC, widthC],
  ].join(' ');
  let table = tabulated.get(key);
  if (!table) {
    table = tabulateCurve(shape, glass);
    if (tabulated.size >= KEPT_TABLES) tabulated.delete(tabulated.keys().next().value!);
    tabulated.set(key, table);
  }
  return table;
}

function tabulateCurve(shape: RateShape, glass: Glass): CureCurveTable {
  const widthC = Math.max(LEAST_WIDTH_C, glass.widthC);
  const nodes = curveNodes((degree) => tgAtDegreeC(glass, degree), widthC);
  const { degreeAtNode, nodeAtDegree } = nodes;
  // exp((Tg - Tg1) / w) stays within 0 to 1 for every resin; the temperature's part comes in later.
  const stiffness = (degree: number): number =>
    Math.exp((tgAtDegreeC(glass, degree) - glass.tgFullC) / widthC);
  const dose = tabulate(nodes, (degree) => 1 / shapeRate(shape, degree));
  const stall = tabulate(nodes, (degree) => stiffness(degree) / shapeRate(shape, degree));

  const doseAtNode = (y: number): number => valueAt(dose, y);
  const nodeAtDose = (x: number): number => (x <= 0 ? 0 : placeOf(dose, stall, 0, 0, x));

  const at = (temperatureC: number): CurveAtTemperature => {
    const slowsFromNode = nodeAtDegree(degreeAtTg(glass, temperatureC + glass.slowsOverC));
    const slowsFrom = doseAtNode(slowsFromNode);
    const stallThen = valueAt(stall, slowsFromNode);
    const factor = Math.exp((glass.tgFullC - temperatureC - glass.halfOverC) / widthC);
    const spentAtNode = (y: number): number =>
      y <= slowsFromNode ? doseAtNode(y) : doseAtNode(y) + factor * (valueAt(stall, y) - stallThen);
    const nodeBy = (spent: number): number => {
      if (spent <= slowsFrom) return nodeAtDose(spent);
      return Math.max(slowsFromNode, placeOf(dose, stall, factor, stallThen, spent));
    };
    return {
      slowsFrom,
      slowsFromNode,
      spentAtNode,
      nodeBy,
      spent: (x) => (x <= slowsFrom ? x : spentAtNode(nodeAtDose(x))),
      reachedBy: (spent) => (spent <= slowsFrom ? Math.max(0, spent) : doseAtNode(nodeBy(spent))),
    };
  };

  return {
    shape,
    glass,
    nodeAtDose,
    doseAtNode,
    degreeAtNode,
    tgAtNode: (y) => tgAtDegreeC(glass, degreeAtNode(y)),
    doseFor: (degree) => doseAtNode(nodeAtDegree(degree)),
    degreeAt: (x) => degreeAtNode(nodeAtDose(x)),
    at,
  };
}

/**
 * Integrates a positive density over the degree of cure, node by node. Slopes at the ends of a node are
 * held to three times its mean, so that the cubic between them never falls (de Boor & Swartz 1977).
 */
function tabulate(
  { count, degreeWithin, slopeWithin }: CurveNodes,
  density: (degree: number) => number,
): Rising {
  const values = new Float64Array(count + 1);
  const below = new Float64Array(count + 1);
  const above = new Float64Array(count + 1);
  const slopeAt = (i: number, s: number): number => {
    const slope = slopeWithin(i, s);
    // At the start of a curve without a seed the density is infinite; its slope is taken as 0.
    return slope === 0 ? 0 : slope * density(degreeWithin(i, s));
  };
  for (let i = 0; i < count; i++) {
    let step = 0;
    for (const [at, weight] of GAUSS) step += weight * slopeAt(i, at);
    values[i + 1] = values[i]! + step;
    above[i] = Math.min(3 * step, slopeAt(i, 0));
    below[i + 1] = Math.min(3 * step, slopeAt(i, 1));
  }
  return { values, below, above };
}
