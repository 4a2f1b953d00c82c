/** Sentences about the post-cure in the plan and the ways of it that are not taken. */
import { tgLimitText, tgWords } from './tg.ts';
import { heatWords, type Heat, type Limit, type Wanted } from './tooSoft.ts';
import { capital, elapsed, listed, roundMoney, plain } from './words.ts';

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
      return `${way} ${roundMoney(other.costMinor, currency)}`;
    case 'locks':
      return `${way} the mould would grow ${plain(other.growthMm)} mm at ${plain(other.heldC, 0)} °C and may lock a carbon part`;
    case 'hours':
      return `${way} every start would break the shop’s rule for heat that runs alone`;
    case 'limit':
      if (other.limit === 'resin') return `${way} the resin reaches ${plain(other.limitC, 0)} °C`;
      if (other.limit === 'cure') return `${way} the part stays too soft to be heated so far`;
      if (other.limit === 'sheet') return `${way} the sheet gives no Tg`;
      return `${way} the ${other.limit} takes ${plain(other.limitC, 0)} °C and it would want ${plain(other.wantedC, 0)} °C`;
  }
}

/** What the rise of a post-cure counts on. */
export interface Rise {
  /** Weakest Tg when the heat comes on at the earliest, C; null: no curve tells it. */
  readonly beginsTgC: number | null;
  readonly afterGelHours: number;
}

/**
 * What the rise counts on, in the words that finding, screen and card share, so that nobody heats by it a
 * part that is softer.
 */
export const riseWords = ({ beginsTgC, afterGelHours }: Rise, roomC: number): string =>
  beginsTgC === null
    ? 'The sheet gives no curve: what the part stands on the way up is not known. Ask the maker for the rise; ' +
      'heat off if anything sags or prints.'
    : `The rise is reckoned from a Tg of ${tgWords(beginsTgC, roomC)} at heat on, the earliest that any plan ` +
      `may heat: bags off by their own time, gel ${plain(afterGelHours)} h past. Heat on later is safe by it; ` +
      'sooner is not.';

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
  readonly rise: Rise;
  readonly way: Way;
  readonly costMinor: number;
  readonly others: readonly OtherWay[];
  readonly currency: string;
}

export function plannedWords(a: Planned): string {
  const runs = a.runs.map(
    ({ place, minutes, holdC }) =>
      `${elapsed(minutes)} to ${plain(holdC, 0)} °C ` +
      (place === 'mould' ? 'on the mould before demould' : 'on supports after the last cure'),
  );
  const own = `${capital(WAY_WORDS[a.way])} it costs ${roundMoney(a.costMinor, a.currency)} in hands, heat and days`;
  const others = a.others.map((other) => otherWords(other, a.currency));
  return (
    `${heatWords(a.heat)}; without heat ${a.before.toLowerCase()} ${tgLimitText(a.tgC, a.roomC)}. ` +
    `In the plan, before fairing: a post-cure of ${listed(runs)}. Then the weakest, ` +
    `${a.after.toLowerCase()}, ${tgLimitText(a.withTgC, a.roomC)}. ${[own, ...others].join('; ')}. ` +
    riseWords(a.rise, a.roomC)
  );
}
