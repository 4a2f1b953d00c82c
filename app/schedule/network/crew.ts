/** Who may do a stage together, and when they are all there. */
import type { Library } from '../../build/schema.ts';
import { crewMinutes } from '../../part/labour.ts';
import { intersect } from '../../time/calendar.ts';
import type { Calendar } from '../../time/instant.ts';
import type { Mode, Use } from '../problem.ts';

/** A set of people and the hours that all of them work. */
interface Team {
  readonly people: readonly string[];
  readonly hours: Calendar;
}

export interface Crew {
  readonly size: number;
  /** Minutes on the clock of so many person-minutes for a number of people. */
  readonly minutes: (personMinutes: number, people: number) => number;
  readonly teams: readonly Team[];
}

/** Most people of whom every set is tried; in a larger crew only neighbours in the list team up. */
const LARGEST_FULL_CREW = 4;

/** Every team of one or more of the crew. */
export function crewOf(personHours: Readonly<Record<string, Calendar>>, library: Library): Crew {
  const ids = Object.keys(personHours);
  const sets = ids.length <= LARGEST_FULL_CREW ? allSets(ids) : runs(ids);
  const teams = sets.map((people) => ({
    people,
    hours: people.map((id) => personHours[id]!).reduce((a, b) => intersect(a, b)),
  }));
  const minutes: Crew['minutes'] = (personMinutes, people) =>
    crewMinutes(personMinutes, people, library);
  return { size: ids.length, teams, minutes };
}

const allSets = (ids: readonly string[]): string[][] =>
  ids
    .reduce<string[][]>((sets, id) => [...sets, ...sets.map((set) => [...set, id])], [[]])
    .filter((set) => set.length > 0);

const runs = (ids: readonly string[]): string[][] =>
  ids.flatMap((_id, i) => ids.slice(i).map((_last, length) => ids.slice(i, i + length + 1)));

interface Work {
  readonly personMinutes: number;
  readonly peopleMin?: number;
  readonly peopleMax?: number;
  readonly unbroken?: boolean;
  readonly gear?: readonly Use[];
}

/**
 * One mode for each team of an allowed size; the work is shared evenly. A crew smaller than the
 * least number is taken as it is (and flagged elsewhere). An empty crew has no modes.
 */
export function crewModes(crew: Crew, work: Work, prefix = ''): Mode[] {
  const least = Math.min(work.peopleMin ?? 1, crew.size);
  const most = Math.max(least, Math.min(work.peopleMax ?? 1, crew.size));
  return crew.teams
    .filter((team) => team.people.length >= least && team.people.length <= most)
    .map((team) => ({
      id: prefix + team.people.join('+'),
      uses: [
        ...team.people.map((person) => ({ resource: person, amount: 1 })),
        ...(work.gear ?? []),
      ],
      calendar: team.hours,
      length: {
        kind: 'work',
        minutes: Math.max(1, Math.ceil(crew.minutes(work.personMinutes, team.people.length))),
        unbroken: work.unbroken ?? false,
      },
    }));
}
