/** Words of the bench view: read from three metres, so short. */
import type { AlarmKind } from '../../app/shop/floor/clocks.ts';
import type { Step } from '../../app/shop/floor/steps.ts';
import { clockWords, stampWords } from '../../app/shop/floor/words.ts';
import type { Minute } from '../../app/time/instant.ts';
import { clockTime, dayOfMonth, length } from '../../app/time/words.ts';
import { minuteToLocal } from '../../app/time/zone.ts';
import { MONTHS } from '../../app/messages/words.ts';

export { clockWords, stampWords };

export const ALARM_WORDS: Readonly<Record<AlarmKind, string>> = {
  'mix-by': 'Mix now',
  'bag-by': 'The bag must be down',
  'gel-look': 'Look at the smear: has it gelled?',
  'bag-off': 'The bag may come off',
};

export const BENCH_WORDS = {
  title: 'At the bench',
  open: 'Bench',
  now: 'Now',
  nowPlannedFor: (at: string) => `Now, planned for ${at}`,
  time: 'Time',
  clocks: 'Clocks',
  next: 'Next',
  planned: 'Planned for',
  also: 'Or instead',
  pick: 'Arrow keys pick another',
  press: 'Press the space bar, or here',
  allCautions: 'All cautions',
  backToClocks: 'Back to the clocks',
  hold: 'Hold the space bar, or here',
  holding: 'Keep holding …',
  answer: 'Space bar: heard',
  leave: 'Leave (Esc)',
  nothingLeft: 'Nothing is left to stamp.',
  noPlan: 'There is no plan to work by.',
  nothingStamped: 'Nothing stamped yet.',
  last: 'Last',
  takeBack: 'Take back (Backspace)',
  takenBack: 'Taken back',
  askImplied: 'Before this comes what is not written down yet:',
  askDoubts: 'Before this is written down:',
  refused: 'This cannot be written down:',
  yes: 'Yes, write it down (space bar)',
  no: 'No, go back (Backspace)',
  back: 'Go back (Backspace)',
  awake: 'Kept awake',
  mayWake: 'This screen may go to sleep: turn its sleep off',
  soundOff: 'No sound before a key is pressed once',
  unplanned: 'not placed',
} as const;

/** `Batch 2 of 5, 312 g` */
export const batchWords = (batch: NonNullable<Step['batch']>): string =>
  `Batch ${batch.number} of ${batch.of}, ${Math.round(batch.massG)} g`;

/** `Lay up outer skin: batch 2 mixed` */
export function stepWords({ name, stamp, batch, infused }: Step): string {
  const of = batch ? `batch ${batch.number} ` : '';
  return `${name}: ${of}${stampWords(stamp, infused).toLowerCase()}`;
}

/** `in 12 min`, `7 min over`; `now` within the minute. */
export function countdown(at: Minute, now: number): string {
  const minutes = Math.ceil(at - now);
  if (minutes > 0) return `in ${length(minutes)}`;
  const over = Math.floor(now - at);
  return over < 1 ? 'now' : `${length(over)} over`;
}

/** `14:20`, with the day where it is another one. */
export function clockOrDay(at: Minute, now: Minute, zone: string): string {
  const { date, time } = minuteToLocal(at, zone);
  const clock = clockTime(time);
  if (date === minuteToLocal(now, zone).date) return clock;
  const month = MONTHS[Number(date.slice(5, 7)) - 1]!.slice(0, 3);
  return `${clock}, ${dayOfMonth(date.slice(8, 10), month)}`;
}

/** Words of the list of what should have happened since somebody last looked. */
export const GAP_WORDS = {
  title: 'Since you last looked',
  open: 'Say what got done',
  intro:
    'These should have happened by the plan. Nothing is taken for done until you say so; what was not done is planned again from now.',
  asPlanned: 'Done as planned',
  begunAsPlanned: 'Begun as planned',
  otherTimes: 'Other times',
  notDone: 'Not done',
  from: 'Begun',
  until: 'Done',
  write: 'Write it down',
  dayAsPlanned: 'All of it as planned',
  dayNotDone: 'None of it',
  written: 'written down',
  askAgain: 'Write it down all the same',
  nothing: 'Everything is answered.',
  firstHour: 'It was the first',
  secondHour: 'It was the second',
  withThose: 'Write it down, and those before it',
  withoutThose: 'Only this one',
  back: 'Go back',
} as const;

/** `3 stages should have happened since Tue 20 Apr 14:00 and are not written down.` */
export const gapHeadline = (count: number, since: string): string =>
  `${count === 1 ? 'One stage' : `${count} stages`} should have begun since ${since} and ` +
  `${count === 1 ? 'is' : 'are'} not written down.`;

/** Words of the printed plan beside the one from now. */
export const REPLAN_WORDS = {
  title: 'What moved since the printed plan',
  open: 'See what moved',
  later: 'Later',
  intro:
    'Below, the plan that is worked by stands beside the one that follows from what is written down. Only what had to move has moved.',
  stage: 'Stage',
  before: { printed: 'Printed', accepted: 'Accepted' },
  after: 'From now',
  by: 'By',
  why: 'Why',
  bars: 'Old (outline) and new (full) moment',
  added: 'New in the plan',
  gone: 'No longer in the plan',
  closed: 'Closed since then',
  nothingClosed: 'No choice has closed.',
  closedAt: (at: string): string => `, open until ${at}`,
  decide: 'To be decided',
  nothingToDecide: 'Nothing waits for a decision.',
  decideRoute: (route: string): string => `Choose another route: ${route}`,
  decideStart: (stage: string): string => `Begin “${stage}”, or the unveiling is missed`,
  decideAnswer: (question: string, stage: string): string =>
    `Answer “${question}”; “${stage}” waits for it`,
  accept: 'Work by the new plan',
  acceptHint: 'The new times count from now on. What changed on paper is printed next.',
  keep: 'Keep the old plan',
  keepHint: (names: string): string => `Fixed at the old moment: ${names}.`,
  keepNot: (names: string): string => `Cannot be kept, for the reasons below: ${names}.`,
  keepUntil: 'What is fixed holds until a record contradicts it; the plan then says so.',
  cannotKeep: 'None of them can stand at its old moment, for the reasons below.',
  both: (now: string, kept: string): string => `New plan: ${now}. Old plan kept: ${kept}.`,
  headline: (moved: number, other: number): string =>
    [
      ...(moved > 0 ? [`${moved === 1 ? 'One stage' : `${moved} stages`} moved`] : []),
      ...(other > 0 ? [`${other} came or went`] : []),
    ].join(', '),
  since: (at: string): string => ` since the plan of ${at}.`,
} as const;
