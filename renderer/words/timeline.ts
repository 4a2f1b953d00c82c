/** What the timeline says on screen. */
import type { JointState } from '../../app/document/schema.ts';
import type { Grain } from '../../app/timeline/captions.ts';

export const GRAIN_WORDS: Readonly<Record<Grain, string>> = {
  whole: 'Whole build',
  week: 'Week',
  day: 'Day',
};

/** In one bag, where cloth is laid dry and infused. */
export const ONE_SHOT = 'laid dry together, filled in one shot';

export const JOINT_MEANING: Readonly<Record<JointState, string>> = {
  apart: 'laid on the cured layup below, each in its own bag',
  tack: 'laid while the layup below has gelled and still tacks',
  'one-bag': 'laid wet together, cured under one bag',
};

/** On the narrow strip itself three figures have no room. */
const folded = (days: number): string => (days < 100 ? `${days} d` : `${Math.round(days / 7)} w`);

export const TIMELINE_WORDS = {
  region: 'Timeline of the build',
  titleOf: (build: string) => `Timeline of ${build}`,
  description: (stages: number, from: string, unveiling: string) =>
    `${stages} stages from ${from} to the unveiling ${unveiling}.`,
  zoom: 'How close',
  wider: 'Wider',
  closer: 'Closer',
  showAs: 'Show as',
  picture: 'Picture',
  table: 'Table',
  shop: 'People and gear',
  shopShort: 'Shop',
  room: 'Room',
  now: 'now',
  shown: 'Unveiling',
  folded,
  unfold: (days: number, from: string) =>
    `${folded(days)}${days < 100 ? '' : `, ${days} d,`} without work from ${from}: unfold`,
  foldAgain: 'Fold empty days',
  openRow: (title: string) => `Edit: ${title}`,
  moveHint: 'Enter fixes it.',
  notMoved: 'Not moved.',
  movesTo: (name: string, when: string) => `${name} from ${when}.`,
  fixed: (name: string, when: string) => `${name} fixed from ${when}.`,
  joint: (before: string, after: string, state: string) => `${after} on ${before}: ${state}`,
  jointTitle: (before: string, after: string) => `${after} on ${before.toLowerCase()}`,
  chosen: 'chosen',
  cannot: 'cannot be done',
  forced: 'Forced',
  stillPlanning: 'Its hours and dates are being worked out.',
  asItIs: 'as it is now',
  close: 'Close',
  starts: 'When the selected layup may start',
  limits: 'Until when each way of building is possible',
  keys:
    'Arrow keys go from stage to stage, Enter opens one, Shift and an arrow move it, plus and minus ' +
    'zoom, Page Up and Page Down pan. The same is shown as a table.',
} as const;

export const LEGEND_WORDS = {
  title: 'What the shapes mean',
  starts: {
    good: 'good to mix',
    'bag-late': 'bag too late',
    'gel-unseen': 'gel unseen',
    'off-hours': 'not at these hours',
  },
  hands: 'hands on it',
  watch: 'somebody watches',
  break: 'break',
  open: 'resin open, to gel',
  gelled: 'gelled, under vacuum',
  off: 'bag off',
  after: 'until it can be sanded',
  wait: 'wait, drying',
  outside: 'outside job',
  heat: 'heat',
  critical: 'nothing to spare',
  pin: 'fixed by hand',
  fold: 'folded days',
} as const;

export const TABLE_WORDS = {
  stage: 'Stage',
  who: 'Who',
  start: 'Start',
  end: 'End',
  spare: 'To spare',
  latestStart: 'Latest start',
  latestEnd: 'Latest end',
  critical: 'Nothing to spare: ',
  notPlaced: 'not placed',
  shop: 'People, gear and room',
  closes: 'No longer possible',
  caption: (name: string, zone: string) => `Stages of ${name} in order of time, times in ${zone}`,
} as const;
