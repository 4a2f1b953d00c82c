/** Sentences about what is too soft for a bake or for service, and what keeps it from standing more. */
import { rounded } from './spec.ts';
import { tgLimitText } from './tg.ts';
import { capital, elapsed, listed, plain } from './words.ts';

/** What the part goes through once it is built. */
export type Heat =
  | { readonly kind: 'bake'; readonly name: string; readonly temperatureC: number }
  | { readonly kind: 'service'; readonly temperatureC: number };

export const heatWords = (heat: Heat): string =>
  heat.kind === 'bake'
    ? `${heat.name} bakes at ${plain(heat.temperatureC)} °C`
    : `Service reaches ${plain(heat.temperatureC)} °C`;

/** A post-cure that would do, C and minutes. */
export interface Wanted {
  readonly holdC: number;
  readonly minutes: number;
}

export type Limit = 'resin' | 'cure' | 'sheet' | 'mould' | 'core' | 'tent';

/** What keeps the part from standing more. */
export type TgLimitReason =
  /** The edge is closed between two visits, past any post-cure. */
  | { readonly why: 'late' }
  /** A post-cure is in the plan and brings no more. */
  | { readonly why: 'planned' }
  | { readonly why: 'tent'; readonly tentMaxC: number | null; readonly wanted: Wanted | null }
  | { readonly why: 'hours'; readonly wanted: Wanted | null }
  | { readonly why: 'locks'; readonly wanted: Wanted | null }
  | ({ readonly why: 'limit' } & NoPostCure);

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
      const rule = 'every start of it would break the shop’s rule for heat that runs alone';
      return `${capital(`${wantedWords(no.wanted)}${rule}`)}: change the rule or the hours${dry}.`;
    }
    case 'locks':
      return `${capital(`${wantedWords(no.wanted)}the mould would lock the part`)}${dry}.`;
    case 'limit':
      return `${noPostCureWords(no)} ${noPostCureWays(no.limit)}${dry}.`;
  }
}

/** A post-cure that cannot be done: what stands in the way, and how hot it lets the part get, C. */
export interface NoPostCure {
  readonly limit: Limit;
  readonly wantedC: number;
  readonly limitC: number;
}

/** Why no post-cure brings what is needed, as finding and screen say it. */
export function noPostCureWords({ limit, wantedC, limitC }: NoPostCure): string {
  switch (limit) {
    case 'resin':
      return `No post-cure gets there: this resin reaches no more than ${plain(limitC, 0)} °C.`;
    case 'cure':
      return (
        'No post-cure gets there: heat has to stay below what the part stands by then, and it has cured ' +
        `so little that heat cannot rise above ${plain(limitC, 0)} °C. Until it has been post-cured it takes ` +
        'neither bake nor sun.'
      );
    case 'sheet':
      return (
        'No post-cure is planned: the sheet gives no Tg, so what heat would bring is not known. Ask the ' +
        'maker for the Tg and the post-cure that gives it, and write both into the library.'
      );
    default:
      return (
        `No post-cure gets there: the ${limit} takes ${plain(limitC, 0)} °C and it would want ` +
        `${plain(wantedC, 0)} °C.`
      );
  }
}

/** What to do then; the end of its sentence is open. */
export const noPostCureWays = (limit: Limit): string =>
  limit === 'cure'
    ? 'Cure it warmer under its bag first, or take another hardener'
    : limit === 'sheet'
      ? 'Or take another hardener'
      : 'Take another hardener';

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
export function tooSoftWords({ heat, weakest, tgC, others, roomC, no }: TooSoft): string {
  const first = `${weakest.toLowerCase()} ${tgLimitText(tgC, roomC)}`;
  const names = others.map((name) => name.toLowerCase());
  const short = names.length === 0 ? first : `${first}, and ${listed(names)} too little as well`;
  const dry = heat.kind === 'bake' ? ', or ask for an air-dry finish' : '';
  return `${heatWords(heat)}; ${short}. ${tgLimitWords(no, dry)}`;
}

export const tooSoftNumbers = ({ neededTgC, tgC, bakeC }: TooSoft) => ({
  neededTgC,
  tgC: rounded(tgC),
  bakeC,
});
