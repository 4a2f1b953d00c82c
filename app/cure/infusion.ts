/** Infusion: viscosity that rises with cure, and the flow front against gel. */
import { rateFactor } from './arrhenius.ts';
import { cureCurveTable, type CureKinetics } from './kinetics.ts';
import type { Chemistry } from './nominal.ts';
import type { PracticeLookup } from './practice.ts';

/** Viscosity over degree of cure and temperature. */
export interface Viscosity {
  /** Fresh mix at the reference temperature, Pa s. */
  readonly freshPaS: number;
  readonly referenceC: number;
  /** Fresh viscosity falls with temperature by exp(U/R (1/T - 1/Tref)), J/mol. */
  readonly flowEnergyJMol: number;
  readonly gelDegree: number;
  /** Exponents of Castro & Macosko, A + B alpha. */
  readonly a: number;
  readonly b: number;
}

/**
 * Viscosity of a usual infusion resin over temperature and degree of cure, where its sheet says no more.
 * @throws MissingRow when the library lacks a practice row
 */
export function usualViscosity(
  practice: PracticeLookup,
  chemistry: Chemistry = 'epoxy',
): Viscosity {
  return {
    freshPaS: practice('cure-fresh-viscosity-pa-s'),
    referenceC: 20,
    flowEnergyJMol: practice('cure-flow-energy-kj') * 1000,
    gelDegree: practice(chemistry === 'epoxy' ? 'cure-gel-degree' : 'cure-ester-gel-degree'),
    a: practice('cure-viscosity-a'),
    b: practice('cure-viscosity-b'),
  };
}

/**
 * mu = mu0(T) (ag / (ag - a))^(A + B a) (Castro & Macosko 1980), Pa s; Infinity from gel on.
 * @param degree degree of cure a, 0 to 1
 * @param temperatureC of the resin, C
 */
export function viscosityPaS(viscosity: Viscosity, degree: number, temperatureC: number): number {
  const { freshPaS, gelDegree, a, b, flowEnergyJMol, referenceC } = viscosity;
  if (degree >= gelDegree) return Infinity;
  const fresh = freshPaS / rateFactor(flowEnergyJMol, temperatureC, referenceC);
  return fresh * (gelDegree / (gelDegree - degree)) ** (a + b * degree);
}

/** A front that runs from a line or from a small round port. */
export interface FlowPath {
  readonly form: 'line' | 'radial';
  /** Length to fill, or radius from the port's middle, m. */
  readonly lengthM: number;
  /** Radius of the port, m; radial only. */
  readonly portM?: number;
  readonly permeabilityM2: number;
  readonly porosity: number;
  /** Pressure difference that drives the front, Pa. */
  readonly pressurePa: number;
}

/**
 * Fluidity (1 / viscosity) over time that takes the front to a place, 1/Pa: time is this times the
 * viscosity. Darcy's law, integrated from the line or the rim of the port.
 */
export function fluidityToReach(path: FlowPath, lengthM: number): number {
  const { porosity, permeabilityM2, pressurePa } = path;
  if (path.form === 'line') return (porosity * lengthM ** 2) / (2 * permeabilityM2 * pressurePa);
  const port = path.portM ?? 0;
  if (lengthM <= port) return 0;
  const shape = lengthM ** 2 * (Math.log(lengthM / port) - 0.5) + port ** 2 / 2;
  return (porosity * shape) / (2 * permeabilityM2 * pressurePa);
}

export interface FillResult {
  /** Minutes from first contact to full; null when gel comes first. */
  readonly fillMinutes: number | null;
  readonly gelMinutes: number;
  /** How far the front comes before gel, m; the whole length when it fills. */
  readonly reachedM: number;
  /** From full to gel, min; null when it does not fill. */
  readonly spareMinutes: number | null;
}

const PARTS = 400;
/** Longest way that is asked about, m: no part is wider. */
const FURTHEST_M = 100;

export interface FlowPoint {
  /** From first contact. */
  readonly minutes: number;
  /** Where the front would be on a way without end, m. */
  readonly frontM: number;
  readonly paS: number;
}

export interface FlowCourse {
  /** From the open clamp to just before gel; the front only ever gains. */
  readonly points: readonly FlowPoint[];
  readonly gelMinutes: number;
  /** How far any way may be to fill before gel, m. */
  readonly gelReachM: number;
  /** Flow had by each of the points, for `fillOf`. */
  readonly flowed: readonly number[];
}

/**
 * The front in a resin that thickens as it cures at one temperature, mixed `waitMinutes` before the
 * clamp is opened. The whole stream is taken to be as old as the first of it.
 */
export function flowCourse(
  path: FlowPath,
  viscosity: Viscosity,
  kinetics: CureKinetics,
  temperatureC: number,
  waitMinutes = 0,
): FlowCourse {
  const table = cureCurveTable(kinetics.shape, kinetics.glass);
  const perHour =
    kinetics.ratePerHour *
    rateFactor(kinetics.activationEnergyJMol, temperatureC, kinetics.referenceC);
  const gelMinutes = (table.doseFor(viscosity.gelDegree) / perHour) * 60;
  const paSAt = (minutes: number): number =>
    viscosityPaS(viscosity, table.degreeAt((perHour * minutes) / 60), temperatureC);
  const step = Math.max(0, gelMinutes - waitMinutes) / PARTS;
  const points: FlowPoint[] = [];
  const flowed: number[] = [];
  let sum = 0;
  for (let i = 0; i <= PARTS; i++) {
    const minutes = waitMinutes + step * i;
    if (i > 0) {
      const [before, middle] = [points[i - 1]!.paS, paSAt(minutes - step / 2)];
      // Simpson over the step; seconds.
      sum += ((1 / before + 4 / middle + 1 / paSAt(minutes)) / 6) * step * 60;
    }
    flowed.push(sum);
    points.push({ minutes, frontM: frontFor(path, sum), paS: paSAt(minutes) });
  }
  return { points, gelMinutes, gelReachM: points[PARTS]!.frontM, flowed };
}

/**
 * When the front has filled the way, or how far it came.
 * @param path length to fill, m, with port and permeability
 */
export function fillOf(
  { points, flowed, gelMinutes, gelReachM }: FlowCourse,
  path: FlowPath,
): FillResult {
  const wanted = fluidityToReach(path, path.lengthM);
  const i = flowed.findIndex((had) => had >= wanted);
  if (i < 0) return { fillMinutes: null, gelMinutes, reachedM: gelReachM, spareMinutes: null };
  const to = points[i]!.minutes;
  const from = points[i - 1]?.minutes ?? to;
  const [before, after] = [flowed[i - 1] ?? 0, flowed[i]!];
  const share = after > before ? (wanted - before) / (after - before) : 1;
  const fillMinutes = from + (to - from) * share;
  return {
    fillMinutes,
    gelMinutes,
    reachedM: path.lengthM,
    spareMinutes: gelMinutes - fillMinutes,
  };
}

/**
 * Where the front is, m, when the resin has become as thick as `paS`, and when, min; null when it
 * is thicker already at the open clamp.
 */
export function reachAtViscosity(
  { points }: FlowCourse,
  paS: number,
): { readonly minutes: number; readonly frontM: number } | null {
  const i = points.findIndex((point) => point.paS >= paS);
  if (i <= 0) return null;
  const [before, after] = [points[i - 1]!, points[i]!];
  const share = Number.isFinite(after.paS)
    ? Math.log(paS / before.paS) / Math.log(after.paS / before.paS)
    : 1;
  return {
    minutes: before.minutes + share * (after.minutes - before.minutes),
    frontM: before.frontM + share * (after.frontM - before.frontM),
  };
}

/** Place of the front for a flow already had; the inverse of `fluidityToReach`. */
function frontFor(path: FlowPath, flowed: number): number {
  const { porosity, permeabilityM2, pressurePa } = path;
  if (path.form === 'line') return Math.sqrt((2 * permeabilityM2 * pressurePa * flowed) / porosity);
  let [low, high] = [path.portM ?? 0, FURTHEST_M];
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (fluidityToReach(path, middle) < flowed) low = middle;
    else high = middle;
  }
  return low;
}
