/** Messages about dates: late, blocked, pinned, printed, no spare. */
import type { Minute } from '../time/instant.ts';
import { factWords, type Fact } from './facts.ts';
import { obstacleWords, type ObstacleArgs } from './obstacles.ts';
import { relationWords, type RelationReason } from './relations.ts';
import { offers, findingSpec, tenthsOfHours, type Numbers } from './spec.ts';
import { capital, dayAndTime, elapsed, listed } from './words.ts';

/** Facts that one sentence can hold; the numbers of the finding hold them all. */
const MOST_FACTS_TOLD = 6;
/** Stages that one sentence can hold; the numbers of the finding hold them all. */
const MOST_MOVES_TOLD = 4;

/** The first so many, and how many more there are. */
function firstOf(all: readonly string[], most: number): string[] {
  const left = all.length - most;
  return left > 0 ? [...all.slice(0, most), `${left} more (listed under the numbers)`] : [...all];
}

interface Conflict {
  /** Dropping any one lets the rest fit. */
  readonly facts: readonly Fact[];
  readonly zone: string;
  readonly proven: boolean;
  /** False for one that follows another in the list. */
  readonly first: boolean;
}

function conflictWords({ facts, zone, proven, first }: Conflict): string {
  const which = first
    ? 'These do not go together'
    : 'These do not go together either, whatever is done about those above';
  const sure = proven
    ? 'That they do not fit together is proven.'
    : 'No plan was found that keeps them all; that there is none is not proven.';
  const told = facts.map((fact) => factWords(fact, zone));
  return (
    `${which}: ${firstOf(told, MOST_FACTS_TOLD).join('; ')}. ` +
    `Drop any one of them and the rest fits. ${sure}`
  );
}

interface Moves {
  readonly printedAt: Minute | null;
  readonly moved: readonly { readonly stage: string; readonly from: Minute; readonly to: Minute }[];
  readonly zone: string;
}

const changeWords = ({ from, to }: Moves['moved'][number], zone: string): string =>
  `${dayAndTime(from, zone)}, now ${dayAndTime(to, zone)}`;

function movedWords({ printedAt, moved, zone }: Moves): string {
  const when = printedAt === null ? '' : ` (${dayAndTime(printedAt, zone)})`;
  const lines = moved.map((one) => `${one.stage}: was ${changeWords(one, zone)}`);
  return (
    `Moved since the schedule was printed${when}. ` +
    `${firstOf(lines, MOST_MOVES_TOLD).join('; ')}.`
  );
}

const movedNumbers = ({ moved, zone }: Moves): Numbers => ({
  stagesMoved: moved.length,
  ...Object.fromEntries(moved.map((one) => [one.stage, changeWords(one, zone)])),
});

type DateMissed =
  | { readonly deadline: Minute; readonly zone: string; readonly daysPast: number }
  | {
      readonly deadline: Minute;
      readonly zone: string;
      readonly end: Minute;
      readonly lateMinutes: number;
    };

const LATE = { dependsOn: 'lateness', waysOut: 'levers' } as const;
const ON_PLAN = { dependsOn: 'plan', waysOut: 'none', saidByChoice: false } as const;

export const DATE_FINDINGS = {
  'frame-gone': findingSpec({
    meaning: 'The frame is gone before the part can be fitted to it.',
    severity: 'stop',
    unsafe: null,
    ...LATE,
    saidByChoice: false,
    words: (a: { until: Minute; fitted: Minute; demould: Minute | null; zone: string }) =>
      `The frame is there until ${dayAndTime(a.until, a.zone)} and the part can be fitted to it by ` +
      `${dayAndTime(a.fitted, a.zone)}` +
      `${a.demould !== null && a.demould > a.until ? `; it is out of the mould only ${dayAndTime(a.demould, a.zone)}` : ''}. ` +
      'Keep the frame longer, take a template of it while it is there, or begin sooner.',
  }),
  'date-missed': findingSpec({
    meaning: 'The plan ends after the unveiling, or the unveiling is past.',
    severity: 'stop',
    unsafe: null,
    ...LATE,
    saidByChoice: true,
    words: (a: DateMissed) => {
      const shown = dayAndTime(a.deadline, a.zone);
      return 'end' in a
        ? `The earliest end is ${dayAndTime(a.end, a.zone)}: ` +
            `${elapsed(a.lateMinutes)} after the unveiling on ${shown}.`
        : `The unveiling, ${shown}, is past.`;
    },
    numbers: (a): Numbers =>
      'end' in a ? { hoursLate: tenthsOfHours(a.lateMinutes) } : { daysPast: a.daysPast },
  }),
  'slot-missed': findingSpec({
    meaning: 'The part is not ready for a booked slot.',
    severity: 'stop',
    unsafe: null,
    ...LATE,
    saidByChoice: true,
    words: (a: {
      party: string;
      booked: Minute;
      arrives: Minute;
      lateMinutes: number;
      zone: string;
    }) =>
      `${a.party} is booked from ${dayAndTime(a.booked, a.zone)}; ` +
      `the part is there ${dayAndTime(a.arrives, a.zone)}.`,
    numbers: (a) => ({ hoursLate: tenthsOfHours(a.lateMinutes) }),
  }),
  'pin-missed': findingSpec({
    meaning: 'A pinned stage cannot begin when it is pinned.',
    severity: 'stop',
    unsafe: null,
    ...LATE,
    saidByChoice: false,
    words: (a: { stage: string; pinned: Minute; start: Minute; zone: string }) =>
      `${a.stage} is pinned to ${dayAndTime(a.pinned, a.zone)} and cannot ` +
      `begin before ${dayAndTime(a.start, a.zone)}: ${elapsed(a.start - a.pinned)} later.`,
    numbers: (a) => ({ hoursLate: tenthsOfHours(a.start - a.pinned) }),
  }),
  'pin-left-out': findingSpec({
    meaning: 'A pin that the plan leaves out, because it does not go with an older one.',
    severity: 'stop',
    unsafe: null,
    ...ON_PLAN,
    words: (a: { pin: Fact; against: readonly Fact[]; zone: string }) =>
      `The plan leaves out this pin: ${factWords(a.pin, a.zone)}; it does not go with ` +
      `${listed(a.against.map((fact) => factWords(fact, a.zone)))}. Remove one of them.`,
  }),
  'order-left-out': findingSpec({
    meaning: 'An order of the shop’s own that the plan leaves out, because it cannot be obeyed.',
    severity: 'stop',
    unsafe: null,
    ...ON_PLAN,
    words: (a: { order: Fact; against: readonly Fact[]; zone: string }) =>
      `The plan leaves out this order: ${factWords(a.order, a.zone)}; ` +
      (a.against.length === 0
        ? 'the work between takes longer, whatever else is given up. Give this order more time.'
        : `it does not go with ${listed(a.against.map((fact) => factWords(fact, a.zone)))}. Remove one of them.`),
  }),
  'facts-conflict': findingSpec({
    meaning: 'A smallest set of facts that do not go together.',
    severity: 'note',
    unsafe: null,
    ...LATE,
    saidByChoice: false,
    words: conflictWords,
    numbers: ({ facts, zone }): Numbers =>
      Object.fromEntries(facts.map((fact, k) => [`fact ${k + 1}`, factWords(fact, zone)])),
  }),
  'stage-impossible': findingSpec({
    meaning: 'A stage cannot be placed at all.',
    severity: 'stop',
    unsafe: null,
    dependsOn: 'document',
    waysOut: 'levers',
    saidByChoice: false,
    words: (a: { stage: string; obstacle: ObstacleArgs }) =>
      `${a.stage} cannot be placed: ${obstacleWords(a.obstacle).replace(/\.$/, '')}.`,
  }),
  'no-spare-day': findingSpec({
    meaning: 'There is less than a spare day before the unveiling.',
    severity: 'note',
    unsafe: null,
    ...ON_PLAN,
    words: (a: { spareMinutes: number; end: Minute; zone: string }) =>
      `Only ${elapsed(a.spareMinutes)} of working time lie between the end of the plan, ` +
      `${dayAndTime(a.end, a.zone)}, and the unveiling.`,
    numbers: (a) => ({ spareHours: tenthsOfHours(a.spareMinutes) }),
  }),
  'searched-in-part': findingSpec({
    meaning: 'A build of this size is searched less, so that its answer comes in time.',
    severity: 'note',
    unsafe: null,
    ...ON_PLAN,
    words: (a: { stages: number; tried: number; usually: number; waysOut: number }) =>
      `This plan has ${a.stages} stages. So that its answer comes in time, ` +
      [
        ...(a.tried < a.usually
          ? [`${a.tried} of the usual ${a.usually} orders of work are tried`]
          : []),
        ...(a.waysOut > 0 ? [`the ways out are not all looked at (left aside: ${a.waysOut})`] : []),
      ].join(', and ') +
      '.',
    numbers: (a) => ({ stages: a.stages, tried: a.tried, waysOut: a.waysOut }),
  }),
  'window-passed': findingSpec({
    meaning: 'A window that what was recorded has let pass.',
    severity: 'warn',
    unsafe: null,
    ...ON_PLAN,
    words: (a: { why: RelationReason; from: string; to: string; byMinutes: number }) =>
      `${capital(relationWords(a.why))}. “${a.from}” is done, and “${a.to}” can only follow ` +
      `${elapsed(a.byMinutes)} too late. ` +
      'It is planned as soon as it can be; look at the surface before going on.',
    numbers: (a) => ({ hoursLate: tenthsOfHours(a.byMinutes) }),
  }),
  'printed-moved': findingSpec({
    meaning: 'The plan is no longer the one that was printed.',
    severity: 'note',
    unsafe: null,
    ...ON_PLAN,
    words: movedWords,
    numbers: movedNumbers,
  }),
} as const;

export const DATE_LEVERS = {
  slot: offers({
    /** `noon`: midday of the day that is asked for, in the party's zone. */
    label: (a: { party: string; noon: Minute; zone: string }) =>
      `Ask ${a.party} for ${dayAndTime(a.noon, a.zone).replace(/, .*$/, '')}`,
    sideEffects: () => ['They may have no time then: ask before other work depends on it.'],
  }),
} as const;
