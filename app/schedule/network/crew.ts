/** Who may do a stage together, and when they are all there. */
import {
  besideModeId,
  modeId,
  readResourceId,
  resourceId,
  type SurfaceWork,
} from '../../document/ids.ts';
import { memoByAll, memoByObject } from '../../document/memo.ts';
import type { Library } from '../../document/schema.ts';
import { crewMinutes } from '../../part/labour.ts';
import { intersect, unite } from '../../time/calendar.ts';
import type { Calendar } from '../../time/instant.ts';
import type { AnyOf, Mode, Use } from '../problem.ts';

/** People by name, or so many of those who work the same hours, and the hours that all of them work. */
interface Team {
  /** By name, in a small crew; empty where they are asked for by number. */
  readonly people: readonly string[];
  readonly anyOf: readonly AnyOf[];
  readonly size: number;
  readonly hours: Calendar;
  /** The same with the hours that some of them may stay, and how many may; null: nobody does. */
  readonly stays: { readonly hours: Calendar; readonly people: number } | null;
}

export interface Crew {
  readonly size: number;
  /** Minutes on the clock of so many person-minutes for a number of people. */
  readonly minutes: (personMinutes: number, people: number) => number;
  /** Teams of so many, at least and at most. */
  readonly teamsOf: (least: number, most: number) => readonly Team[];
}

/** Most people whose sets are named one by one; of a larger crew hands are asked for by number. */
const LARGEST_NAMED_CREW = 4;
/** Ways to take so many from people of different hours that are looked at, those with most people first. */
const MOST_SPLITS = 48;

type Hours = Readonly<Record<string, Calendar>>;

/**
 * Who may work together. In a small crew every set of people by name; in a larger one a number of hands, taken
 * from people who work the same hours or from several such groups.
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
  const shared = sharing();
  const bySize = new Map<number, readonly Team[]>();
  const groups = ids.length <= LARGEST_NAMED_CREW ? null : alike(personHours, overtime);
  const namedTeam = (people: readonly string[]): Team => ({
    people,
    anyOf: [],
    size: people.length,
    hours: shared(people.map((id) => personHours[id]!).reduce((a, b) => intersect(a, b))),
    stays: stayOf(people, personHours, overtime, shared),
  });
  const numberedTeam = (shares: readonly Share[]): Team => {
    // One of each group stands for all that are taken from it.
    const each = shares.flatMap(({ group, count }) => Array<string>(count).fill(group.people[0]!));
    return {
      ...namedTeam(each),
      people: [],
      anyOf: shares.map(({ group, count }) => ({ people: group.resources, count })),
    };
  };
  const minutes: Crew['minutes'] = (personMinutes, people) =>
    crewMinutes(personMinutes, people, library);
  if (!groups) {
    const teams = allSets(ids).map(namedTeam);
    const teamsOf: Crew['teamsOf'] = (least, most) =>
      teams.filter(({ size }) => size >= least && size <= most);
    return { size: ids.length, teamsOf, minutes };
  }
  const ofSize = (size: number): readonly Team[] => {
    const teams = bySize.get(size) ?? splits(groups, size).map(numberedTeam);
    bySize.set(size, teams);
    return teams;
  };
  const teamsOf: Crew['teamsOf'] = (least, most) =>
    Array.from({ length: most - least + 1 }, (_, k) => ofSize(least + k)).flat();
  return { size: ids.length, teamsOf, minutes };
}

/** Calendars of the same hours as one and the same calendar. */
function sharing(): (hours: Calendar) => Calendar {
  const known = new Map<string, Calendar>();
  return (hours) => {
    const key = keyOf(hours);
    const same = known.get(key) ?? hours;
    known.set(key, same);
    return same;
  };
}

const keyOf = (hours: Calendar): string =>
  hours.map(({ start, end }) => `${start} ${end}`).join(';');

/** People of the same hours who may stay for the same hours. */
export interface Alike {
  readonly people: readonly string[];
  readonly resources: readonly string[];
}

/** The groups of a crew, those with most people first. */
export function alike(personHours: Hours, overtime: Hours): Alike[] {
  const keyOfCalendar = memoByObject(keyOf);
  const groups = new Map<string, string[]>();
  for (const [id, hours] of Object.entries(personHours)) {
    const key = `${keyOfCalendar(hours)} ${keyOf(overtime[id] ?? [])}`;
    const group = groups.get(key);
    if (group) group.push(id);
    else groups.set(key, [id]);
  }
  return [...groups.values()]
    .map((people) => ({ people, resources: people.map(personResource) }))
    .sort((a, b) => b.people.length - a.people.length);
}

const personResource = (person: string): string => resourceId({ kind: 'person', person });

interface Share {
  readonly group: Alike;
  readonly count: number;
}

/** Ways to take so many from the groups, as far as they are looked at. */
function splits(groups: readonly Alike[], size: number): Share[][] {
  const out: Share[][] = [];
  const take = (k: number, left: number, taken: readonly Share[]): void => {
    if (out.length >= MOST_SPLITS) return;
    if (left === 0) {
      out.push([...taken]);
      return;
    }
    const group = groups[k];
    if (!group) return;
    for (let n = Math.min(left, group.people.length); n >= 0; n--) {
      take(k + 1, left - n, n > 0 ? [...taken, { group, count: n }] : taken);
    }
  };
  take(0, size, []);
  return out;
}

/** Hours in which all of a team are there when those stay who may. */
function stayOf(
  people: readonly string[],
  personHours: Hours,
  overtime: Hours,
  shared: (hours: Calendar) => Calendar,
): Team['stays'] {
  const staying = people.filter((id) => (overtime[id]?.length ?? 0) > 0);
  if (staying.length === 0) return null;
  const hours = people
    .map((id) => unite(personHours[id]!, overtime[id] ?? []))
    .reduce((a, b) => intersect(a, b));
  return { hours: shared(hours), people: staying.length };
}

const allSets = (ids: readonly string[]): string[][] =>
  ids
    .reduce<string[][]>((sets, id) => [...sets, ...sets.map((set) => [...set, id])], [[]])
    .filter((set) => set.length > 0);

export interface Work {
  /** Of all hands together; by their number where it hangs on that. */
  readonly personMinutes: number | ((people: number) => number);
  /** The same on the clock for any number of hands, which share nothing: a drive. */
  readonly clockMinutes?: number;
  /** Asked for; fewer do it at the price of a warning, so that more people never take a plan away. */
  readonly peopleMin?: number;
  readonly peopleMax?: number;
  readonly unbroken?: boolean;
  /**
   * Mixed or sprayed: done without a break by every team whose hours hold it. Where some do, the others leave it
   * over a break as a last resort, so that more people never take a plan away.
   */
  readonly inOneGo?: boolean;
  readonly gear?: readonly Use[];
}

/**
 * One mode for each team of up to the most people, and one more where some of it may stay longer; the work
 * is shared evenly. Fewer people than are asked for, where the crew has them, are taken last and warned of; a
 * crew smaller than that is taken as it is (and flagged elsewhere). An empty crew has no modes.
 */
export function crewModes(crew: Crew, work: Work, surface: SurfaceWork | null = null): Mode[] {
  const least = Math.min(work.peopleMin ?? 1, crew.size);
  const most = Math.max(least, Math.min(work.peopleMax ?? 1, crew.size));
  const teams = most > 0 ? crew.teamsOf(1, most) : [];
  const modes = [
    ...teams.map((team) => teamMode(crew, work, surface, team, false)),
    ...teams.flatMap((team) =>
      team.stays ? [stayMode(crew, work, surface, team, team.stays)] : [],
    ),
  ].map((mode) => (handsOf(mode) < least ? { ...mode, repair: true } : mode));
  if (!work.inOneGo) return modes;
  if (!modes.some(holdsInOneGo)) return modes;
  return modes.map((mode) => (holdsInOneGo(mode) ? withoutBreak(mode) : { ...mode, repair: true }));
}

/** Modes whose work is so short, minutes, that nobody begins it before a break or a night to end it after. */
export const shortInOneGo = (modes: readonly Mode[], shortMinutes: number): Mode[] =>
  modes.map((mode) =>
    mode.length.kind === 'work' && mode.length.minutes <= shortMinutes && holdsInOneGo(mode)
      ? withoutBreak(mode)
      : mode,
  );

const holdsInOneGo = ({ calendar, length }: Mode): boolean =>
  length.kind === 'work' &&
  (calendar ?? []).some(({ start, end }) => end - start >= length.minutes);

export const isWithoutBreak = ({ length }: Mode): boolean =>
  length.kind === 'work' && length.unbroken;

const withoutBreak = (mode: Mode): Mode =>
  mode.length.kind === 'work' ? { ...mode, length: { ...mode.length, unbroken: true } } : mode;

/**
 * The same work in air that other work makes dusty or wet, as a last resort. What is a last resort already is not
 * made one twice.
 */
export const besideOthers = (modes: readonly Mode[]): Mode[] =>
  modes
    .filter(({ repair, overtimeMinutes }) => !repair && !overtimeMinutes)
    .map((mode) => ({ ...mode, id: besideModeId(mode.id), repair: true, sharesAir: true }));

/** People that a mode of the crew has on it, by name or by number. */
export const handsOf = ({ uses, anyOf = [] }: Pick<Mode, 'uses' | 'anyOf'>): number =>
  uses.filter(({ resource }) => readResourceId(resource)?.kind === 'person').length +
  anyOf.reduce((sum, { count }) => sum + count, 0);

const clockOf = (crew: Crew, { personMinutes, clockMinutes }: Work, people: number): number =>
  clockMinutes ??
  crew.minutes(typeof personMinutes === 'number' ? personMinutes : personMinutes(people), people);

function teamMode(
  crew: Crew,
  work: Work,
  surface: SurfaceWork | null,
  { people, anyOf, size, hours }: Team,
  stays: boolean,
): Mode {
  const hands = people.map((person) => ({ resource: personResource(person), amount: 1 }));
  const ref =
    anyOf.length > 0
      ? ({ by: 'number', anyOf: anyOf.map(shareName) } as const)
      : ({ by: 'team', people } as const);
  return {
    id: modeId({ ...ref, surface, stays }),
    ...(anyOf.length > 0 ? { anyOf } : {}),
    uses: [...hands, ...(work.gear ?? [])],
    ...(surface === 'abrade' ? { abrades: true } : {}),
    calendar: hours,
    length: {
      kind: 'work',
      minutes: Math.max(1, Math.ceil(clockOf(crew, work, size))),
      unbroken: work.unbroken ?? false,
    },
  };
}

/** So many of those who work like the first of them. */
const shareName = ({ people, count }: AnyOf) => ({ like: personOf(people[0]!), count });

const personOf = (resource: string): string => {
  const ref = readResourceId(resource);
  return ref?.kind === 'person' ? ref.person : resource;
};

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
