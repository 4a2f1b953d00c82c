/** An infusion asked about: where the front is, against gel and against the resin's thickness. */
import { practiceOf } from '../../app/document/library.ts';
import type { HardenerRow, Library, ResinRow } from '../../app/document/schema.ts';
import {
  fillOf,
  flowCourse,
  reachAtViscosity,
  usualViscosity,
  type FillResult,
  type FlowCourse,
  type FlowPath,
  type Viscosity,
} from '../../app/cure/infusion.ts';
import type { CureModel } from '../../app/cure/types.ts';
import { length } from '../../app/shop/words.ts';
import { sayBoth, type Measure } from '../../app/units/convert.ts';
import { provenanceWords, type Origin } from '../state/origins.ts';
import { minuteTicks } from './batch.ts';
import type { LineDrawing, Series, XY } from './lineChart.ts';

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

/** The least that a feed line's port measures across is a hose. */
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

/** What is asked until something is typed. @throws when the library lacks a practice row */
export function usualInfusion(library: Library, roomC: number): InfusionQuestion {
  const practice = practiceOf(library);
  return {
    form: 'line',
    lengthM: practice(PRACTICE_OF.lengthM),
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

/** What was typed into this build's question, out of the kept view; anything odd is left out. */
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

const pathOf = (question: InfusionQuestion): FlowPath => ({
  form: question.form,
  lengthM: question.lengthM,
  portM: question.portMm / 1000,
  permeabilityM2: question.permeabilityUm2 * 1e-12,
  porosity: question.porosityPct / 100,
  pressurePa: question.pressureKPa * 1000,
});

/** Null when the resin has no curve. */
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

/** The front over time, with the way to fill, the moment it is too thick, and gel. */
export function infusionDrawing(answer: InfusionAnswer): LineDrawing {
  const { course, question, fill, thick } = answer;
  const { points, gelMinutes } = course;
  const end = gelMinutes * 1.04;
  const front = points
    .filter((_, i) => i % 4 === 0 || i === points.length - 1)
    .map(({ minutes, frontM }): XY => {
      const words = `${sayBoth(frontM, 'lengthM')} after ${length(minutes)}`;
      return { x: minutes, y: frontM, words };
    });
  const highest = Math.max(course.gelReachM, question.lengthM) * 1.08;
  const upright = (x: number, name: string, dash: number, words: string): Series => ({
    name,
    tone: 'limit',
    dash,
    points: [
      { x, y: 0, words },
      { x, y: highest * (name === 'gel' ? 0.97 : 0.9), words },
    ],
  });
  return {
    x: { title: 'Time from first contact', min: 0, max: end, ticks: minuteTicks(end) },
    y: { title: 'Front, m', min: 0, max: highest },
    series: [
      { name: 'front', tone: 'cure', points: front },
      {
        name: 'to fill',
        tone: 'ink',
        dash: 2,
        points: [
          { x: 0, y: question.lengthM },
          { x: end, y: question.lengthM },
        ],
      },
      ...(thick ? [upright(thick.minutes, 'too thick', 1, length(thick.minutes))] : []),
      upright(gelMinutes, 'gel', 0, length(gelMinutes)),
      ...(fill.fillMinutes === null
        ? []
        : [
            {
              name: '',
              tone: 'cure',
              marks: 'rectRot',
              points: [
                { x: fill.fillMinutes, y: question.lengthM, words: length(fill.fillMinutes) },
              ],
            } satisfies Series,
          ]),
    ],
  };
}

const NAMES: Readonly<Record<string, readonly [string, Measure]>> = {
  lengthM: ['Way to fill', 'lengthM'],
  permeabilityUm2: ['Permeability', 'permeabilityUm2'],
  porosityPct: ['Porosity', 'percent'],
  pressureKPa: ['Pressure that drives it', 'pressureKPa'],
  viscosityMPaS: ['Viscosity of the fresh mix', 'viscosityMPaS'],
  thickestMPaS: ['Too thick from', 'viscosityMPaS'],
  waitMinutes: ['First contact to open clamp', 'minutes'],
};

const LINE = 't = porosity μ L² / (2 K Δp)';
const ROUND = 't = porosity μ (R² (ln(R/r) − ½) + r²/2) / (2 K Δp)';

/** Where a figure of the answer comes from. */
export function infusionOrigin(
  answer: InfusionAnswer,
  typed: ReadonlySet<string>,
  hardener: HardenerRow,
  library: Library,
): Origin {
  const { question, course, thick, fill } = answer;
  const rowOf = (id: string) => library.practice.find((one) => one.id === id);
  const from = (key: keyof typeof PRACTICE_OF): string => {
    const row = rowOf(PRACTICE_OF[key]);
    return typed.has(key) || !row ? 'typed here' : provenanceWords(row.provenance);
  };
  const practised = ['cure-flow-energy-kj', 'cure-viscosity-a', 'cure-viscosity-b'].flatMap(
    (id) => {
      const row = rowOf(id);
      return row
        ? [
            {
              name: row.name,
              value: `${row.value} ${row.unit}`.trim(),
              from: provenanceWords(row.provenance),
            },
          ]
        : [];
    },
  );
  const result = (name: string, value: string) => ({ name, value: `= ${value}`, from: 'result' });
  return {
    formula:
      `${question.form === 'line' ? LINE : ROUND}, with 1/μ summed over time; ` +
      'μ = μ0(T) (αg / (αg − α))^(A + B α), never past gel',
    rows: [
      ...(Object.keys(PRACTICE_OF) as (keyof typeof PRACTICE_OF)[]).map((key) => {
        const [name, measure] = NAMES[key]!;
        return { name, value: sayBoth(question[key], measure), from: from(key) };
      }),
      {
        name: 'Viscosity stated at',
        value: sayBoth(question.viscosityC, 'temperatureC'),
        from: typed.has('viscosityC') ? 'typed here' : 'assumed',
      },
      {
        name: 'Resin, room and part',
        value: sayBoth(question.temperatureC, 'temperatureC'),
        from: typed.has('temperatureC') ? 'typed here' : 'room by day',
      },
      ...practised,
      {
        name: 'Degree of cure over time',
        value: 'the fitted curve',
        from: provenanceWords(hardener.provenance),
      },
      result('Gel', length(course.gelMinutes)),
      ...(thick ? [result('Too thick', length(thick.minutes))] : []),
      result('Filled', fill.fillMinutes === null ? 'never' : length(fill.fillMinutes)),
      result('Furthest before gel', sayBoth(course.gelReachM, 'lengthM')),
    ],
    source:
      'Darcy’s law for a fibre bed, integrated (as in a University of Minnesota laboratory note); ' +
      'thickening after Castro & Macosko 1980, from memory. The stream is taken as old as its first.',
  };
}
