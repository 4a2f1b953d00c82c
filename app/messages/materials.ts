/** Messages about materials that do not go together, or lie out of the usual range. */
import type { PartZone, Process } from '../document/schema.ts';
import { elapsed, plain } from './words.ts';
import { offers, findingSpec } from './spec.ts';
import { decimals } from '../units/formats.ts';
import { exact } from '../units/words.ts';

const mm = (value: number): string => `${plain(value)} mm`;
const percent = (share: number): string => `${Math.round(share * 100)} %`;

/** A cloth whose fibre fraction is out of the range of hand work. */
interface OddFraction {
  readonly cloth: string;
  readonly clothId: string;
  readonly zone: string;
  readonly fibreFraction: number;
  readonly low: number;
  readonly high: number;
  readonly process: Process;
}
const GIVES: Readonly<Record<Process, string>> = {
  hand: 'Hand work with no bag gives',
  bagged: 'Hand work under a bag gives',
  infused: 'An infusion gives',
};
const fractionWords = (a: OddFraction, odd: string): string =>
  `${a.cloth} in ${a.zone} at ${percent(a.fibreFraction)} fibre by volume ${odd}. ` +
  `${GIVES[a.process]} ${percent(a.low)} to ${percent(a.high)}.`;
const fractionNumbers = ({ clothId, fibreFraction, low, high }: OddFraction) => ({
  cloth: clothId,
  fibreFraction,
  low,
  high,
});

type Shape = PartZone['shape'];
const SURFACES: Readonly<Record<Shape, string>> = {
  flat: 'flat',
  single: 'singly curved',
  double: 'doubly curved',
};
const IS_SHAPED: Readonly<Record<Shape, string>> = {
  flat: 'is flat',
  single: 'is curved one way',
  double: 'is curved both ways',
};

/** Styrene on a core, or on the mould. */
type Dissolves =
  | { readonly core: string; readonly coreId: string; readonly zone: string }
  | { readonly mould: string; readonly mouldId: string };

const NO_LEVER = { dependsOn: 'document', waysOut: 'none', saidByChoice: false } as const;

export const MATERIAL_FINDINGS = {
  'process-not-planned': findingSpec({
    meaning: 'The plan has no stages for the way in which the part is laid up.',
    severity: 'stop',
    unsafe: 'wet-work',
    ...NO_LEVER,
    words: (_: { process: 'hand' }) =>
      'Laid by hand with no bag is not planned. Fibre, thickness, weight, resin and kit count as by hand; ' +
      'stages, mixes, clocks and dates are those of a wet layup under a bag, so that no card of wet work is printed.',
    numbers: ({ process }) => ({ process }),
  }),
  'infusion-fill': findingSpec({
    meaning: 'How long an infusion takes to fill, beside its gel.',
    severity: ['stop', 'note'],
    unsafe: 'wet-work',
    ...NO_LEVER,
    words: (a: {
      cure: string;
      lengthM: number;
      temperatureC: number;
      fillMinutes: number | null;
      gelMinutes: number;
      isSound: boolean;
    }) => {
      const way = `${a.cure}: an infusion over ${plain(a.lengthM)} m from feed to vacuum line at ${plain(a.temperatureC)} °C`;
      const gel = `gel comes ${elapsed(a.gelMinutes)} after first contact`;
      const mend = 'Lay feed lines nearer to each other, or take a slower hardener.';
      if (a.fillMinutes === null) return `${way} does not fill: ${gel}. ${mend}`;
      const full = `is full ${elapsed(a.fillMinutes)} after first contact`;
      return a.isSound
        ? `${way} ${full}; ${gel}. How well mesh and laminate let resin through is assumed: a strip infused on glass tells.`
        : `${way} ${full}, when the resin is too thick to run; ${gel}. ${mend}`;
    },
    numbers: ({ lengthM, temperatureC, fillMinutes, gelMinutes }) => ({
      lengthM,
      temperatureC,
      ...(fillMinutes === null ? {} : { fillMinutes: Math.round(fillMinutes) }),
      gelMinutes: Math.floor(gelMinutes),
    }),
  }),
  'laminate-dry': findingSpec({
    meaning: 'A cloth is said to take no resin.',
    severity: 'stop',
    unsafe: 'wet-work',
    ...NO_LEVER,
    words: (a: OddFraction) => fractionWords(a, 'holds no resin'),
    numbers: fractionNumbers,
  }),
  'fibre-fraction-high': findingSpec({
    meaning: 'Fibre fraction beyond hand work under a bag.',
    severity: 'warn',
    unsafe: null,
    ...NO_LEVER,
    words: (a: OddFraction) => fractionWords(a, 'is more than hand work reaches'),
    numbers: fractionNumbers,
  }),
  'fibre-fraction-low': findingSpec({
    meaning: 'Cloth that floats in resin.',
    severity: 'warn',
    unsafe: null,
    ...NO_LEVER,
    words: (a: OddFraction) => fractionWords(a, 'is more resin than cloth needs'),
    numbers: fractionNumbers,
  }),
  'core-bend-tight': findingSpec({
    meaning: 'The core does not bend so far cold.',
    severity: 'warn',
    unsafe: null,
    ...NO_LEVER,
    words: (a: {
      core: string;
      thicknessMm: number;
      zone: string;
      radiusMm: number;
      leastRadiusMm: number;
    }) =>
      `${mm(a.thicknessMm)} ${a.core} bends cold to a radius of about ${mm(a.leastRadiusMm)}; ` +
      `${a.zone} asks ${mm(a.radiusMm)}. Score it, warm it or take thinner layers.`,
    numbers: ({ radiusMm, leastRadiusMm }) => ({ radiusMm, leastRadiusMm }),
  }),
  'core-thickness-odd': findingSpec({
    meaning: 'The core is not stocked in that thickness.',
    severity: 'note',
    unsafe: null,
    ...NO_LEVER,
    words: (a: { core: string; stockedMm: readonly number[]; thicknessMm: number }) =>
      `${a.core} is stocked in ${a.stockedMm.join(', ')} mm, not in ${mm(a.thicknessMm)}.`,
    numbers: ({ thicknessMm }) => ({ thicknessMm }),
  }),
  'core-kerfs-open': findingSpec({
    meaning: 'Open kerfs drink resin.',
    severity: 'note',
    unsafe: null,
    ...NO_LEVER,
    words: (a: { zone: string; extraKg: number }) =>
      `Open kerfs in ${a.zone} drink about ${decimals(a.extraKg, 1)} kg more resin than drilled core.`,
    numbers: ({ extraKg }) => ({ extraKg }),
  }),
  'styrene-dissolves': findingSpec({
    meaning: 'Styrene dissolves the core or the mould.',
    severity: ['stop', 'warn'],
    unsafe: 'wet-work',
    ...NO_LEVER,
    words: (a: Dissolves) =>
      'core' in a
        ? `Styrene in the resin dissolves ${a.core} in ${a.zone}. Take epoxy or another core.`
        : `Styrene in the resin dissolves the mould, ${a.mould}, through any pinhole in its coat.`,
    numbers: (a) => ('core' in a ? { core: a.coreId } : { mould: a.mouldId }),
  }),
  'styrene-vacuum': findingSpec({
    meaning: 'Styrene boils under full vacuum.',
    severity: 'warn',
    unsafe: 'wet-work',
    ...NO_LEVER,
    words: (a: { maxVacuumKPa: number }) =>
      `Styrene boils under full vacuum: hold ${exact(a.maxVacuumKPa)} kPa below atmosphere at most.`,
    numbers: ({ maxVacuumKPa }) => ({ maxVacuumKPa }),
  }),
  'solvent-core': findingSpec({
    meaning: 'Solvent attacks the core.',
    severity: 'note',
    unsafe: 'core',
    ...NO_LEVER,
    words: (a: { core: string; coreId: string }) =>
      `Release and wiping solvents attack ${a.core}: let them flash off, wipe the skin and never ` +
      'the core.',
    numbers: ({ coreId }) => ({ core: coreId }),
  }),
  'vacuum-crushes-core': findingSpec({
    meaning: 'Full vacuum is more than the core takes.',
    severity: 'warn',
    unsafe: 'core',
    ...NO_LEVER,
    words: (a: { core: string; zone: string; maxVacuumKPa: number }) =>
      `${a.core} in ${a.zone} creeps when it is pulled to more than ${exact(a.maxVacuumKPa)} kPa below ` +
      'atmosphere, sooner when warm: throttle the pump.',
    numbers: ({ maxVacuumKPa }) => ({ maxVacuumKPa }),
  }),
  'release-not-for-shape': findingSpec({
    meaning: 'The release system does not lie on this shape.',
    severity: 'stop',
    unsafe: 'release',
    ...NO_LEVER,
    words: (a: {
      release: string;
      releaseId: string;
      shapes: readonly Shape[];
      zone: string;
      shape: Shape;
    }) =>
      `${a.release} lies on ${a.shapes.map((one) => SURFACES[one]).join(' or ')} surfaces only; ` +
      `${a.zone} ${IS_SHAPED[a.shape]}.`,
    numbers: ({ releaseId, shape }) => ({ release: releaseId, shape }),
  }),
} as const;

export const MATERIAL_LEVERS = {
  release: offers({
    label: (a: { release: string; hardDemouldChance: number }) => `Release with ${a.release}`,
    sideEffects: (a) => [
      `A hard demould in about ${Math.round(a.hardDemouldChance * 100)} % of jobs.`,
    ],
  }),
} as const;
