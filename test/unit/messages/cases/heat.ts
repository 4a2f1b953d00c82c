/** What is told of bake, service and post-cure against what the part stands. */
import type { Build } from '../../../../app/document/schema.ts';
import { LIBRARY, ROOMY, withPart, withZone } from '../../judge/builds.ts';
import { DAY, room, under, WARM_TENT, type FindingCase } from './case.ts';

const baked = (bakeC: number): Build => ({
  ...ROOMY,
  outside: [{ id: 'paint', name: 'Spray shop', workingDays: 3, bakeC }],
});

const CARBON = { cloth: 'carbon-twill-200' };
const LONG_CARBON = {
  outer: [CARBON, CARBON],
  inner: [CARBON],
  sizeM: [2, 0.6] as [number, number],
  areaM2: 1.2,
};

const LONG_HEAT = [
  { layup: 'skin', steps: [{ temperatureC: 40, rampKPerHour: 10, holdHours: 30 }] },
];

/** The skim coat's limit is not known. */
const SKIM_NOT_KNOWN = {
  ...LIBRARY,
  finishing: LIBRARY.finishing.map((row) =>
    row.id === 'fair-skim' ? { ...row, standsC: null } : row,
  ),
};

/** Sheets that give no Tg: an assumed one makes the curve, and nobody bakes by it. */
const NO_TG = {
  ...LIBRARY,
  resins: LIBRARY.resins.map((row) => ({
    ...row,
    hardeners: row.hardeners.map((one) => ({ ...one, tgFullC: null })),
  })),
};

export const HEAT_CASES: readonly FindingCase[] = [
  {
    code: 'paint-over-tg',
    has: baked(55),
    hasNot: withPart(ROOMY, { serviceMaxC: 80 }),
    severity: 'stop',
    message:
      'Spray shop bakes at 55 °C; outer skin will stand about 50 °C, and core bond and inner skin too little as well. A post-cure of 22.3 h to 55 °C before fairing would mend it, but there is neither tent nor oven: hire the heat, take another hardener, or ask for an air-dry finish.',
    numbers: { neededTgC: 67, tgC: 49.8, bakeC: 55 },
  },
  {
    code: 'paint-over-tg',
    has: baked(45),
    hasNot: ROOMY,
    severity: 'warn',
    message:
      'Spray shop bakes at 45 °C; outer skin will stand about 50 °C, and core bond and inner skin too little as well. A post-cure of 15.8 h to 45 °C before fairing would mend it, but there is neither tent nor oven: hire the heat, take another hardener, or ask for an air-dry finish.',
    numbers: { neededTgC: 57, tgC: 49.8, bakeC: 45 },
  },
  {
    code: 'service-over-tg',
    has: withPart(ROOMY, { serviceMaxC: 80 }),
    hasNot: baked(55),
    severity: 'warn',
    message:
      'Service reaches 80 °C; outer skin will stand about 50 °C, and core bond and inner skin too little as well. No post-cure gets there: this resin reaches no more than 82 °C. Take another hardener.',
    numbers: { neededTgC: 92, tgC: 49.8, bakeC: null },
  },
  {
    code: 'post-cure-planned',
    has: withPart(room({ ...DAY, tent: { maxC: 65 } }), { serviceMaxC: 45 }),
    hasNot: ROOMY,
    severity: 'note',
    message:
      'Service reaches 45 °C; without heat outer skin will stand about 50 °C. In the plan, before fairing: a post-cure of 12 h to 37 °C on the mould before demould. Then the weakest, inner skin, will stand about 58 °C. On the mould it costs €172 in hands, heat and days; once on supports €174. The rise is reckoned from a Tg of about 38 °C at heat on, the earliest that any plan may heat: bags off by their own time, gel 12 h past. Heat on later is safe by it; sooner is not.',
    numbers: { neededTgC: 57, tgC: 49.8, bakeC: null, withTgC: 57.7, costMinor: 17200 },
  },
  {
    code: 'filler-softens',
    has: baked(55),
    hasNot: baked(45),
    severity: 'warn',
    message:
      'The bake is 55 °C; what ‘key and screed light epoxy filler’ and ‘skim coat of filler’ leaves on the part stands about 50 °C: it sinks and prints through the paint. Ask for a bake at 50 °C or an air-dry finish, or take one that stands more.',
    numbers: { standsC: 50, hottestC: 55, bakeC: 55 },
  },
  {
    code: 'tg-unknown',
    has: baked(45),
    hasNot: ROOMY,
    library: SKIM_NOT_KNOWN,
    severity: 'note',
    message:
      'How hot ‘skim coat of filler’ may get is not known: ask its maker before anybody bakes it or leaves it in the sun, and write it into the library.',
    numbers: { unknown: 1 },
  },
  {
    code: 'tg-unknown',
    has: { ...withPart(WARM_TENT, { serviceMaxC: 45 }), heat: [under(50)] },
    hasNot: { ...WARM_TENT, heat: [under(50)] },
    library: NO_TG,
    severity: 'warn',
    message:
      'How hot ‘outer skin’ may get is not known: ask its maker before anybody bakes it or leaves it in the sun, and write it into the library.',
    numbers: { unknown: 1 },
  },
  {
    code: 'paint-over-tg',
    has: { ...baked(55), room: { ...DAY, tent: { maxC: 70 } } },
    hasNot: ROOMY,
    library: NO_TG,
    severity: 'stop',
    message:
      'Spray shop bakes at 55 °C; outer skin will stand about 50 °C, and core bond and inner skin too little as well. No post-cure is planned: the sheet gives no Tg, so what heat would bring is not known. Ask the maker for the Tg and the post-cure that gives it, and write both into the library. Or take another hardener, or ask for an air-dry finish.',
    numbers: { neededTgC: 67, tgC: 49.5, bakeC: 55 },
  },
  {
    code: 'heat-alone',
    has: { ...WARM_TENT, room: { ...WARM_TENT.room, heatAlone: 'never' }, heat: LONG_HEAT },
    hasNot: { ...WARM_TENT, heat: LONG_HEAT },
    severity: 'stop',
    message:
      'Outer skin: its heat runs 31.9 h, and at every start it would break the shop’s rule for heat that runs alone. Use less heat, change the rule, or have somebody there.',
    numbers: { heatMinutes: 1914 },
  },
  {
    code: 'mould-growth',
    has: withZone({ ...WARM_TENT, heat: [under(55)] }, LONG_CARBON),
    hasNot: withZone(WARM_TENT, LONG_CARBON),
    severity: 'warn',
    message:
      'On the mould at 55 °C under the bag of outer skin the mould grows 3.7 mm over 2000 mm and carbon does not: it may lock. Cure it cooler, and give the rest of the heat on supports.',
    numbers: { growthMm: 3.7, limitMm: 1.5, spanMm: 2000, warmC: 55 },
  },
];
