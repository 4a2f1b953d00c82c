/** Messages about bake, service and post-cure against what everything on the part stands. */
import { plannedWords } from './postCure.ts';
import { offers, rounded, findingSpec } from './spec.ts';
import { tooSoftNumbers, tooSoftWords } from './tooSoft.ts';
import { elapsed, listed, plain } from './words.ts';

const quoted = (names: readonly string[]): string =>
  listed(names.map((name) => `‘${name.toLowerCase()}’`));

export const PART_HEAT_FINDINGS = {
  'paint-over-tg': findingSpec({
    meaning: 'A bake is hotter than something on the part will stand.',
    severity: ['stop', 'warn'],
    unsafe: 'paint',
    dependsOn: 'document',
    waysOut: 'levers',
    saidByChoice: false,
    words: tooSoftWords,
    numbers: tooSoftNumbers,
  }),
  'service-over-tg': findingSpec({
    meaning: 'Service is hotter than something on the part will stand.',
    severity: 'warn',
    unsafe: null,
    dependsOn: 'document',
    waysOut: 'levers',
    saidByChoice: false,
    words: tooSoftWords,
    numbers: tooSoftNumbers,
  }),
  'post-cure-planned': findingSpec({
    meaning: 'A post-cure is in the plan because the bake or service needs it.',
    severity: 'note',
    unsafe: null,
    dependsOn: 'document',
    waysOut: 'none',
    saidByChoice: false,
    words: plannedWords,
    numbers: (a) => ({
      neededTgC: a.neededTgC,
      tgC: rounded(a.tgC),
      bakeC: a.bakeC,
      withTgC: rounded(a.withTgC),
      costMinor: a.costMinor,
    }),
  }),
  'filler-softens': findingSpec({
    meaning: 'Fairing filler or primer is softer than the heat that comes after it.',
    severity: 'warn',
    unsafe: null,
    dependsOn: 'document',
    waysOut: 'none',
    saidByChoice: false,
    words: (a: {
      names: readonly string[];
      standsC: number;
      hottestC: number;
      bakeC: number | null;
    }) => {
      const baked = a.bakeC === a.hottestC;
      return (
        `${baked ? 'The bake is' : 'Service reaches'} ${plain(a.hottestC)} °C; what ${quoted(a.names)} leaves ` +
        `on the part stands about ${plain(a.standsC)} °C: it sinks and prints through the paint. ` +
        (baked
          ? `Ask for a bake at ${plain(a.standsC)} °C or an air-dry finish, or take one that stands more.`
          : 'Take one that stands more.')
      );
    },
    numbers: ({ standsC, hottestC, bakeC }) => ({ standsC, hottestC, bakeC }),
  }),
  'tg-unknown': findingSpec({
    meaning: 'How hot something on the part may get is not known.',
    severity: ['warn', 'note'],
    unsafe: null,
    dependsOn: 'document',
    waysOut: 'none',
    saidByChoice: false,
    words: (a: { names: readonly string[] }) =>
      `How hot ${quoted(a.names)} may get is not known: ask its maker before anybody bakes it or ` +
      'leaves it in the sun, and write it into the library.',
    numbers: ({ names }) => ({ unknown: names.length }),
  }),
  'heat-alone': findingSpec({
    meaning: 'Heat would run while nobody is in the shop, against its own rule.',
    severity: 'stop',
    unsafe: 'cure',
    dependsOn: 'document',
    waysOut: 'levers',
    saidByChoice: false,
    words: (a: { cure: string; heatMinutes: number }) =>
      `${a.cure}: its heat runs ${elapsed(a.heatMinutes)}, and at every start it would break the shop’s rule for ` +
      'heat that runs alone. Use less heat, change the rule, or have somebody there.',
    numbers: ({ heatMinutes }) => ({ heatMinutes }),
  }),
  'mould-growth': findingSpec({
    meaning: 'A warm mould grows away from a carbon skin.',
    severity: 'warn',
    unsafe: null,
    dependsOn: 'document',
    waysOut: 'none',
    saidByChoice: false,
    words: (a: {
      cure: string;
      warmC: number;
      growthMm: number;
      limitMm: number;
      spanMm: number;
    }) =>
      `On the mould at ${plain(a.warmC)} °C under the bag of ${a.cure.toLowerCase()} the mould grows ` +
      `${plain(a.growthMm)} mm over ${Math.round(a.spanMm)} mm and carbon does not: it may lock. Cure it ` +
      'cooler, and give the rest of the heat on supports.',
    numbers: (a) => ({
      growthMm: rounded(a.growthMm),
      limitMm: a.limitMm,
      spanMm: rounded(a.spanMm),
      warmC: a.warmC,
    }),
  }),
} as const;

export const PART_HEAT_LEVERS = {
  'post-cure-heat': offers({
    label: (a: { temperatureC: number; minutes: number | null; handsMinutes: number | null }) =>
      `Hire a tent or oven for the post-cure, up to ${plain(a.temperatureC)} °C`,
    sideEffects: ({ minutes, handsMinutes }) =>
      minutes === null || handsMinutes === null
        ? []
        : [`${elapsed(minutes)} of heat and ${elapsed(handsMinutes)} of hands before fairing.`],
  }),
  'heat-alone': offers({
    label: (a: { rule: 'never' | 'nights' | 'weekends' }) =>
      a.rule === 'weekends'
        ? 'Let heat run alone through nights and closed days'
        : 'Let heat run alone through a night',
    sideEffects: () => [
      'Only behind an over-temperature cut-out and a logger, with somebody on call; ask the insurer first.',
    ],
  }),
  'air-dry': offers({
    label: (a: { party: string; extraDays: number }) => `Agree an air-dry finish with ${a.party}`,
    sideEffects: ({ party, extraDays }) => [
      `${plain(extraDays)} working ${extraDays === 1 ? 'day' : 'days'} more at ${party}, a softer coat for ` +
        'some weeks; to be agreed in writing.',
    ],
  }),
} as const;
