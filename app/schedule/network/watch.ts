/**
 * Who watches a bag: one person in their hours, or two who hand the watch over. What must not be broken is
 * the watch over the bag, not one person's day.
 */
import { memoByAll } from '../../document/memo.ts';
import { modeId, resourceId } from '../../document/ids.ts';
import { unite } from '../../time/calendar.ts';
import type { Calendar } from '../../time/instant.ts';
import type { Mode } from '../problem.ts';
import type { NetworkInput } from './input.ts';

/** Two people and the hours in which one of them is there. */
export interface Handover {
  readonly people: readonly [string, string];
  readonly hours: Calendar;
}

type People = Pick<NetworkInput, 'personHours' | 'personOvertime'>;

/** Most people of whom every pair is looked at; in a larger crew only neighbours in the list. */
const LARGEST_FULL_CREW = 4;

/** Hours of each person, those in which they may stay included. */
export const hoursOfEach = ({ personHours, personOvertime = {} }: People): [string, Calendar][] =>
  Object.entries(personHours).map(([id, own]) => {
    const stays = personOvertime[id];
    return [id, stays ? unite(own, stays) : own];
  });

const known = memoByAll<Handover[]>();
const NOBODY = {};

/** Pairs whose hours meet, so that together they are there for longer than either. */
export const handovers = (people: People): Handover[] =>
  known([people.personHours, people.personOvertime ?? NOBODY], '', () => pairsOf(people));

function pairsOf(people: People): Handover[] {
  const hours = hoursOfEach(people);
  return hours.flatMap(([a, one], i) =>
    hours.slice(i + 1).flatMap(([b, other], k): Handover[] => {
      if (k > 0 && hours.length > LARGEST_FULL_CREW) return [];
      const together = unite(one, other);
      const longer = together.filter(
        (span) => !holds(one, span.start, span.end) && !holds(other, span.start, span.end),
      );
      return longer.length > 0 ? [{ people: [a, b], hours: longer }] : [];
    }),
  );
}

const holds = (calendar: Calendar, start: number, end: number): boolean =>
  calendar.some((span) => span.start <= start && end <= span.end);

/** A mode for each pair that hands over: both are kept free for it. */
export const handoverModes = (people: People, minutes: number): Mode[] =>
  handovers(people).map(({ people: pair, hours }) => ({
    id: modeId({ by: 'handover', people: pair }),
    uses: pair.map((person) => ({
      resource: resourceId({ kind: 'person', person }),
      amount: 1,
    })),
    calendar: hours,
    length: { kind: 'work', minutes, unbroken: true },
  }));
