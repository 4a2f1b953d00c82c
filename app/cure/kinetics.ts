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
import { addNode, emptyRising, placeOf, PLACES, valueAt, type Rising } from './rising.ts';

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
  const widthC = widthOf(glass);
  const points = pointsOf(glass);
  const { degreeAtNode, nodeAtDegree } = points.nodes;
  const { dose, stall } = tabulate(points, shape);

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

const widthOf = ({ widthC }: Glass): number => Math.max(LEAST_WIDTH_C, widthC);

/** What the integrals ask for at each of PLACES of each node; whatever the shape of the rate. */
interface CurvePoints {
  readonly nodes: CurveNodes;
  readonly degrees: Float64Array;
  readonly slopes: Float64Array;
  /** exp((Tg - Tg1) / w), within 0 to 1 for every resin; the temperature's part comes in later. */
  readonly stiffness: Float64Array;
}

/** Of the glass asked for last: a fit tries many shapes on one. */
let lastPoints: { readonly glass: Glass; readonly points: CurvePoints } | null = null;

function pointsOf(glass: Glass): CurvePoints {
  if (lastPoints?.glass === glass) return lastPoints.points;
  const widthC = widthOf(glass);
  const nodes = curveNodes((degree) => tgAtDegreeC(glass, degree), widthC);
  const count = nodes.count * PLACES.length;
  const [degrees, slopes] = [new Float64Array(count), new Float64Array(count)];
  for (let k = 0; k < count; k++) {
    const node = Math.floor(k / PLACES.length);
    const share = PLACES[k % PLACES.length]!;
    degrees[k] = nodes.degreeWithin(node, share);
    slopes[k] = nodes.slopeWithin(node, share);
  }
  const stiffness = degrees.map((degree) =>
    Math.exp((tgAtDegreeC(glass, degree) - glass.tgFullC) / widthC),
  );
  const points = { nodes, degrees, slopes, stiffness };
  lastPoints = { glass, points };
  return points;
}

/** Integrates the dose and the stall over the degree of cure, node by node. */
function tabulate(
  { nodes, degrees, slopes, stiffness }: CurvePoints,
  shape: RateShape,
): { readonly dose: Rising; readonly stall: Rising } {
  const [dose, stall] = [emptyRising(nodes.count), emptyRising(nodes.count)];
  const doseSlopes = new Float64Array(PLACES.length);
  const stallSlopes = new Float64Array(PLACES.length);
  for (let i = 0; i < nodes.count; i++) {
    for (let p = 0; p < PLACES.length; p++) {
      const k = i * PLACES.length + p;
      const slope = slopes[k]!;
      // At the start of a curve without a seed the density is infinite; its slope is taken as 0.
      const rate = slope === 0 ? Infinity : shapeRate(shape, degrees[k]!);
      doseSlopes[p] = slope * (1 / rate);
      stallSlopes[p] = slope * (stiffness[k]! / rate);
    }
    addNode(dose, i, doseSlopes);
    addNode(stall, i, stallSlopes);
  }
  return { dose, stall };
}
