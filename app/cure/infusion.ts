/** Infusion: viscosity that rises with cure, and the flow front against gel. */
import { rateFactor } from './arrhenius.ts';
import { cureCurveTable, type CureKinetics } from './kinetics.ts';
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

/** Viscosity of a usual infusion resin, where its sheet says no more. */
export function usualViscosity(practice: PracticeLookup): Viscosity {
  return {
    freshPaS: practice('cure-fresh-viscosity-pa-s'),
    referenceC: 20,
    flowEnergyJMol: practice('cure-flow-energy-kj') * 1000,
    gelDegree: practice('cure-gel-degree'),
    a: practice('cure-viscosity-a'),
    b: practice('cure-viscosity-b'),
  };
}

/**
 * mu = mu0(T) (ag / (ag - a))^(A + B a) (Castro & Macosko 1980); Infinity from gel on. Pa s.
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
function demand(path: FlowPath, lengthM: number): number {
  const { porosity, permeabilityM2, pressurePa } = path;
  if (path.form === 'line') return (porosity * lengthM ** 2) / (2 * permeabilityM2 * pressurePa);
  const port = path.portM ?? 0;
  if (lengthM <= port) return 0;
  const shape = lengthM ** 2 * (Math.log(lengthM / port) - 0.5) + port ** 2 / 2;
  return (porosity * shape) / (2 * permeabilityM2 * pressurePa);
}

/** Time to fill at a viscosity that does not change, s. */
export const fillSeconds = (path: FlowPath, paS: number): number =>
  demand(path, path.lengthM) * paS;

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

/**
 * A front in a resin that thickens as it cures at one temperature, mixed `waitMinutes` before the
 * clamp is opened: fill against gel. The whole stream is taken to be as old as the first of it.
 */
export function fillAgainstGel(
  path: FlowPath,
  viscosity: Viscosity,
  kinetics: CureKinetics,
  temperatureC: number,
  waitMinutes = 0,
): FillResult {
  const table = cureCurveTable(kinetics.shape, kinetics.glass);
  const perHour =
    kinetics.ratePerHour *
    rateFactor(kinetics.activationEnergyJMol, temperatureC, kinetics.referenceC);
  const gelMinutes = (table.doseFor(viscosity.gelDegree) / perHour) * 60;
  const fluidityAt = (minutes: number): number =>
    1 / viscosityPaS(viscosity, table.degreeAt((perHour * minutes) / 60), temperatureC);
  const wanted = demand(path, path.lengthM);
  const step = Math.max(0, gelMinutes - waitMinutes) / PARTS;
  let flowed = 0;
  let before = fluidityAt(waitMinutes);
  for (let i = 1; i <= PARTS; i++) {
    const at = waitMinutes + step * i;
    const middle = fluidityAt(at - step / 2);
    const after = fluidityAt(at);
    // Simpson over the step; seconds.
    const more = ((before + 4 * middle + after) / 6) * step * 60;
    if (flowed + more >= wanted) {
      const fillMinutes = at - step * (1 - (wanted - flowed) / more);
      return {
        fillMinutes,
        gelMinutes,
        reachedM: path.lengthM,
        spareMinutes: gelMinutes - fillMinutes,
      };
    }
    flowed += more;
    before = after;
  }
  return { fillMinutes: null, gelMinutes, reachedM: frontFor(path, flowed), spareMinutes: null };
}

/** Place of the front for a flow already had; the inverse of `demand`. */
function frontFor(path: FlowPath, flowed: number): number {
  let [low, high] = [path.portM ?? 0, path.lengthM];
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (demand(path, middle) < flowed) low = middle;
    else high = middle;
  }
  return low;
}
