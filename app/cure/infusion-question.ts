/** An infusion asked about: where the front is, against gel and against the resin's thickness. */
import { practiceOf } from '../document/library.ts';
import type { Library, Provenance, ResinRow } from '../document/schema.ts';
import {
  fillOf,
  flowCourse,
  reachAtViscosity,
  usualViscosity,
  type FillResult,
  type FlowCourse,
  type FlowPath,
  type Viscosity,
} from './infusion.ts';
import type { CureModel } from './types.ts';

export interface InfusionQuestion {
  readonly form: 'line' | 'radial';
  readonly lengthM: number;
  /** Radius of the port; a line has none. */
  readonly portMm: number;
  readonly permeabilityUm2: number;
  readonly porosityPct: number;
  readonly pressureKPa: number;
  /** Of the fresh mix, at `viscosityC`. */
  readonly viscosityMPaS: number;
  readonly viscosityC: number;
  readonly thickestMPaS: number;
  readonly waitMinutes: number;
  readonly temperatureC: number;
}

export interface InfusionAnswer {
  readonly question: InfusionQuestion;
  readonly course: FlowCourse;
  readonly fill: FillResult;
  /** Where and when the resin is too thick to run; null: it is so at the open clamp. */
  readonly thick: { readonly minutes: number; readonly frontM: number } | null;
  /** The front comes no further than this in a resin that still runs, m. */
  readonly reachM: number;
  /** Filled before gel and before the resin is too thick. */
  readonly sound: boolean;
}

/** Least diameter of a port, mm: that of a hose. */
const PORT_MM = 5;

/** Practice rows of the figures that have one. */
export const PRACTICE_OF = {
  lengthM: 'infusion-length-m',
  permeabilityUm2: 'infusion-permeability-um2',
  porosityPct: 'infusion-porosity',
  pressureKPa: 'infusion-pressure-kpa',
  viscosityMPaS: 'cure-fresh-viscosity-pa-s',
  thickestMPaS: 'infusion-thickest-mpa-s',
  waitMinutes: 'infusion-wait-minutes',
} as const satisfies Partial<Record<keyof InfusionQuestion, string>>;

/**
 * The question until something is typed: figures of practice, the resin at the room's temperature.
 * @param roomC temperature of the room, C
 * @param wayM from feed to vacuum line as the build has it; undefined: as practice has it
 * @throws MissingRow when the library lacks a practice row
 */
export function usualInfusion(library: Library, roomC: number, wayM?: number): InfusionQuestion {
  const practice = practiceOf(library);
  return {
    form: 'line',
    lengthM: wayM ?? practice(PRACTICE_OF.lengthM),
    portMm: PORT_MM,
    permeabilityUm2: practice(PRACTICE_OF.permeabilityUm2),
    porosityPct: practice(PRACTICE_OF.porosityPct) * 100,
    pressureKPa: practice(PRACTICE_OF.pressureKPa),
    viscosityMPaS: practice(PRACTICE_OF.viscosityMPaS) * 1000,
    viscosityC: 20,
    thickestMPaS: practice(PRACTICE_OF.thickestMPaS),
    waitMinutes: practice(PRACTICE_OF.waitMinutes),
    temperatureC: roomC,
  };
}

/**
 * What was typed into this build's question, read from the window's kept view; whatever has another type is
 * left out.
 * @param kept the kept view, of any shape
 * @param build id of the open build; figures kept for another build are left out
 */
export function typedInfusion(kept: unknown, build: string | null): Partial<InfusionQuestion> {
  if (typeof kept !== 'object' || kept === null || !('build' in kept)) return {};
  if (kept.build !== build) return {};
  const typed = Object.entries(kept).filter(
    ([key, value]) =>
      (KEYS.has(key) && typeof value === 'number' && Number.isFinite(value)) ||
      (key === 'form' && (value === 'line' || value === 'radial')),
  );
  return Object.fromEntries(typed);
}
const KEYS: ReadonlySet<string> = new Set([
  'lengthM',
  'portMm',
  'permeabilityUm2',
  'porosityPct',
  'pressureKPa',
  'viscosityMPaS',
  'viscosityC',
  'thickestMPaS',
  'waitMinutes',
  'temperatureC',
] satisfies Exclude<keyof InfusionQuestion, 'form'>[]);

/** Where a figure of the question comes from: typed, taken by the build, or a row of practice. */
export type InfusionFrom = 'typed' | 'room' | 'assumed' | Provenance;

/**
 * Where one figure of the question comes from.
 * @param key the figure, as `lengthM`
 * @param typed figures that a person typed
 * @returns 'typed', 'room' for the temperature, or the provenance of its practice row; 'assumed' without one
 */
export function infusionFrom(
  key: Exclude<keyof InfusionQuestion, 'form'>,
  typed: Partial<InfusionQuestion>,
  library: Pick<Library, 'practice'>,
): InfusionFrom {
  if (key in typed) return 'typed';
  if (key === 'temperatureC') return 'room';
  const id = (PRACTICE_OF as Partial<Record<typeof key, string>>)[key];
  return library.practice.find((row) => row.id === id)?.provenance ?? 'assumed';
}

const pathOf = (question: InfusionQuestion): FlowPath => ({
  form: question.form,
  lengthM: question.lengthM,
  portM: question.portMm / 1000,
  permeabilityM2: question.permeabilityUm2 * 1e-12,
  porosity: question.porosityPct / 100,
  pressurePa: question.pressureKPa * 1000,
});

/**
 * Where the front is over time, against gel and against the resin's thickness.
 * @param model the fitted resin; its curve gives gel and thickening
 * @param question lengths, pressure and permeability of the way, in the units of their names
 * @returns null when the resin has no curve
 * @throws MissingRow when the library lacks a practice row
 */
export function askInfusion(
  model: CureModel,
  chemistry: ResinRow['chemistry'],
  question: InfusionQuestion,
  library: Library,
): InfusionAnswer | null {
  if (!model.kinetics) return null;
  const viscosity: Viscosity = {
    ...usualViscosity(practiceOf(library), chemistry),
    freshPaS: question.viscosityMPaS / 1000,
    referenceC: question.viscosityC,
  };
  const path = pathOf(question);
  const { temperatureC, waitMinutes } = question;
  const course = flowCourse(path, viscosity, model.kinetics, temperatureC, waitMinutes);
  const fill = fillOf(course, path);
  const thick = reachAtViscosity(course, question.thickestMPaS / 1000);
  const reachM = Math.min(course.gelReachM, thick?.frontM ?? 0);
  const inTime = fill.fillMinutes !== null && thick !== null && fill.fillMinutes <= thick.minutes;
  return { question, course, fill, thick, reachM, sound: inTime };
}
