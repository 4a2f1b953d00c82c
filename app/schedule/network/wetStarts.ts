/**
 * When the wet work of a cure may begin, with so many hands. Every rule of `wetRules.ts` is laid as
 * intervals of starts on the modes that can keep it. A rule that no mode can keep at any time is left off
 * and named, so that there is a plan all the same.
 */
import { memoByAll } from '../../document/memo.ts';
import { intersect, unite } from '../../time/calendar.ts';
import type { Calendar } from '../../time/instant.ts';
import type { Mode, StartWindow } from '../problem.ts';
import { startsWithin } from '../starts.ts';
import type { CureSetup } from './input.ts';
import type { WetHours } from './wetHours.ts';
import { minutesOf, rulesOf, type Rule, type WetRule } from './wetRules.ts';

/** The modes of one stretch of wet work with what says when they begin. */
export interface WetStretch {
  readonly modes: readonly Mode[];
  /** Rules that none of its modes can keep, which are therefore not laid. */
  readonly leftOff: readonly WetRule[];
}

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
