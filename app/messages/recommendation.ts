/** One choice out of many in one sentence: why it is offered, what it does, what results from it. */
import type { JointState } from '../document/schema.ts';
import { chanceWords } from './odds.ts';
import { capital, latenessWords, listed, roundMoney, plain, lowerFirst } from './words.ts';

const REASONS = {
  surest: 'surest',
  'next-surest': 'next surest',
  cheapest: 'cheapest',
  'best-part': 'best part',
  'least-work': 'least work',
} as const;
export type RecommendReason = keyof typeof REASONS;

interface Recommended {
  readonly why: readonly RecommendReason[];
  /** Labels of the levers that are pulled. */
  readonly levers: readonly string[];
  /** State of every boundary of the route. */
  readonly joints: readonly JointState[];
  readonly fits: boolean;
  readonly onTime: number;
  readonly lateMinutes: number;
  readonly labourHours: number;
  readonly massKg: number;
  readonly costMinor: number;
  readonly currency: string;
}

/** 'Surest: work Saturdays; every layup cured on its own. About 85 % to be on time, 42 h of work, ...' */
export function recommendationWords(a: Recommended): string {
  const does = a.levers.length > 0 ? listed(a.levers.map(lowerFirst)) : 'as it stands';
  const facts = [
    a.fits ? `${chanceWords(a.onTime)} to be on time` : latenessWords(a.lateMinutes),
    `${plain(a.labourHours, 0)} h of work`,
    `${plain(a.massKg)} kg`,
    roundMoney(a.costMinor, a.currency),
  ];
  const head = capital(listed(a.why.map((one) => REASONS[one])));
  return `${head}: ${does}; ${routeWords(a.joints)}. ${capital(facts.join(', '))}.`;
}

function routeWords(states: readonly JointState[]): string {
  const counted = (state: JointState, how: string): string[] => {
    const count = states.filter((one) => one === state).length;
    return count === 0 ? [] : [`${count} ${count === 1 ? 'joint' : 'joints'} ${how}`];
  };
  const words = [...counted('one-bag', 'in one bag'), ...counted('tack', 'on tack')];
  return words.length === 0 ? 'every layup cured on its own' : listed(words);
}
