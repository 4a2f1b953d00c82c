/** The hours in which wet work is begun and looked after: who arrives when, who is there for a bag. */
import { practiceIf, practiceOf } from '../../document/library.ts';
import { memoByAll } from '../../document/memo.ts';
import { LONGEST_BREAK_MINUTES, unite } from '../../time/calendar.ts';
import type { Calendar } from '../../time/instant.ts';
import { joined, startsWithin } from '../starts.ts';
import type { NetworkInput } from './input.ts';
import { handovers, hoursOfEach } from './watch.ts';

/** What the rules are asked of. */
export type WetHours = Pick<
  NetworkInput,
  'library' | 'personHours' | 'personOvertime' | 'from' | 'horizon'
>;

export interface Attendance {
  /** Starts of the watched hour, for one person or two who hand over, whoever it is. */
  readonly watched: Calendar;
  /** Minutes of an earliest gel that somebody sees: at that minute, or by the time of the next look. */
  readonly gels: Calendar;
}

const knownAttendance = memoByAll<Attendance>();

/** When somebody is there for a bag. */
export function attendance(hours: WetHours): Attendance {
  const { library, personHours, personOvertime = NOBODY } = hours;
  return knownAttendance([library, personHours, personOvertime], '', () =>
    workOutAttendance(hours),
  );
}

function workOutAttendance(hours: WetHours): Attendance {
  const practice = practiceOf(hours.library);
  const lookEvery = practice('look-every-minutes');
  const people = hoursOfEach(hours).map(([, own]) => own);
  const pairs = handovers(hours).map((pair) => pair.hours);
  const startsOfAnybody = (teams: readonly Calendar[], minutes: number): Calendar =>
    teams.map((own) => startsWithin(own, minutes)).reduce<Calendar>(unite, []);
  return {
    watched: startsOfAnybody([...people, ...pairs], practice('watch-minutes')),
    gels: joined(
      startsOfAnybody(people, practice('gel-look-minutes')).map(({ start, end }) => ({
        start: start - lookEvery,
        end,
      })),
    ),
  };
}

/** The first minutes of each day's hours; what follows a break is no arrival. */
export function arrivals(hours: Calendar, settleMinutes: number): Calendar {
  if (settleMinutes <= 0) return [];
  const same = knownArrivals.get(hours);
  if (same?.settleMinutes === settleMinutes) return same.arrivals;
  const arrivals = hours.flatMap(({ start }, i) => {
    const before = hours[i - 1];
    const arrives = !before || start - before.end > LONGEST_BREAK_MINUTES;
    return arrives ? [{ start, end: start + settleMinutes }] : [];
  });
  knownArrivals.set(hours, { settleMinutes, arrivals });
  return arrivals;
}

const knownArrivals = new WeakMap<Calendar, { settleMinutes: number; arrivals: Calendar }>();

/** Minutes that people have between coming in and a first mix; 0 where the build has not taken the rule. */
export const settleMinutesOf = (library: WetHours['library']): number =>
  practiceIf(library, 'mix-after-arrival-minutes') ?? 0;

/** Stands in a key for what a build has not got. */
export const NOBODY = {};
