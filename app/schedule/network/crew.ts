/** Who may do a stage together, and when they are all there. */
import { modeId, resourceId, type SurfaceWork } from '../../document/ids.ts';
import { memoByAll } from '../../document/memo.ts';
import type { Library } from '../../document/schema.ts';
import { crewMinutes } from '../../part/labour.ts';
import { intersect, unite } from '../../time/calendar.ts';
import type { Calendar } from '../../time/instant.ts';
import type { Mode, Use } from '../problem.ts';

/** A set of people and the hours that all of them work. */
interface Team {
  readonly people: readonly string[];
  readonly hours: Calendar;
  /** The same with the hours that some of them may stay, and how many may; null: nobody does. */
  readonly stays: { readonly hours: Calendar; readonly people: number } | null;
}

export interface Crew {
  readonly size: number;
  /** Minutes on the clock of so many person-minutes for a number of people. */
  readonly minutes: (personMinutes: number, people: number) => number;
  readonly teams: readonly Team[];
}

/** Most people of whom every set is tried; in a larger crew only neighbours in the list team up. */
const LARGEST_FULL_CREW = 4;

type Hours = Readonly<Record<string, Calendar>>;

/**
 * Every team of one or more of the crew, with the hours that all of its people work.
 * @param personHours expanded hours of each person, by person id
 * @param library whose practice says what each further pair of hands loses
 * @param overtime further hours that each may stay where a date needs it, by person id
 * @throws MissingRow when the library lacks a practice row
 */
export const crewOf = (personHours: Hours, library: Library, overtime: Hours = NOBODY): Crew =>
  knownCrews([personHours, overtime, library], '', () => workOut(personHours, library, overtime));

const NOBODY: Hours = {};
const knownCrews = memoByAll<Crew>();

function workOut(personHours: Hours, library: Library, overtime: Hours): Crew {
  const ids = Object.keys(personHours);
  const sets = ids.length <= LARGEST_FULL_CREW ? allSets(ids) : runs(ids);
  const known: Calendar[] = [];
  /** Those with the same hours share one calendar. */
  const shared = (hours: Calendar): Calendar => {
    const same = known.find((other) => isSame(other, hours));
    if (!same) known.push(hours);
    return same ?? hours;
  };
  const teams = sets.map((people) => ({
    people,
    hours: shared(people.map((id) => personHours[id]!).reduce((a, b) => intersect(a, b))),
    stays: stayOf(people, personHours, overtime),
  }));
  const minutes: Crew['minutes'] = (personMinutes, people) =>
    crewMinutes(personMinutes, people, library);
  return { size: ids.length, teams, minutes };
}

const isSame = (a: Calendar, b: Calendar): boolean =>
  a.length === b.length &&
  a.every(({ start, end }, i) => start === b[i]!.start && end === b[i]!.end);

/** Hours in which all of a team are there when those stay who may. */
function stayOf(people: readonly string[], personHours: Hours, overtime: Hours): Team['stays'] {
  const staying = people.filter((id) => (overtime[id]?.length ?? 0) > 0);
  if (staying.length === 0) return null;
  const hours = people
    .map((id) => unite(personHours[id]!, overtime[id] ?? []))
    .reduce((a, b) => intersect(a, b));
  return { hours, people: staying.length };
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
 * One mode for each team of an allowed size, and one more where some of it may stay longer; the work
 * is shared evenly. A crew smaller than the least number is taken as it is (and flagged elsewhere).
 * An empty crew has no modes.
 */
export function crewModes(crew: Crew, work: Work, surface: SurfaceWork | null = null): Mode[] {
  const least = Math.min(work.peopleMin ?? 1, crew.size);
  const most = Math.max(least, Math.min(work.peopleMax ?? 1, crew.size));
  const teams = crew.teams.filter(({ people }) => people.length >= least && people.length <= most);
  return [
    ...teams.map((team) => teamMode(crew, work, surface, team, false)),
    ...teams.flatMap((team) =>
      team.stays ? [stayMode(crew, work, surface, team, team.stays)] : [],
    ),
  ];
}

function teamMode(
  crew: Crew,
  work: Work,
  surface: SurfaceWork | null,
  { people, hours }: Team,
  stays: boolean,
): Mode {
  const hands = people.map((person) => ({
    resource: resourceId({ kind: 'person', person }),
    amount: 1,
  }));
  return {
    id: modeId({ by: 'team', people, surface, stays }),
    uses: [...hands, ...(work.gear ?? [])],
    ...(surface === 'abrade' ? { abrades: true } : {}),
    calendar: hours,
    length: {
      kind: 'work',
      minutes: Math.max(1, Math.ceil(crew.minutes(work.personMinutes, people.length))),
      unbroken: work.unbroken ?? false,
    },
  };
}

/** Counted as if all of it were overtime: what it really takes depends on where it is placed. */
function stayMode(
  crew: Crew,
  work: Work,
  surface: SurfaceWork | null,
  team: Team,
  stays: NonNullable<Team['stays']>,
): Mode {
  const mode = teamMode(crew, work, surface, { ...team, hours: stays.hours }, true);
  const minutes = mode.length.kind === 'work' ? mode.length.minutes : 0;
  return { ...mode, overtimeMinutes: Math.max(1, minutes * stays.people) };
}
