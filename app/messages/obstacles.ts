/** Why a stage finds no place in any plan. */
import { relationWords, type RelationReason } from './relations.ts';
import { hoursText } from './words.ts';

/** What stands in the way, in plain values. */
export type ObstacleArgs =
  | { readonly what: 'nobody-can'; readonly stage: string }
  | {
      readonly what: 'too-little';
      readonly stage: string;
      readonly needs: number;
      readonly of: string;
      readonly there: number;
    }
  | {
      readonly what: 'keeps-too-much';
      readonly stage: string;
      readonly keeps: number;
      readonly of: string;
      readonly until: string;
    }
  | { readonly what: 'gear-in-a-ring'; readonly stage: string }
  | { readonly what: 'nobody-in'; readonly stage: string }
  | {
      readonly what: 'stretch-too-short';
      readonly stage: string;
      readonly needsMinutes: number;
      readonly longestMinutes: number;
    }
  | { readonly what: 'never-ends'; readonly stage: string }
  | { readonly what: 'waits-for-ever'; readonly stage: string }
  | { readonly what: 'beyond-calendar'; readonly stage: string }
  /** Stages that wait for one another; the first stands again at the end. */
  | { readonly what: 'ring'; readonly stages: readonly string[] }
  | {
      readonly what: 'too-far-apart';
      readonly why: RelationReason;
      readonly from: string;
      readonly to: string;
    }
  | {
      readonly what: 'lags-cross';
      readonly from: string;
      readonly to: string;
      readonly mostMinutes: number;
      readonly leastMinutes: number;
    }
  /** No order of the stages keeps every window; or none was found. */
  | { readonly what: 'no-order'; readonly proven: boolean };

/** The obstacle in one sentence. */
export function obstacleWords(a: ObstacleArgs): string {
  switch (a.what) {
    case 'nobody-can':
      return `Nobody can do ${a.stage}.`;
    case 'too-little':
      return `${a.stage} needs ${a.needs} of ${a.of}; there is ${a.there}.`;
    case 'keeps-too-much':
      return `${a.stage} has to keep ${a.keeps} of ${a.of} until ${a.until} is done.`;
    case 'gear-in-a-ring':
      return `${a.stage} waits for gear that is kept by stages which wait for it.`;
    case 'nobody-in':
      return `Nobody is in on any day for ${a.stage}.`;
    case 'stretch-too-short':
      return (
        `${a.stage} needs ${hoursText(a.needsMinutes)} in one stretch; the longest open stretch is ` +
        `${hoursText(a.longestMinutes)}.`
      );
    case 'never-ends':
      return `${a.stage} never ends at this temperature.`;
    case 'waits-for-ever':
      return `What ${a.stage} waits for never ends.`;
    case 'beyond-calendar':
      return `${a.stage} finds no place before the end of the plan's calendar.`;
    case 'ring':
      return `Each waits for the one before it: ${a.stages.join(', then ')}.`;
    case 'too-far-apart':
      return `${relationWords(a.why)}: ${a.from} and ${a.to} cannot be brought close enough.`;
    case 'lags-cross':
      return (
        `${a.to} has to begin at most ${hoursText(a.mostMinutes)} and at least ` +
        `${hoursText(a.leastMinutes)} after ${a.from}: the greatest lag is below the least.`
      );
    case 'no-order':
      return a.proven
        ? 'No order of the stages keeps every window with the people and gear there are.'
        : 'No order of the stages was found that keeps every window.';
  }
}
