/** The questions that cost most when they are asked late (common practice, no source). */
import type { FullBuild, StageKind } from '../document/schema.ts';
import { wantedFinish, zonesFinished } from '../document/finish.ts';

/** A question as it goes into the build's list. */
export interface UsualQuestion {
  readonly id: string;
  readonly text: string;
  readonly answer: null;
  /** The stage that it holds up while it is open. */
  readonly before: StageKind;
}

interface Usual {
  readonly id: string;
  readonly text: string;
  readonly before: StageKind;
  readonly applies: (build: FullBuild) => boolean;
  /** Asked of every new build, before much is known of it. */
  readonly atStart: boolean;
}

const paintedOutside = ({ part, outside }: FullBuild): boolean =>
  zonesFinished({ part }, ['painted']).length > 0 &&
  outside.some((party) => party.kind === 'paint');

const USUAL: readonly Usual[] = [
  {
    id: 'length-and-trim',
    text: 'Overall length and trim line confirmed, and by whom?',
    before: 'mould',
    applies: ({ mould }) => !mould.sealed,
    atStart: true,
  },
  {
    id: 'trim-line',
    text: 'Trim line confirmed, and by whom?',
    before: 'trim',
    applies: ({ mould }) => mould.sealed,
    atStart: false,
  },
  {
    id: 'features-and-holes',
    text: 'Which features and holes, and are local plies wanted under them?',
    before: 'cutting',
    applies: () => true,
    atStart: true,
  },
  {
    id: 'stiff-for-paint',
    text: 'Does the painter need a stiffer surface to block out on?',
    before: 'cutting',
    applies: paintedOutside,
    atStart: false,
  },
  {
    id: 'finish-and-sheen',
    text: 'Finish, colour and sheen?',
    before: 'fair',
    applies: (build) => wantedFinish(build) !== 'hidden',
    atStart: true,
  },
  {
    id: 'who-carries',
    text: 'Who carries the part, in what, and who signs for it?',
    before: 'hand-over',
    applies: () => true,
    atStart: true,
  },
];

const asQuestion = ({ id, text, before }: Usual): UsualQuestion => ({
  id,
  text,
  before,
  answer: null,
});

/** What a new build begins with: asked early, they cost least. */
export const startingQuestions = (): UsualQuestion[] =>
  USUAL.filter((usual) => usual.atStart).map(asQuestion);

/** Usual questions that bear on this build and are not in its list yet, by id, in the order of work. */
export function usualQuestions(build: FullBuild): UsualQuestion[] {
  const asked = new Set(build.part.questions.map((question) => question.id));
  return USUAL.filter((usual) => !asked.has(usual.id) && usual.applies(build)).map(asQuestion);
}
