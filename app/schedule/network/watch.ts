/**
 * Who watches a bag: one person in their hours, or two who hand the watch over. What must not be broken is
 * the watch over the bag, not one person's day.
 */
import { memoByAll } from '../../document/memo.ts';
import { modeId, resourceId } from '../../document/ids.ts';
import { unite } from '../../time/calendar.ts';
import type { Calendar } from '../../time/instant.ts';
import type { AnyOf, Mode } from '../problem.ts';
import { alike } from './crew.ts';
import type { NetworkInput } from './input.ts';

/** Two people, or one each of two groups, and the hours in which one of them is there. */
export interface Handover {
  readonly people: readonly [string, string];
  /** Those who work like the first, and like the second, in a crew too large to name each. */
  readonly anyOf?: readonly AnyOf[];
  readonly hours: Calendar;
}

type People = Pick<NetworkInput, 'personHours' | 'personOvertime'>;

/** Most people who are named; in a larger crew those who work the same hours are one group. */
const LARGEST_NAMED_CREW = 4;
/** Most groups of which every pair is looked at; of more only neighbours, the largest first. */
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
  const each = hoursOfEach(people);
  const isNamed = each.length <= LARGEST_NAMED_CREW;
  const groups = isNamed ? [] : alike(people.personHours, people.personOvertime ?? NOBODY);
  const all = new Map(each);
  const hours = isNamed
    ? each
    : groups.map((group): [string, Calendar] => [group.people[0]!, all.get(group.people[0]!)!]);
  return hours.flatMap(([a, one], i) =>
    hours.slice(i + 1).flatMap(([b, other], k): Handover[] => {
      if (k > 0 && hours.length > LARGEST_FULL_CREW) return [];
      const together = unite(one, other);
      const longer = together.filter(
        (span) => !holds(one, span.start, span.end) && !holds(other, span.start, span.end),
      );
      if (longer.length === 0) return [];
      if (isNamed) return [{ people: [a, b], hours: longer }];
      const pair = [groups[i]!, groups[i + 1 + k]!];
      const anyOf = pair.map(({ resources }) => ({ people: resources, count: 1 }));
      return [{ people: [a, b], anyOf, hours: longer }];
    }),
  );
}

const holds = (calendar: Calendar, start: number, end: number): boolean =>
  calendar.some((span) => span.start <= start && end <= span.end);

/** A mode for each pair that hands over: both are kept free for it. */
export const handoverModes = (people: People, minutes: number): Mode[] =>
  handovers(people).map(({ people: pair, anyOf, hours }) => ({
    id: modeId({ by: 'handover', people: pair }),
    uses: anyOf
      ? []
      : pair.map((person) => ({ resource: resourceId({ kind: 'person', person }), amount: 1 })),
    ...(anyOf ? { anyOf } : {}),
    calendar: hours,
    length: { kind: 'work', minutes, unbroken: true },
  }));
