/** What does not go together in the floor's records: faults that are not taken, and questions to be answered. */
import type { Minute } from '../time/instant.ts';
import { dayAndTime, elapsed } from './words.ts';

/** One thing that is wrong with a record, or that is asked before it is taken. Names, not ids. */
export type RecordDoubt =
  | { readonly code: 'ends-before-start'; readonly start: Minute; readonly end: Minute }
  | { readonly code: 'shown-twice'; readonly first: Minute; readonly second: Minute }
  | { readonly code: 'in-the-future'; readonly at: Minute; readonly now: Minute }
  | {
      readonly code: 'two-places';
      readonly person: string;
      readonly other: string;
      readonly from: Minute;
      readonly until: Minute;
    }
  | {
      readonly code: 'recorded-before';
      readonly start: Minute;
      readonly end: Minute | null;
    }
  | { readonly code: 'before-its-turn'; readonly other: string; readonly ended: Minute }
  | { readonly code: 'still-going'; readonly other: string; readonly since: Minute }
  | { readonly code: 'too-early'; readonly at: Minute; readonly from: Minute }
  | { readonly code: 'not-in-plan' };

export type DoubtCode = RecordDoubt['code'];

/** A fault is not taken; a question is taken once somebody has said yes to it. */
export const DOUBT_KIND: Readonly<Record<DoubtCode, 'fault' | 'question'>> = {
  'ends-before-start': 'fault',
  'shown-twice': 'question',
  'in-the-future': 'question',
  'two-places': 'question',
  'recorded-before': 'question',
  'before-its-turn': 'question',
  'still-going': 'question',
  'too-early': 'question',
  'not-in-plan': 'question',
};

/** A sentence about one doubt, with the stage's name. */
export function doubtWords(doubt: RecordDoubt, stage: string, zone: string): string {
  const at = (minute: Minute) => dayAndTime(minute, zone);
  const name = `“${stage}”`;
  switch (doubt.code) {
    case 'ends-before-start':
      return `${name} would end ${at(doubt.end)}, before it begins ${at(doubt.start)}. One of the two is wrong.`;
    case 'shown-twice':
      return `${name}: the clocks go back, and ${at(doubt.first)} is shown twice, ${elapsed(doubt.second - doubt.first)} apart. It is taken for the first. Was it the second?`;
    case 'in-the-future':
      return `${name}: ${at(doubt.at)} is still ${elapsed(doubt.at - doubt.now)} away. Has it happened?`;
    case 'two-places':
      return `${doubt.person} is written down for ${name} and for “${doubt.other}” at once, ${at(doubt.from)} to ${at(doubt.until)}. Who did which?`;
    case 'recorded-before':
      return doubt.end === null
        ? `${name} is written down already, begun ${at(doubt.start)}. Does this correct it?`
        : `${name} is written down already, ${at(doubt.start)} to ${at(doubt.end)}. Does this correct it?`;
    case 'before-its-turn':
      return `${name} would begin before “${doubt.other}” had ended (${at(doubt.ended)}). Was it so?`;
    case 'still-going':
      return `“${doubt.other}” is written down as begun ${at(doubt.since)} and not as ended. ${name} comes after it: when did it end?`;
    case 'too-early':
      return `${name} ${at(doubt.at)}: by the resin’s clock not before ${at(doubt.from)}. Only a witness smear that snaps and takes no nail mark may say otherwise. Was it so?`;
    case 'not-in-plan':
      return `${name} is in no plan of this build as it is now. Write it down all the same?`;
  }
}
