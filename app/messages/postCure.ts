/** Sentences about the post-cure in the plan and the ways of it that are not taken. */
import { tgLimitText } from './tg.ts';
import { heatWords, type Heat, type Limit, type Wanted } from './tooSoft.ts';
import { capital, elapsed, listed, moneyWords, plain } from './words.ts';

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

export function plannedWords(a: Planned): string {
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
