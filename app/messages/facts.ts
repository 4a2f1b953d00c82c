/** The single facts of a plan that a person could change: what stands in a list of those that do not go together. */
import type { Minute } from '../time/instant.ts';
import { obstacleWords, type ObstacleArgs } from './obstacles.ts';
import { relationWords, type RelationReason } from './relations.ts';
import { dayAndTime, hoursText } from './words.ts';

/** One fact, in plain values; stages, people and gear by name. */
export type Fact =
  /** `minutes`: null where the stage never ends. */
  | { readonly what: 'length'; readonly stage: string; readonly minutes: number | null }
  | { readonly what: 'window'; readonly why: RelationReason }
  | { readonly what: 'not-before'; readonly stage: string; readonly at: Minute }
  | { readonly what: 'pinned'; readonly stage: string; readonly at: Minute }
  | { readonly what: 'done-by'; readonly stage: string; readonly at: Minute }
  /** Whose hours, and the reasons for which they are shorter than the week. None: work that is open to all. */
  | { readonly what: 'hours'; readonly of: readonly string[]; readonly away: readonly string[] }
  | {
      readonly what: 'busy';
      readonly job: string;
      readonly resource: string;
      readonly start: Minute;
      readonly end: Minute;
    }
  | { readonly what: 'capacity'; readonly resource: string; readonly amount: number }
  | { readonly what: 'air' }
  /** An order of the shop's own; `most`: so late at most, and not so late at least. */
  | {
      readonly what: 'order';
      readonly from: string;
      readonly to: string;
      readonly most: boolean;
      readonly minutes: number;
    }
  | { readonly what: 'all-done-by'; readonly at: Minute }
  | { readonly what: 'now'; readonly at: Minute }
  /** The data contradict themselves, whatever is planned. */
  | { readonly what: 'obstacle'; readonly obstacle: ObstacleArgs };

/** Most reasons of an absence that are named. */
const MOST_AWAY = 3;

/** ` (without Easter Monday on Mon 29 Mar and 2 more)`: why the hours are shorter than the week. */
function awayText(away: readonly string[]): string {
  if (away.length === 0) return '';
  const more = away.length > MOST_AWAY ? [`${away.length - MOST_AWAY} more`] : [];
  return ` (without ${[...away.slice(0, MOST_AWAY), ...more].join(' and ')})`;
}

/**
 * The fact without a capital, for a list.
 * @param zone IANA zone in which moments are written
 */
export function factWords(fact: Fact, zone: string): string {
  switch (fact.what) {
    case 'length':
      return fact.minutes === null
        ? `${fact.stage} has to be done`
        : `${fact.stage} takes ${hoursText(fact.minutes)}`;
    case 'window':
      return relationWords(fact.why);
    case 'not-before':
      return `${fact.stage} not before ${dayAndTime(fact.at, zone)}`;
    case 'pinned':
      return `${fact.stage} is fixed for ${dayAndTime(fact.at, zone)}`;
    case 'done-by':
      return `${fact.stage} has to be done by ${dayAndTime(fact.at, zone)}`;
    case 'hours':
      return fact.of.length === 0
        ? 'the hours in which the work is open'
        : `the hours of ${fact.of.join(' and ')}${awayText(fact.away)}`;
    case 'busy': {
      const [from, until] = [dayAndTime(fact.start, zone), dayAndTime(fact.end, zone)];
      return `${fact.job} has the ${fact.resource} from ${from} until ${until}`;
    }
    case 'capacity':
      return `${fact.resource}: ${fact.amount}`;
    case 'order':
      return fact.most
        ? `${fact.to} at most ${hoursText(fact.minutes)} after ${fact.from}`
        : `${fact.to} at least ${hoursText(fact.minutes)} after ${fact.from}`;
    case 'air':
      return 'dust, wet layup, release and spraying take turns in one room';
    case 'all-done-by':
      return `all is done by ${dayAndTime(fact.at, zone)}`;
    case 'now':
      return `nothing starts before ${dayAndTime(fact.at, zone)}`;
    case 'obstacle':
      return obstacleWords(fact.obstacle);
  }
}
