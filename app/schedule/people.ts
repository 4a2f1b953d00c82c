/**
 * People asked for by number: 'two of these four'. Those who are alike (same hours, asked for in the
 * same lists, never by name) are counted as one group, so that no team is enumerated; who of a group
 * does what is settled once the plan stands.
 */
import { intersect } from '../time/calendar.ts';
import type { Calendar } from '../time/instant.ts';
import type { Compiled } from './compile.ts';
import type { AnyOf, Mode, Problem } from './problem.ts';

/** People who are alike. */
export interface Group {
  /** Index as a resource: their own where they are one, else behind the problem's resources. */
  readonly resource: number;
  /** By id in code-unit order. */
  readonly people: readonly string[];
  readonly calendar: Calendar | null;
}

/** So many of each group, by the position of a list in `anyOf`. */
export interface Share {
  readonly list: number;
  readonly group: Group;
  readonly count: number;
}

/** Ways to split one mode over groups that are looked at, largest groups first. */
const MOST_TEAMS = 48;

const compareCodeUnits = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

const listKey = ({ people }: AnyOf): string => [...people].sort(compareCodeUnits).join('\n');

/** The groups of a problem; empty where nobody is asked for by number. */
export function groupsOf(problem: Problem): Group[] {
  const lists = new Map<string, AnyOf>();
  const named = new Set((problem.holds ?? []).map((hold) => hold.resource));
  for (const stage of problem.stages) {
    for (const mode of stage.modes) {
      for (const use of mode.uses) named.add(use.resource);
      for (const any of mode.anyOf ?? []) lists.set(listKey(any), any);
    }
  }
  if (lists.size === 0) return [];
  const signature = new Map<string, string>();
  let k = 0;
  for (const any of lists.values()) {
    for (const id of any.people) signature.set(id, `${signature.get(id) ?? ''} ${k}`);
    k++;
  }
  const calendars = new Map<Calendar, number>();
  const groups = new Map<string, { people: string[]; calendar: Calendar | null; own: number }>();
  problem.resources.forEach(({ id, capacity, calendar }, own) => {
    const lists = signature.get(id);
    if (lists === undefined || capacity < 1) return;
    if (calendar && !calendars.has(calendar)) calendars.set(calendar, calendars.size);
    const hours = calendar ? calendars.get(calendar)! : -1;
    const key = named.has(id) ? id : `${lists} at ${hours}`;
    const group = groups.get(key) ?? { people: [], calendar: calendar ?? null, own };
    group.people.push(id);
    groups.set(key, group);
  });
  let next = problem.resources.length;
  return [...groups.values()].map(({ people, calendar, own }) => ({
    resource: people.length === 1 ? own : next++,
    people: people.sort(compareCodeUnits),
    calendar,
  }));
}

/** Every way to man a mode from the groups, as far as they are looked at; one empty way for none. */
export function teamsOf(mode: Mode, groups: readonly Group[]): Share[][] {
  let teams: Share[][] = [[]];
  (mode.anyOf ?? []).forEach((any, list) => {
    const able = groups
      .filter((group) => group.people.some((id) => any.people.includes(id)))
      .sort((a, b) => b.people.length - a.people.length || a.resource - b.resource);
    teams = teams.flatMap((team) => splits(able, any.count, list, team)).slice(0, MOST_TEAMS);
  });
  return teams;
}

/** Ways to take a count from groups beside what a team has taken already. */
function splits(
  groups: readonly Group[],
  count: number,
  list: number,
  team: readonly Share[],
): Share[][] {
  const out: Share[][] = [];
  const take = (k: number, left: number, taken: readonly Share[]): void => {
    if (out.length >= MOST_TEAMS) return;
    if (left === 0) {
      out.push([...taken]);
      return;
    }
    const group = groups[k];
    if (!group) return;
    const used = team
      .filter((share) => share.group === group)
      .reduce((sum, share) => sum + share.count, 0);
    const most = Math.min(left, group.people.length - used);
    for (let n = most; n >= 0; n--) {
      take(k + 1, left - n, n > 0 ? [...taken, { list, group, count: n }] : taken);
    }
  };
  take(0, count, team);
  return out;
}

/** Hours of a mode in which all of a team are there; null: at any time. */
export function hoursOf(mode: Mode, team: readonly Share[]): Calendar | null {
  let hours = mode.calendar;
  for (const { group } of team) {
    if (!group.calendar || group.calendar === hours) continue;
    hours = hours ? intersect(hours, group.calendar) : group.calendar;
  }
  return hours;
}

interface Spot {
  readonly stage: number;
  readonly start: number;
  readonly end: number;
  readonly team: readonly Share[];
}

/**
 * Who does what: in order of start, from each group those of the lowest id who are free.
 * @returns people by stage, in the order of the mode's lists
 */
function assignPeople(spots: readonly Spot[]): Map<number, string[]> {
  const freeFrom = new Map<string, number>();
  const out = new Map<number, string[]>();
  const sorted = [...spots].sort((a, b) => a.start - b.start || a.end - b.end || a.stage - b.stage);
  for (const { stage, start, end, team } of sorted) {
    const chosen: string[] = [];
    for (const { group, count } of team) {
      const free = (id: string): boolean => (freeFrom.get(id) ?? -Infinity) <= start;
      const able = group.people.filter((id) => !chosen.includes(id));
      // What was recorded may have asked for more than were free.
      const picked = [...able.filter(free), ...able.filter((id) => !free(id))].slice(0, count);
      chosen.push(...picked);
      if (end > start) for (const id of picked) freeFrom.set(id, end);
    }
    out.set(stage, chosen);
  }
  return out;
}

interface Places {
  readonly start: ArrayLike<number>;
  readonly end: ArrayLike<number>;
  readonly mode: ArrayLike<number>;
}

/** Who does the stages that ask for people by number, by stage index. */
export function peopleOf(compiled: Compiled, plan: Places): Map<number, string[]> {
  if (compiled.groups.length === 0) return new Map();
  const spots = compiled.stages.flatMap(({ index, modes }): Spot[] => {
    const team = modes[plan.mode[index]!]?.team ?? [];
    if (team.length === 0) return [];
    return [{ stage: index, start: plan.start[index]!, end: plan.end[index]!, team }];
  });
  return assignPeople(spots);
}
