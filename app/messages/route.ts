/** Messages about the choice of route: merges that the date forces, routes that close. */
import type { Finish } from '../document/schema.ts';
import type { Minute } from '../time/instant.ts';
import { pendingWords, type ClosingWords, type Waited } from './closing.ts';
import { alsoFitsWords, joinWords, mergeWords, type Join } from './joints.ts';
import { offers, rounded, findingSpec } from './spec.ts';
import { capital, dayAndTime, elapsed, listed, plain } from './words.ts';

/** What has become of the route with the cures kept apart. */
type SeparateCures =
  | { readonly was: 'not-known' | 'never-open' }
  | { readonly was: 'before-work-begins'; readonly closes: Minute; readonly begins: Minute }
  | { readonly was: 'open-until'; readonly closes: Minute; readonly waited: Waited | null };

function separateWords(separate: SeparateCures, zone: string): string {
  switch (separate.was) {
    case 'not-known':
      return 'Separate cures no longer fit.';
    case 'never-open':
      return 'There was never time for separate cures before this date.';
    case 'before-work-begins':
      return (
        `Separate cures would have to begin by ${dayAndTime(separate.closes, zone)}, and work ` +
        `begins ${dayAndTime(separate.begins, zone)}.`
      );
    case 'open-until': {
      const { closes, waited } = separate;
      const held = waited ? `, when ${pendingWords(waited, 'had')}` : '';
      return `Separate cures closed ${dayAndTime(closes, zone)}${held}.`;
    }
  }
}

/** What a merge costs against the separate cures; negative: it saves. */
interface MergePrice {
  readonly extraHours: number;
  readonly extraKg: number;
  /** The best finish left, where it is a lesser one. */
  readonly finishLeft: Finish | null;
}

const LEAST_HOURS = 0.05;
const LEAST_KG = 0.005;

/** 'It costs about 5 h of work and 0.4 kg of filler. The best finish left is painted.' */
function priceWords({ extraHours, extraKg, finishLeft }: MergePrice): string[] {
  const work = `about ${elapsed(Math.abs(extraHours) * 60)} of work`;
  const mass = `${plain(Math.abs(extraKg), 2)} kg`;
  const costs = [
    ...(extraHours >= LEAST_HOURS ? [work] : []),
    ...(extraKg >= LEAST_KG ? [`${mass} of filler`] : []),
  ];
  const saves = [
    ...(extraHours <= -LEAST_HOURS ? [work] : []),
    ...(extraKg <= -LEAST_KG ? [mass] : []),
  ];
  const saving = saves.length > 0 ? ` and saves ${listed(saves)}` : '';
  return [
    ...(costs.length > 0 ? [`It costs ${listed(costs)}${saving}.`] : []),
    ...(costs.length === 0 && saves.length > 0 ? [`It saves ${listed(saves)}.`] : []),
    ...(finishLeft === null ? [] : [`The best finish left is ${finishLeft}.`]),
  ];
}

interface MergeForced extends MergePrice {
  readonly joins: readonly Join[];
  /** False where even the merged route does not meet the date. */
  readonly fits: boolean;
  readonly separate: SeparateCures;
  /** Minutes by which the separate cures are late; null: they cannot be placed. */
  readonly lateMinutes: number | null;
  readonly zone: string;
}

function forcedMessage(a: MergeForced): string {
  const all = (words: (join: Join) => string) =>
    listed(a.joins.map((join) => `the ${words(join)}`));
  const also = a.joins.map(alsoFitsWords).filter((words) => words !== '');
  const cause =
    a.fits && also.length === 0
      ? `The date forces ${all(mergeWords)}.`
      : `The date leaves no time for separate cures; ${a.fits ? 'planned is' : 'closest comes'} ${all(joinWords)}.`;
  return [cause, ...(a.fits ? also : []), separateWords(a.separate, a.zone), ...priceWords(a)].join(
    ' ',
  );
}

/** A route that has closed or is about to. */
interface Closing {
  readonly words: ClosingWords;
  readonly closes: Minute;
  readonly waited: Waited | null;
  readonly zone: string;
}
const closingNumbers = ({ closes, zone }: Closing) => ({ closes: dayAndTime(closes, zone) });

const OF_THE_CHOICE = { dependsOn: 'plan', waysOut: 'none' } as const;

export const ROUTE_FINDINGS = {
  'merge-forced': findingSpec({
    meaning: 'The date leaves no time for separate cures.',
    severity: 'warn',
    unsafe: null,
    dependsOn: 'plan',
    waysOut: 'levers',
    saidByChoice: true,
    words: forcedMessage,
    numbers: (a) => ({
      closed: 'closes' in a.separate ? dayAndTime(a.separate.closes, a.zone) : null,
      hoursLate: a.lateMinutes === null ? null : rounded(a.lateMinutes / 60),
      extraHours: rounded(a.extraHours),
      extraKg: rounded(a.extraKg, 2),
    }),
  }),
  'route-closed': findingSpec({
    meaning: 'The chosen route can no longer be done in time.',
    severity: 'warn',
    unsafe: null,
    ...OF_THE_CHOICE,
    saidByChoice: false,
    words: ({ words, waited }: Closing) => {
      const why = waited ? ` That was when ${pendingWords(waited, 'had')}.` : '';
      return `${words.closes}${why} ${words.after}`;
    },
    numbers: closingNumbers,
  }),
  'route-closing': findingSpec({
    meaning: 'The chosen route closes soon.',
    severity: 'warn',
    unsafe: null,
    ...OF_THE_CHOICE,
    saidByChoice: true,
    words: ({ words, waited, leftMinutes }: Closing & { leftMinutes: number }) => {
      const why = waited ? ` By then ${pendingWords(waited, 'has')}.` : '';
      return `${words.closes.slice(0, -1)}, in ${elapsed(leftMinutes)}.${why} ${words.after}`;
    },
    numbers: closingNumbers,
  }),
  'route-begun-otherwise': findingSpec({
    meaning: 'Work has begun in a way that this route would not have gone.',
    severity: 'stop',
    unsafe: 'wet-work',
    dependsOn: 'document',
    waysOut: 'none',
    saidByChoice: false,
    words: (a: {
      before: string;
      after: string;
      beforeId: string;
      afterId: string;
      apart: boolean;
    }) => {
      const [before, after] = [a.before.toLowerCase(), capital(a.after.toLowerCase())];
      return a.apart
        ? `${after} and ${before} have already been laid apart.`
        : `${after} has already been laid with the ${before} still wet.`;
    },
    numbers: ({ beforeId, afterId }) => ({ before: beforeId, after: afterId }),
  }),
  'finish-not-reachable': findingSpec({
    meaning: 'The chosen route cannot give the finish that is wanted.',
    severity: 'stop',
    unsafe: null,
    dependsOn: 'document',
    waysOut: 'levers',
    saidByChoice: false,
    words: (a: { wanted: Finish; best: Finish; cure: string | null }) =>
      `A ${a.wanted} finish shows the fibre, and fibre cured wet under core moves: ` +
      `${a.cure?.toLowerCase() ?? 'this route'} gives ${a.best} at best.`,
    numbers: ({ best }) => ({ best }),
  }),
} as const;

export const ROUTE_LEVERS = {
  route: offers({
    /** The boundaries that the route does not cure apart. */
    label: (a: { merges: readonly Join[] }) =>
      a.merges.length === 0
        ? 'Cure every layup on its own'
        : capital(listed(a.merges.map(joinWords))),
    sideEffects: (a) =>
      a.merges.length === 0 ? [] : ['Fibre cured wet moves: see what the route costs.'],
  }),
} as const;
