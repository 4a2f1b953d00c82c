/** What stamps and clocks are called, at the bench and on the phone. */
import type { ClockKind } from './clocks.ts';
import type { Stamp } from './steps.ts';

/** On the key: what it writes down. */
export const STAMP_WORDS: Readonly<Record<Stamp, string>> = {
  started: 'Started',
  mixed: 'Mixed',
  'bag-down': 'Bag down',
  gel: 'Gelled',
  off: 'Bag coming off',
  done: 'Done',
};

export const CLOCK_WORDS: Readonly<Record<ClockKind, string>> = {
  'use-by': 'Use this cup by',
  'bag-by': 'Bag down by',
  'gel-from': 'Gel at the earliest',
  'gel-by': 'Gel at the latest',
  'off-from': 'Bag off from',
};
