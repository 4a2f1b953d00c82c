/** What would bring wet work into the open time of its resin, with its hours and its price. */
import { plural } from '../units/words.ts';
import { elapsed, roundMoney } from './words.ts';

export type OpenTimeWay = { readonly minutes: number; readonly costMinor: number } & (
  | { readonly way: 'helpers'; readonly more: number }
  | { readonly way: 'parts'; readonly parts: number; readonly moreMinutes: number }
);

export function openTimeWayWords(way: OpenTimeWay | null, currency: string): string {
  if (way === null) return 'More people do not help: use a hardener that stays open longer.';
  const price = `about ${roundMoney(way.costMinor, currency)}`;
  if (way.way === 'helpers') {
    const hands = way.more === 1 ? 'one more pair of hands' : `${way.more} more pairs of hands`;
    return `With ${hands} from first mix on it is down in ${elapsed(way.minutes)}: ${price} in wages.`;
  }
  return (
    `In ${way.parts} parts with staggered overlaps each is down in ${elapsed(way.minutes)}: ` +
    `${plural(way.parts - 1, 'more bag')}, each with its cure, ${elapsed(way.moreMinutes)} more work, ${price} in wages.`
  );
}
