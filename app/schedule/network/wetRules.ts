/**
 * The rules about the start of wet work, each as the intervals of starts that keep it, exact to the
 * minute: the bag down before it is due, the watched hour and the gel with somebody there, the next layup
 * on tack, no first mix as people come in.
 */
import { bagDueOf } from '../../cure/bag-due.ts';
import { practiceOf } from '../../document/library.ts';
import { memoByAll } from '../../document/memo.ts';
import type { StartReason } from '../../messages/relations.ts';
import { intersect, subtract } from '../../time/calendar.ts';
import type { Calendar, Interval, Minute } from '../../time/instant.ts';
import type { Mode } from '../problem.ts';
import { joined, shift, startsInOrder, startsReaching } from '../starts.ts';
import { milestoneMap } from './builder.ts';
import type { CureSetup } from './input.ts';
import { byLikeDays } from './likeDays.ts';
import { arrivals, attendance, NOBODY, settleMinutesOf, type WetHours } from './wetHours.ts';

/** Rules about the start of wet work. */
export type WetRule = StartReason;

export interface Rule {
  readonly why: WetRule;
  /** Those of a mode's starts that keep it. */
  readonly among: (starts: Calendar, mode: Mode) => Calendar;
}

/** Rules of the same resin, room, hours and next stretch: routes and changed builds ask them the same. */
const knownRules = memoByAll<Rule[]>();

/** @param next starts of the stretch that follows on tack; null: this one goes straight into the bag */
export function rulesOf(hours: WetHours, setup: CureSetup, next: Calendar | null): Rule[] {
  const { personHours, personOvertime = NOBODY, library, from } = hours;
  const { clock, early = clock, laid = clock, laidEarly = laid, bagDueRange } = setup;
  const asked = [early, laid, laidEarly, bagDueRange ?? NOBODY, library, personHours];
  return knownRules([...asked, personOvertime, next ?? NOBODY], `${from}`, () =>
    workOutRules(hours, setup, next).map(({ why, among }) => ({ why, among: keptAmong(among) })),
  );
}

/** Each calendar of starts belongs to one length and the hours of one team: asked again, it has the same answer. */
function keptAmong(among: Rule['among']): Rule['among'] {
  const kept = new WeakMap<Calendar, Calendar>();
  return (starts, mode) => {
    const known = kept.get(starts);
    if (known) return known;
    const answer = among(starts, mode);
    kept.set(starts, answer);
    return answer;
  };
}

function workOutRules(input: WetHours, setup: CureSetup, next: Calendar | null): Rule[] {
  const practice = practiceOf(input.library);
  const due = bagDueOf(setup.early ?? setup.clock, practice);
  const settleMinutes = settleMinutesOf(input.library);
  return [
    {
      why: 'bag-down',
      among: (starts, mode) => {
        // A film whose open time nobody knows sets no limit.
        if (due.apply(input.from) === null) return starts;
        const minutes = minutesOf(mode);
        const next = (failed: Minute) => due.notBefore(failed + 1, minutes);
        const inTime = (some: Calendar) => startsInOrder(shift(minutes), due, some, next);
        const range = setup.bagDueRange;
        if (!range) return inTime(starts);
        if (minutes <= range.least) return starts;
        if (minutes > range.most) return [];
        return byLikeDays(starts, range, inTime);
      },
    },
    next === null ? gelRule(input, setup) : tackRule(setup, next),
    {
      why: 'mix-after-arrival',
      among: (starts, { calendar }) => subtract(starts, arrivals(calendar!, settleMinutes)),
    },
  ];
}

/** Somebody watches the bag from the moment it is down, and is there for a look once it may have gelled. */
function gelRule(hours: WetHours, setup: CureSetup): Rule {
  const { watched, gels } = attendance(hours);
  const seen = startsReaching(milestoneMap(setup.early ?? setup.clock, 'gel'), gels);
  return {
    why: 'gel-in-hours',
    among: (starts, mode) =>
      intersect(intersect(starts, seen), startsReaching(shift(minutesOf(mode)), watched)),
  };
}

/** The next stretch begins once this one is laid and has gelled for certain, while it is sure to tack. */
function tackRule(setup: CureSetup, next: Calendar): Rule {
  const laid = setup.laid ?? setup.clock;
  const gel = milestoneMap(laid, 'gel');
  const tackFree = milestoneMap(setup.laidEarly ?? laid, 'tackFree');
  /** First mixes that are sure to tack as an interval of the next begins, and have gelled by its end. */
  const tacky = lazily(() =>
    next.flatMap(({ start, end }) => {
      const [first, last] = [tackFree.earliest(start), gel.latest(end - 1)];
      return first === null || last === null ? [] : [{ first, last, nextEnd: end }];
    }),
  );
  return {
    why: 'tack-in-hours',
    among: (starts, mode) => {
      const done = shift(minutesOf(mode));
      const inOrder = startsInOrder(gel, tackFree, startsInOrder(done, tackFree, starts));
      // Some start of the next lies between: none of its intervals is over before, nor begins after.
      const met = tacky().flatMap(({ first, last: gelled, nextEnd }): Interval[] => {
        const last = Math.min(gelled, done.latest(nextEnd - 1)!);
        return last < first ? [] : [{ start: first, end: last + 1 }];
      });
      return intersect(inOrder, joined(met));
    },
  };
}

/** Worked out when it is first asked for. */
function lazily<T>(work: () => T): () => T {
  let known: { readonly answer: T } | null = null;
  return () => (known ??= { answer: work() }).answer;
}

/** Minutes of work of a mode; 0 for one that is no work. */
export const minutesOf = ({ length }: Mode): number =>
  length.kind === 'work' ? length.minutes : 0;
