/** Why a route is taken, in one sentence. */
import type { Finish } from '../document/schema.ts';
import { plural } from '../units/words.ts';
import { elapsed, listed, plain } from './words.ts';

export type TakenReason =
  /** The document names the route. */
  | { readonly why: 'chosen' }
  | { readonly why: 'only-possible' }
  /** No route fits; minutes late of this one. */
  | { readonly why: 'least-late'; readonly lateMinutes: number }
  | { readonly why: 'only-fit'; readonly possible: number }
  | {
      readonly why: 'most-apart';
      /** How many routes fit, this one with them. */
      readonly fit: number;
      /** How many of them have more gels that nobody sees. */
      readonly gelsUnseen: number;
      /** Gels of this one that nobody sees. */
      readonly ownUnseen: number;
      readonly finish: Finish;
      /** Hours of work more than the fitting route with the least; 0: it is that route. */
      readonly extraHours: number;
      /** Minutes by which the soonest fitting route ends before it; 0: it is that route. */
      readonly soonerMinutes: number;
    };

const FINISH_WORDS: Readonly<Record<Finish, string>> = {
  clear: 'a surface good for a clear finish',
  painted: 'a surface good for paint',
  hidden: 'a surface that has to be hidden',
};

/** 'Best because …', or why there was no choice. Empty where the document names the route. */
export function takenWords(reason: TakenReason): string {
  switch (reason.why) {
    case 'chosen':
      return '';
    case 'only-possible':
      return 'Taken because no other route can be done.';
    case 'least-late':
      return `Best because no route fits and this one is the least late: ${elapsed(reason.lateMinutes)}.`;
    case 'only-fit':
      return `Best because it alone fits, of ${reason.possible} that can be done.`;
    case 'most-apart': {
      const { finish, extraHours, soonerMinutes } = reason;
      const costs = [
        ...(extraHours > 0 ? [`takes ${plain(extraHours, 1)} h more work than the least`] : []),
        ...(soonerMinutes > 0 ? [`ends ${elapsed(soonerMinutes)} after the soonest`] : []),
      ];
      const price = costs.length === 0 ? 'no other is quicker or less work' : `it ${listed(costs)}`;
      const apart = `it keeps the most cures apart ${amongWords(reason)}, for the best fibre and the surest core`;
      return `Best because ${apart}. It gives ${FINISH_WORDS[finish]}; ${price}.`;
    }
  }
}

function amongWords({
  fit,
  gelsUnseen,
  ownUnseen,
}: Extract<TakenReason, { why: 'most-apart' }>): string {
  if (gelsUnseen === 0) return `of the ${fit} that fit`;
  return ownUnseen === 0
    ? `of those that fit and gel with somebody there (${gelsUnseen} of ${fit} would not)`
    : `of those that fit and have no more than ${plural(ownUnseen, 'gel')} with nobody there (${gelsUnseen} of ${fit} have more)`;
}
