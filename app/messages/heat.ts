/** Messages about heat: what stands over a cure, what resin makes itself. */
import { plural } from '../units/words.ts';
import { offers, findingSpec } from './spec.ts';
import { elapsed, plain } from './words.ts';
import { exact } from '../units/words.ts';

type HeatNotCounted =
  | { readonly why: 'no-tent' }
  /** Another programme stands over the same cure. */
  | { readonly why: 'second'; readonly layup: string; readonly cure: string }
  | { readonly why: 'no-cure'; readonly layup: string };

function notCountedWords(a: HeatNotCounted): string {
  if (a.why === 'no-tent') {
    return (
      'Heat is set over a cure, but the shop has neither tent nor oven: it is not counted. Give ' +
      'the room a tent, or remove the heat from the cure.'
    );
  }
  const why =
    a.why === 'second'
      ? `${a.cure} has another heat set over it already`
      : 'no cure holds that layup';
  return `The heat set over '${a.layup}' is not counted: ${why}.`;
}

/** A heat above what something takes. */
type OverLimit =
  | {
      readonly heat: 'of-use';
      readonly core: string;
      readonly zone: string;
      readonly hottestC: number;
      readonly maxC: number;
    }
  | {
      readonly heat: 'of-tent';
      readonly mould: string;
      readonly tentC: number;
      readonly limitC: number;
    }
  | {
      readonly heat: 'of-cure';
      readonly cure: string;
      readonly heatC: number;
      readonly limitC: number;
      readonly of: 'tent' | 'core' | { readonly mould: string };
    };

function overLimitWords(a: OverLimit): string {
  switch (a.heat) {
    case 'of-use':
      return `${a.core} in ${a.zone} takes ${exact(a.maxC)} °C; bake or service reaches ${exact(a.hottestC)} °C.`;
    case 'of-tent':
      return `The tent reaches ${exact(a.tentC)} °C; the mould, ${a.mould}, takes ${exact(a.limitC)} °C.`;
    case 'of-cure': {
      const limit =
        a.of === 'tent'
          ? 'the tent reaches'
          : a.of === 'core'
            ? 'the core takes'
            : `the mould, ${a.of.mould}, takes`;
      return (
        `${a.cure} is to cure at ${plain(a.heatC)} °C under its bag; ${limit} ` +
        `${plain(a.limitC)} °C.`
      );
    }
  }
}

function overLimitNumbers(a: OverLimit): Readonly<Record<string, number>> {
  switch (a.heat) {
    case 'of-use':
      return { maxC: a.maxC, hottestC: a.hottestC };
    case 'of-tent':
      return { tentC: a.tentC, limitC: a.limitC };
    case 'of-cure':
      return { heatC: a.heatC, limitC: a.limitC };
  }
}

const NO_LEVER = { dependsOn: 'document', waysOut: 'none', saidByChoice: false } as const;

export const HEAT_FINDINGS = {
  'heat-over-limit': findingSpec({
    meaning: 'A heat in the plan is above what core or mould takes.',
    severity: ['stop', 'note'],
    unsafe: 'core',
    ...NO_LEVER,
    words: overLimitWords,
    numbers: overLimitNumbers,
  }),
  'heat-not-counted': findingSpec({
    meaning: 'Heat is set over a cure and cannot be given.',
    severity: ['stop', 'note'],
    unsafe: null,
    ...NO_LEVER,
    words: notCountedWords,
  }),
  'heat-ramp-fast': findingSpec({
    meaning: 'A tent or oven is to rise faster than a laminate takes without strain.',
    severity: 'warn',
    unsafe: 'cure',
    ...NO_LEVER,
    words: (a: { cure: string; rampKPerHour: number; mostKPerHour: number }) =>
      `${a.cure}: heat rises ${plain(a.rampKPerHour)} °C an hour; over ${plain(a.mostKPerHour)} the ` +
      'outside gets hotter than the inside and the laminate strains. Heat it more slowly.',
    numbers: ({ rampKPerHour, mostKPerHour }) => ({ rampKPerHour, mostKPerHour }),
  }),
  'pot-runaway': findingSpec({
    meaning: 'A batch may run hot in its cup.',
    severity: ['warn', 'note'],
    unsafe: 'cure',
    ...NO_LEVER,
    waysOut: 'own',
    words: (a: {
      cure: string;
      massG: number;
      potLifeMinutes: number;
      spreadMinutes: number;
      peakC: number;
      largestG: number;
      /** Batches that would be spread in time, and how many more they are. */
      smaller: { readonly massG: number; readonly more: number } | null;
    }) =>
      `${a.cure}: a batch of ${plain(a.massG, 0)} g stays workable ` +
      `${elapsed(a.potLifeMinutes)} and takes ${elapsed(a.spreadMinutes)} to spread; ` +
      `left in its cup it reaches ${plain(a.peakC, 0)} °C. ` +
      (a.smaller
        ? `Batches of ${plain(a.smaller.massG, 0)} g, ${a.smaller.more} more of them, are spread in time; or take `
        : 'Smaller batches are not worth mixing: ') +
      'more hands, a shallow tray or a slower hardener. A hot cup goes outside, on concrete, no lid.',
    numbers: (a) => ({
      massG: Math.round(a.massG),
      peakC: Math.round(a.peakC),
      largestG: Math.round(a.largestG),
      ...(a.smaller && {
        smallerG: Math.max(10, Math.floor(a.smaller.massG)),
        moreBatches: a.smaller.more,
      }),
    }),
  }),
  'stack-too-hot': findingSpec({
    meaning: 'A thick layup may cook core or mould.',
    severity: 'stop',
    unsafe: 'cure',
    ...NO_LEVER,
    words: (a: { cure: string; layer: string; zone: string; peakC: number; limitC: number }) =>
      `${a.cure}: reaction heat brings ${a.layer} in ${a.zone} to ${plain(a.peakC, 0)} °C; it takes ` +
      `${plain(a.limitC, 0)} °C at most. Cure in two steps, or use a slower hardener.`,
    numbers: (a) => ({ peakC: Math.round(a.peakC), limitC: a.limitC }),
  }),
} as const;

export const HEAT_LEVERS = {
  'small-batches': offers({
    label: (a: { leastG: number; more: number }) =>
      `Mix batches down to ${a.leastG} g, ${a.more} more of them`,
    sideEffects: (a) => [
      `${plural(a.more, 'more cup')} to weigh: scales that read to 0.1 g, and no cup left standing.`,
    ],
  }),
  'warm-nights': offers({
    label: (a: { dayC: number }) => `Hold ${exact(a.dayC)} °C through the night`,
    sideEffects: () => ['Heating runs all night; an unvented gas heater makes blush likely.'],
  }),
  'warmer-room': offers({
    label: (a: { dayC: number; nightC: number }) =>
      `Heat the room to ${exact(a.dayC)} °C, night ${exact(a.nightC)} °C`,
    sideEffects: () => ['Pot life and open time shrink as well: check that the layup still fits.'],
  }),
  'held-room': offers({
    label: (a: { temperatureC: number }) =>
      `Hold the room at ${plain(a.temperatureC)} °C or more, day and night`,
    sideEffects: () => [
      'Heating runs all night and over weekends, from now until the part is done; an unvented gas heater ' +
        'makes blush likely.',
      'Bring the mould up to it before the first mix, and keep a thermometer on the mould.',
    ],
  }),
  'heated-tent': offers({
    label: (a: { maxC: number }) => `Put up a heated tent, up to ${exact(a.maxC)} °C`,
    sideEffects: () => ['Makes the post-cure possible; it takes its own day or night.'],
  }),
  'layup-tent': offers({
    label: (a: { layup: string; temperatureC: number; hours: number; hired: boolean }) =>
      `Tent at ${plain(a.temperatureC, 0)} °C over the ${a.layup.toLowerCase()}`,
    sideEffects: (a) => [
      `${elapsed(a.hours * 60)} of heat from the sealed bag on: the gel comes sooner, and the mould ` +
        'grows under a part that does not.',
      ...(a.hired ? ['A tent has to be hired and set up first.'] : []),
    ],
  }),
} as const;
