/** Where the figures of an infusion come from. */
import {
  infusionFrom,
  PRACTICE_OF,
  type InfusionAnswer,
  type InfusionFrom,
  type InfusionQuestion,
} from '../../cure/infusion-question.ts';
import type { HardenerRow, Library } from '../../document/schema.ts';
import { length } from '../../time/words.ts';
import { formatBoth, type Measure } from '../../units/convert.ts';
import { practiceOrigin, provenanceWords, type Origin } from './origin.ts';

const NAMES: Readonly<Record<keyof typeof PRACTICE_OF, readonly [string, Measure]>> = {
  lengthM: ['Way to fill', 'lengthM'],
  permeabilityUm2: ['Permeability', 'permeabilityUm2'],
  porosityPct: ['Porosity', 'percent'],
  pressureKPa: ['Vacuum that drives it', 'vacuumKPa'],
  viscosityMPaS: ['Viscosity of the fresh mix', 'viscosityMPaS'],
  thickestMPaS: ['Too thick from', 'viscosityMPaS'],
  waitMinutes: ['First contact to open clamp', 'minutes'],
};

const LINE = 't = porosity μ L² / (2 K Δp)';
const ROUND = 't = porosity μ (R² (ln(R/r) − ½) + r²/2) / (2 K Δp)';

/** Practice behind viscosity over temperature and degree of cure. */
const FLOW_ROWS = ['cure-flow-energy-kj', 'cure-viscosity-a', 'cure-viscosity-b'];

/** What stands for a figure that is no row of the library. */
export const FROM_WORDS = {
  typed: 'typed here',
  room: 'room by day',
  assumed: 'assumed',
} as const satisfies Record<Exclude<InfusionFrom, object>, string>;

/** Where a figure of the answer comes from. */
export function infusionOrigin(
  answer: InfusionAnswer,
  typed: Partial<InfusionQuestion>,
  hardener: HardenerRow,
  library: Library,
): Origin {
  const { question, course, thick, fill } = answer;
  const fromWords = (key: Exclude<keyof InfusionQuestion, 'form'>): string => {
    const from = infusionFrom(key, typed, library);
    return typeof from === 'string' ? FROM_WORDS[from] : provenanceWords(from);
  };
  const result = (name: string, value: string) => ({ name, value: `= ${value}`, from: 'result' });
  return {
    formula:
      `${question.form === 'line' ? LINE : ROUND}, with 1/μ summed over time; ` +
      'μ = μ0(T) (αg / (αg − α))^(A + B α), never past gel',
    rows: [
      ...(Object.keys(PRACTICE_OF) as (keyof typeof PRACTICE_OF)[]).map((key) => {
        const [name, measure] = NAMES[key];
        return { name, value: formatBoth(question[key], measure), from: fromWords(key) };
      }),
      {
        name: 'Viscosity stated at',
        value: formatBoth(question.viscosityC, 'temperatureC'),
        from: fromWords('viscosityC'),
      },
      {
        name: 'Resin, room and part',
        value: formatBoth(question.temperatureC, 'temperatureC'),
        from: fromWords('temperatureC'),
      },
      ...FLOW_ROWS.map((id) => practiceOrigin(library, id)),
      {
        name: 'Degree of cure over time',
        value: 'the fitted curve',
        from: provenanceWords(hardener.provenance),
      },
      result('Gel', length(course.gelMinutes)),
      ...(thick ? [result('Too thick', length(thick.minutes))] : []),
      result('Filled', fill.fillMinutes === null ? 'never' : length(fill.fillMinutes)),
      result('Furthest before gel', formatBoth(course.gelReachM, 'lengthM')),
    ],
    source:
      'Darcy’s law for a fibre bed, integrated (as in a University of Minnesota laboratory note); ' +
      'thickening after Castro & Macosko 1980, from memory. The stream is taken as old as its first.',
  };
}
