/** What is said of the ticks of a phone: faults of the text, and what a tick would write down. */
import type { Minute } from '../time/instant.ts';
import { dayAndTime } from './words.ts';

/** Codes of what keeps a whole text from being read. */
export type TicksFault =
  | { readonly code: 'too-long' }
  | { readonly code: 'no-ticks' }
  | { readonly code: 'other-version'; readonly found: string }
  | { readonly code: 'cut-off' }
  | { readonly code: 'wrong-sum' }
  | { readonly code: 'bad-line'; readonly line: number }
  | { readonly code: 'twice'; readonly line: number };

export function ticksFaultWords(fault: TicksFault): string {
  switch (fault.code) {
    case 'too-long':
      return 'This text is too long for the ticks of a phone. Nothing was read.';
    case 'no-ticks':
      return 'This text holds no ticks of a phone. Copy the whole text from the end of the phone pack.';
    case 'other-version':
      return `These ticks begin with “${fault.found}”: this program reads BACKCURE TICKS 1. Make a new phone pack.`;
    case 'cut-off':
      return 'The text ends before its line “sum”: a part of it is missing. Copy it again.';
    case 'wrong-sum':
      return 'The check sum does not fit: the text was changed on the way. Copy it again.';
    case 'bad-line':
      return `Line ${fault.line} of the text cannot be read. Copy it again.`;
    case 'twice':
      return `Line ${fault.line} ticks the same step a second time. Nothing was read.`;
  }
}

/** Why one tick cannot be taken. */
export type TickFault = 'already' | 'not-in-plan' | 'not-its-turn';

export const TICK_FAULT_WORDS: Readonly<Record<TickFault, string>> = {
  already: 'Is written down already. Nothing is changed by this tick.',
  'not-in-plan': 'Is in no plan of this build as it is now. It cannot be taken from here.',
  'not-its-turn': 'What comes before it at this stage is neither ticked nor written down.',
};

/** A build of another id. */
export const otherBuildWords = (theirs: string, ours: string): string =>
  `These ticks are of the build “${theirs}”, and this is “${ours}”. None of them can be taken here.`;

export const olderPlanWords = (planAt: Minute, zone: string): string =>
  `The phone pack is of an older plan (${dayAndTime(planAt, zone)}): route, stages or batches have changed since, or ` +
  'another plan was printed. Masses of batches are those of today’s plan. Were these stages done all the same?';

export const beforePackWords = (at: Minute, planAt: Minute, zone: string): string =>
  `Ticked ${dayAndTime(at, zone)}, before the phone pack was made (${dayAndTime(planAt, zone)}): the phone’s clock may be wrong. Was it so?`;
