/** Why a stage starts at another moment than the printed plan says. */
import type { Minute } from '../time/instant.ts';
import { relationWords, type RelationReason, type StartReason } from './relations.ts';
import { listed } from './words.ts';

/** What hinders the printed moment now. Names, not ids. */
export type MoveReason =
  /** Its printed moment is past, and nothing is written down of it. */
  | { readonly kind: 'past' }
  | { readonly kind: 'pinned' }
  /** By the stage at the other end of a rule: written down, moved as well, or neither. */
  | {
      readonly kind: 'recorded' | 'waits' | 'rule';
      readonly other: string;
      readonly why: RelationReason;
    }
  | { readonly kind: 'taken'; readonly what: string; readonly others: readonly string[] }
  | { readonly kind: 'air'; readonly other: string }
  | { readonly kind: 'hours' }
  | { readonly kind: 'start'; readonly why: StartReason }
  | { readonly kind: 'not-before' }
  /** Nothing hinders it alone: the rest of the plan has it there. */
  | { readonly kind: 'plan' };

export interface Move {
  readonly stage: string;
  readonly from: Minute;
  readonly to: Minute;
  readonly why: MoveReason;
}

/** The reason in one short sentence. */
export function moveWords(why: MoveReason): string {
  switch (why.kind) {
    case 'past':
      return 'Its printed hour is past, and nothing is written down of it.';
    case 'pinned':
      return 'Its start is fixed by hand.';
    case 'recorded':
      return `“${why.other}” did not go as printed: ${relationWords(why.why)}.`;
    case 'waits':
      return `“${why.other}” has moved too: ${relationWords(why.why)}.`;
    case 'rule':
      return `It no longer goes with “${why.other}”: ${relationWords(why.why)}.`;
    case 'taken':
      return `${why.what} is needed by ${listed(why.others.map((one) => `“${one}”`))} then.`;
    case 'air':
      return `“${why.other}” and its dust or vapour are in the room then.`;
    case 'hours':
      return 'Nobody who can do it is in the shop then, or it would not be done before a break.';
    case 'start':
      return `If it began then, this would not be kept: ${relationWords(why.why)}.`;
    case 'not-before':
      return 'It may not begin before its own first day.';
    case 'plan':
      return 'Nothing stops it at its printed time: here it fits better with the other stages.';
  }
}
