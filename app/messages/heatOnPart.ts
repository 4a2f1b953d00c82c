/** Messages about bake, service and post-cure against what everything on the part stands. */
import { offers, rounded, findingSpec } from './spec.ts';
import { tgLimitText } from './tg.ts';
import { capital, elapsed, listed, moneyWords, plain } from './words.ts';

/** What the part goes through once it is built. */
type Heat =
  | { readonly kind: 'bake'; readonly name: string; readonly temperatureC: number }
  | { readonly kind: 'service'; readonly temperatureC: number };

const heatWords = (heat: Heat): string =>
  heat.kind === 'bake'
    ? `${heat.name} bakes at ${plain(heat.temperatureC)} °C`
    : `Service reaches ${plain(heat.temperatureC)} °C`;

/** A post-cure that would do, C and minutes. */
interface Wanted {
  readonly holdC: number;
  readonly minutes: number;
}

type Limit = 'resin' | 'mould' | 'core' | 'tent';

/** What keeps the part from standing more. */
export type TgLimitReason =
  /** The edge is closed between two visits, past any post-cure. */
  | { readonly why: 'late' }
  /** A post-cure is in the plan and brings no more. */
  | { readonly why: 'planned' }
  | { readonly why: 'tent'; readonly tentMaxC: number | null; readonly wanted: Wanted | null }
  | { readonly why: 'hours'; readonly wanted: Wanted | null }
  | { readonly why: 'locks'; readonly wanted: Wanted | null }
  | {
      readonly why: 'limit';
      readonly limit: Limit;
      readonly wantedC: number;
      readonly limitC: number;
    };

const wantedWords = (wanted: Wanted | null): string =>
  wanted === null
    ? ''
    : `A post-cure of ${elapsed(wanted.minutes)} to ${plain(wanted.holdC, 0)} °C before fairing would mend it, but `;

/** @param dry '' where nobody bakes: no finish dries otherwise then */
function tgLimitWords(no: TgLimitReason, dry: string): string {
  switch (no.why) {
    case 'late':
      return `The edge is closed between two visits, past any post-cure: close it before the first${dry}.`;
    case 'planned':
      return `The post-cure of the plan brings no more: take another hardener${dry}.`;
    case 'tent': {
      const tent =
        no.tentMaxC === null
          ? 'there is neither tent nor oven'
          : `the tent stops at ${plain(no.tentMaxC)} °C`;
      const hire = dry === '' ? 'hire the heat or' : 'hire the heat,';
      return `${capital(`${wantedWords(no.wanted)}${tent}`)}: ${hire} take another hardener${dry}.`;
    }
    case 'hours': {
      const rule = 'no start of it keeps the shop’s rule for heat that runs alone';
      return `${capital(`${wantedWords(no.wanted)}${rule}`)}: change the rule or the hours${dry}.`;
    }
    case 'locks':
      return `${capital(`${wantedWords(no.wanted)}the mould would lock the part`)}${dry}.`;
    case 'limit': {
      const what =
        no.limit === 'resin' ? 'this resin reaches no more than' : `the ${no.limit} takes`;
      const more = no.limit === 'resin' ? '' : ` and it would want ${plain(no.wantedC, 0)} °C`;
      return `No post-cure gets there: ${what} ${plain(no.limitC, 0)} °C${more}. Take another hardener${dry}.`;
    }
  }
}

/** What is too soft, weakest first. */
interface TooSoft {
  readonly heat: Heat;
  readonly weakest: string;
  readonly tgC: number;
  readonly others: readonly string[];
  /** The room by day, C: a Tg below it is told without a number. */
  readonly roomC: number;
  readonly neededTgC: number;
  readonly bakeC: number | null;
  readonly no: TgLimitReason;
}

/** 'Alder bakes at 60 °C; closeout will stand about 47 °C, and inner skin too little as well. …' */
function tooSoftWords({ heat, weakest, tgC, others, roomC, no }: TooSoft): string {
  const first = `${weakest.toLowerCase()} ${tgLimitText(tgC, roomC)}`;
  const names = others.map((name) => name.toLowerCase());
  const short = names.length === 0 ? first : `${first}, and ${listed(names)} too little as well`;
  const dry = heat.kind === 'bake' ? ', or ask for an air-dry finish' : '';
  return `${heatWords(heat)}; ${short}. ${tgLimitWords(no, dry)}`;
}

const tooSoftNumbers = ({ neededTgC, tgC, bakeC }: TooSoft) => ({
  neededTgC,
  tgC: rounded(tgC),
  bakeC,
});

type Way = 'mould' | 'supports' | 'twice';

const WAY_WORDS: Readonly<Record<Way, string>> = {
  mould: 'on the mould',
  supports: 'once on supports',
  twice: 'on the mould and again on supports',
};

/** A way that is not taken, and why. */
export type OtherWay = { readonly way: Way } & (
  | { readonly why: 'dearer'; readonly costMinor: number }
  | { readonly why: 'locks'; readonly growthMm: number; readonly heldC: number }
  | { readonly why: 'hours' }
  | {
      readonly why: 'limit';
      readonly limit: Limit;
      readonly wantedC: number;
      readonly limitC: number;
    }
);

function otherWords(other: OtherWay, currency: string): string {
  const way = WAY_WORDS[other.way];
  switch (other.why) {
    case 'dearer':
      return `${way} ${moneyWords(other.costMinor, currency)}`;
    case 'locks':
      return `${way} the mould would grow ${plain(other.growthMm)} mm at ${plain(other.heldC, 0)} °C and may lock a carbon part`;
    case 'hours':
      return `${way} no start keeps the shop’s rule for heat that runs alone`;
    case 'limit':
      if (other.limit === 'resin') return `${way} the resin reaches ${plain(other.limitC, 0)} °C`;
      return `${way} the ${other.limit} takes ${plain(other.limitC, 0)} °C and it would want ${plain(other.wantedC, 0)} °C`;
  }
}

interface Planned {
  readonly heat: Heat;
  readonly roomC: number;
  /** Weakest without the post-cure. */
  readonly before: string;
  readonly tgC: number;
  /** Weakest with it. */
  readonly after: string;
  readonly withTgC: number;
  readonly neededTgC: number;
  readonly bakeC: number | null;
  readonly runs: readonly (Wanted & { readonly place: 'mould' | 'supports' })[];
  readonly way: Way;
  readonly costMinor: number;
  readonly others: readonly OtherWay[];
  readonly currency: string;
}

function plannedWords(a: Planned): string {
  const runs = a.runs.map(
    ({ place, minutes, holdC }) =>
      `${elapsed(minutes)} to ${plain(holdC, 0)} °C ` +
      (place === 'mould' ? 'on the mould before demould' : 'on supports after the last cure'),
  );
  const own = `${capital(WAY_WORDS[a.way])} it costs ${moneyWords(a.costMinor, a.currency)} in hands, heat and days`;
  const others = a.others.map((other) => otherWords(other, a.currency));
  return (
    `${heatWords(a.heat)}; without heat ${a.before.toLowerCase()} ${tgLimitText(a.tgC, a.roomC)}. ` +
    `In the plan, before fairing: a post-cure of ${listed(runs)}. Then the weakest, ` +
    `${a.after.toLowerCase()}, ${tgLimitText(a.withTgC, a.roomC)}. ${[own, ...others].join('; ')}.`
  );
}

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
    severity: 'note',
    unsafe: null,
    dependsOn: 'document',
    waysOut: 'none',
    saidByChoice: false,
    words: (a: { names: readonly string[] }) =>
      `How hot ${quoted(a.names)} may get is not known: ask its maker before anybody bakes, and write ` +
      'it into the library.',
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
      `${a.cure}: its heat runs ${elapsed(a.heatMinutes)}, and no start of it keeps the shop’s rule for ` +
      'heat that runs alone. Take less heat, change the rule, or have somebody there.',
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
