/**
 * When the wet work of a cure may begin, with so many hands: the bag down before it is due, the watched
 * hour and the gel with somebody there, the next layup on tack, no first mix as people come in. Every
 * rule is laid as intervals of starts, exact to the minute, on the modes that can keep it. A rule that no
 * mode can keep at any time is left off and named, so that there is a plan all the same.
 */
import { practiceIf, practiceOf } from '../../document/library.ts';
import { memoByAll } from '../../document/memo.ts';
import { bagDueOf } from '../../cure/bag-due.ts';
import { intersect, LONGEST_BREAK_MINUTES, subtract, unite } from '../../time/calendar.ts';
import type { Calendar, Interval, Minute } from '../../time/instant.ts';
import type { BagDueRange } from '../../cure/bag-due.ts';
import { segmentIndexAt } from '../../cure/profile.ts';
import type { TemperatureProfile } from '../../cure/types.ts';
import type { StartReason } from '../../messages/relations.ts';
import type { Mode, StartWindow } from '../problem.ts';
import { joined, shift, startsInOrder, startsReaching, startsWithin } from '../starts.ts';
import { milestoneMap } from './builder.ts';
import type { CureSetup, NetworkInput } from './input.ts';
import { handovers, hoursOfEach } from './watch.ts';

/** Rules about the start of wet work. */
export type WetRule = StartReason;

/** The modes of one stretch of wet work with what says when they begin. */
export interface WetStretch {
  readonly modes: readonly Mode[];
  /** Rules that none of its modes can keep, which are therefore not laid. */
  readonly leftOff: readonly WetRule[];
}

/** What the rules are asked of. */
export type WetHours = Pick<
  NetworkInput,
  'library' | 'personHours' | 'personOvertime' | 'from' | 'horizon'
>;

/** Rules that give way first where a layup could not follow on tack otherwise. */
const GIVE_WAY: readonly (readonly WetRule[])[] = [
  [],
  ['mix-after-arrival'],
  ['mix-after-arrival', 'gel-in-hours'],
];

/**
 * The stretches of one cure, in order.
 * @param stretches modes of each stretch: unbroken work with a calendar
 */
export function wetStarts(
  hours: WetHours,
  setup: CureSetup,
  stretches: readonly (readonly Mode[])[],
): WetStretch[] {
  let first: WetStretch[] | null = null;
  for (const without of GIVE_WAY) {
    const laid = chained(hours, setup, stretches, without);
    if (!laid.some(({ leftOff }) => leftOff.includes('tack-in-hours'))) return laid;
    first ??= laid;
  }
  return first!;
}

function chained(
  hours: WetHours,
  setup: CureSetup,
  stretches: readonly (readonly Mode[])[],
  without: readonly WetRule[],
): WetStretch[] {
  const out: LaidStretch[] = [];
  let next: Calendar | null = null;
  for (const modes of stretches.toReversed()) {
    const stretch = withRules(modes, rulesOf(hours, setup, next), without, hours);
    if (out.length + 1 < stretches.length) next = uniteAll(stretch.starts);
    out.unshift(stretch);
  }
  return out;
}

/** Of the same calendars always the same one. */
const uniteAll = (all: readonly Calendar[]): Calendar =>
  knownUnions(all, '', () => all.reduce(unite, []));

const knownUnions = memoByAll<Calendar>();

interface LaidStretch extends WetStretch {
  /** Starts of its modes that are left; the same calendar once for all modes of the same hours and length. */
  readonly starts: readonly Calendar[];
}

interface Rule {
  readonly why: WetRule;
  /** Those of a mode's starts that keep it. */
  readonly among: (starts: Calendar, mode: Mode) => Calendar;
}

/** Rules of the same resin, room, hours and next stretch: routes and changed builds ask them the same. */
const knownRules = memoByAll<Rule[]>();

/** @param next starts of the stretch that follows on tack; null: this one goes straight into the bag */
function rulesOf(hours: WetHours, setup: CureSetup, next: Calendar | null): Rule[] {
  const { personHours, personOvertime = NOBODY, library, from } = hours;
  const { clock, early = clock, laid = clock, laidEarly = laid, bagDueRange } = setup;
  const asked = [early, laid, laidEarly, bagDueRange ?? NOBODY, library, personHours];
  return knownRules([...asked, personOvertime, next ?? NOBODY], `${from}`, () =>
    workOutRules(hours, setup, next).map(({ why, among }) => ({ why, among: keptAmong(among) })),
  );
}

const NOBODY = {};

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

/**
 * Starts that are worked out once for each kind of day: where the film goes through the same temperatures at
 * the same minutes after the interval begins, the same minutes hold.
 */
function byLikeDays(
  starts: Calendar,
  { room, most }: BagDueRange,
  holding: (some: Calendar) => Calendar,
): Calendar {
  const known = new Map<string, Calendar>();
  const last = room.at(-1)!.end;
  return starts.flatMap((interval) => {
    const { start, end } = interval;
    const until = Math.ceil(end + most);
    if (!(until < last)) return holding([interval]);
    const kind = courseOf(room, start, end, until);
    const own = known.get(kind);
    if (own) return own.map((one) => ({ start: one.start + start, end: one.end + start }));
    const held = holding([interval]);
    known.set(
      kind,
      held.map((one) => ({ start: one.start - start, end: one.end - start })),
    );
    return held;
  });
}

const courses = new WeakMap<TemperatureProfile, Map<string, string>>();

/** Temperatures from `start` to `until` by minutes after `start`, as a key. */
function courseOf(room: TemperatureProfile, start: Minute, end: Minute, until: Minute): string {
  const ofRoom = courses.get(room) ?? new Map<string, string>();
  courses.set(room, ofRoom);
  const place = `${start} ${until}`;
  const known = ofRoom.get(place);
  if (known !== undefined) return `${end - start} ${known}`;
  let i = Math.max(0, segmentIndexAt(room, start));
  let course = '';
  for (; i < room.length && room[i]!.start < until; i++) {
    const segment = room[i]!;
    course += ` ${Math.max(0, segment.start - start)} ${segment.temperatureC}`;
  }
  ofRoom.set(place, course);
  return `${end - start} ${course}`;
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

interface Attendance {
  /** Starts of the watched hour, for one person or two who hand over, whoever it is. */
  readonly watched: Calendar;
  /** Minutes of an earliest gel that somebody sees: at that minute, or by the time of the next look. */
  readonly gels: Calendar;
}

const known = memoByAll<Attendance>();

/** When somebody is there for a bag. */
export function attendance(hours: WetHours): Attendance {
  const { library, personHours, personOvertime = NOBODY } = hours;
  return known([library, personHours, personOvertime], '', () => workOutAttendance(hours));
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

/** The next stretch begins once this one is laid and has gelled for certain, while it is sure to tack. */
function tackRule(setup: CureSetup, next: Calendar): Rule {
  const laid = setup.laid ?? setup.clock;
  const gel = milestoneMap(laid, 'gel');
  const tackFree = milestoneMap(setup.laidEarly ?? laid, 'tackFree');
  return {
    why: 'tack-in-hours',
    among: (starts, mode) => {
      const done = shift(minutesOf(mode));
      const inOrder = startsInOrder(gel, tackFree, startsInOrder(done, tackFree, starts));
      // Some start of the next lies between: none of its intervals is over before, nor begins after.
      const met = next.flatMap(({ start, end }): Interval[] => {
        const first = tackFree.earliest(start);
        const last = Math.min(gel.latest(end - 1) ?? -Infinity, done.latest(end - 1)!);
        return first === null || last < first ? [] : [{ start: first, end: last + 1 }];
      });
      return intersect(inOrder, joined(met));
    },
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

/** Lays each rule that some mode can keep, together with those laid before it. */
function withRules(
  modes: readonly Mode[],
  rules: readonly Rule[],
  without: readonly WetRule[],
  { from }: WetHours,
): LaidStretch {
  /** Starts of before are kept: a closing time may lie in the past. */
  const isAhead = ({ starts }: Kept): boolean => (starts.at(-1)?.end ?? from) > from;
  // Modes of the same hours and length share one look at each rule.
  const shared = new Map<Calendar, Map<number, Kept>>();
  const alike = modes.map((mode) => {
    const ofHours = shared.get(mode.calendar!) ?? new Map<number, Kept>();
    shared.set(mode.calendar!, ofHours);
    const own = ofHours.get(minutesOf(mode)) ?? {
      mode,
      windows: [],
      starts: startsAtAll(mode),
    };
    ofHours.set(minutesOf(mode), own);
    return own;
  });
  let kept = [...new Set(alike)];
  const leftOff: WetRule[] = [];
  for (const { why, among } of rules) {
    if (without.includes(why)) {
      leftOff.push(why);
      continue;
    }
    const narrowed = kept.map(({ mode, windows, starts }) => {
      const open = among(starts, mode);
      return { mode, windows: [...windows, { why, open }], starts: open };
    });
    if (narrowed.some(isAhead)) kept = narrowed;
    else leftOff.push(why);
  }
  const able = kept.filter(isAhead);
  const left = able.length > 0 ? able : kept;
  const laid = new Map(left.map((one) => [one.mode, one.windows]));
  return {
    starts: left.map(({ starts }) => starts),
    modes: modes.flatMap((mode, i) => {
      const windows = laid.get(alike[i]!.mode);
      return windows ? [{ ...mode, starts: windows }] : [];
    }),
    leftOff,
  };
}

interface Kept {
  /** The first of those of the same hours and length. */
  readonly mode: Mode;
  readonly windows: readonly StartWindow[];
  readonly starts: Calendar;
}

/** Starts that the hours and rules of at least one mode allow. */
export const startsOfAny = (modes: readonly Mode[]): Calendar =>
  modes.map((mode) => startsOf(mode, mode.starts ?? [])).reduce(unite, []);

const startsOf = (mode: Mode, windows: readonly StartWindow[]): Calendar =>
  windows.map(({ open }) => open).reduce(intersect, startsAtAll(mode));

/** Lengths kept for one calendar. */
const LENGTHS_KEPT = 100;
const knownAtAll = memoByAll<Calendar>(LENGTHS_KEPT);

/** Starts that the hours of a mode hold, before any rule. */
const startsAtAll = (mode: Mode): Calendar => {
  const minutes = minutesOf(mode);
  return knownAtAll([mode.calendar!], `${minutes}`, () => startsWithin(mode.calendar!, minutes));
};

const minutesOf = ({ length }: Mode): number => (length.kind === 'work' ? length.minutes : 0);
