/** What stamps and clocks are called, at the bench and on the phone. */
import { sealedWords } from '../../messages/sealed.ts';
import type { ClockKind } from './clocks.ts';
import type { Stamp } from './steps.ts';

/** On the key: what it writes down. */
const STAMP_WORDS: Readonly<Record<Exclude<Stamp, 'bag-down'>, string>> = {
  started: 'Started',
  mixed: 'Mixed',
  gel: 'Gelled',
  off: 'Bag coming off',
  done: 'Done',
};

const CLOCK_WORDS: Readonly<Record<Exclude<ClockKind, 'bag-by'>, string>> = {
  'use-by': 'Use this cup by',
  'gel-from': 'Gel at the earliest',
  'gel-by': 'Gel at the latest',
  'off-from': 'Bag off from',
};

/** @param infused what the bag holds is laid dry and filled: its bag is down long before */
export const stampWords = (stamp: Stamp, infused: boolean): string =>
  stamp === 'bag-down' ? sealedWords(infused).done : STAMP_WORDS[stamp];

/** @param infused as for a stamp */
export const clockWords = (kind: ClockKind, infused: boolean): string =>
  kind === 'bag-by' ? sealedWords(infused).by : CLOCK_WORDS[kind];
