/** Texts of the ways to divide the layups into cures. */
import { readChainId } from '../../app/document/ids.ts';
import type { Finish, JointState, RouteResult } from '../../app/document/schema.ts';

export const ROUTES = {
  best: 'Best route, picked by the program',
  bestTaken: '✓ Best route, picked by the program',
  picked: 'the program picks',
  working: 'Working out the closing times…',
  forced: '▲ Merge forced.',
  choose: 'Choose',
  chooseNamed: (name: string): string => `Choose ${name}`,
  takenBest: '✓ Best',
  takenByHand: '✓ Chosen',
  closedCount: (count: number): string => `${count} that have closed`,
  impossibleCount: (count: number): string => `${count} that cannot be done`,
  noReason: 'No reason was given.',
  findings: 'Findings of the chosen route',
  heldBy: (stage: string): string => `Held by: ${stage}.`,
  compare: 'Ways to divide the layups into cures',
} as const;

/** Row heads of the comparison, in the order in which a shop asks. */
export const ROUTE_ROWS = {
  section: 'What cures together',
  fits: 'Makes the date',
  closes: 'Open until',
  ready: 'Ready',
  spare: 'To spare',
  hours: 'Hands on',
  cost: 'Material',
  mass: 'Weight',
  finish: 'Finish',
  onTime: 'Chance to be on time',
  later: 'What it costs later',
  reason: 'Why',
} as const;

export const FINISH_WORDS: Readonly<Record<Finish, string>> = {
  clear: 'good for a clear finish',
  painted: 'good for paint',
  hidden: 'only where it is hidden',
};

/** The joint of two layups, as a control. */
export const JOINT_WORDS: Readonly<Record<JointState, string>> = {
  apart: 'apart',
  tack: 'on tack',
  'one-bag': 'one bag',
};

/** The joint of two layups, inside a sentence. */
const BETWEEN: Readonly<Record<JointState, string>> = {
  apart: ' then, once cured, ',
  tack: ' then wet on tack ',
  'one-bag': ' in one bag with ',
};

/** Cures in words: the layups of each, and how each is joined to the one before. */
export const routeName = (cures: readonly string[], names: ReadonlyMap<string, string>): string =>
  cures
    .map((cure) => {
      const { layups, joints } = readChainId(cure);
      const joint = (i: number) => (i === 0 ? '' : BETWEEN[joints[i - 1]!]);
      return layups.map((id, i) => joint(i) + (names.get(id) ?? id)).join('');
    })
    .join('; ');

export const verdictWords = (route: RouteResult): string =>
  !route.possible ? '■ Cannot be done' : route.fits ? '✓ Fits' : '■ Does not fit';

export const CLOSES = {
  never: 'no time left',
  pending: '…',
  notBefore: (moment: string): string => `not before ${moment}`,
  none: '–',
} as const;

/** `2.4 h, 0.42 kg filler`: a line of what a choice costs later. */
export const laterWords = (chance: number, hours: string, fillerKg: string | null): string => {
  const share = chance < 1 ? `${Math.round(chance * 100)} % of jobs: ` : '';
  return `${share}${hours} h${fillerKg === null ? '' : `, ${fillerKg} kg filler`}`;
};
