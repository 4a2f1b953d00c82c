/** The questions that cost most when they are asked late (common practice, no source). */
import type { FullBuild, StageKind } from '../document/schema.ts';
import { wantedFinish, zonesFinished } from '../document/finish.ts';
import { USUAL_QUESTIONS, type UsualQuestionCode } from '../messages/questions.ts';

/** A question as it goes into the build's list. */
export interface UsualQuestion {
  readonly id: string;
  readonly text: string;
  readonly answer: null;
  /** The stage that it holds up while it is open. */
  readonly before: StageKind;
  readonly of: 'resin' | null;
}

interface Usual {
  readonly before: StageKind;
  readonly of?: 'resin';
  readonly applies: (build: FullBuild) => boolean;
  /** Asked of every new build, before much is known of it. */
  readonly atStart: boolean;
}

const paintedOutside = ({ part, outside }: FullBuild): boolean =>
  zonesFinished({ part }, ['painted']).length > 0 &&
  outside.some((party) => party.kind === 'paint');

const freshMould = ({ mould }: FullBuild): boolean => !mould.sealed;

/** In the order of work, each before the first stage that its answer can spoil. */
const USUAL: Readonly<Record<UsualQuestionCode, Usual>> = {
  'length-and-trim': { before: 'machining', applies: freshMould, atStart: true },
  'frame-measured': { before: 'machining', applies: freshMould, atStart: true },
  'trim-line': { before: 'trim', applies: ({ mould }) => mould.sealed, atStart: false },
  'features-and-holes': { before: 'machining', applies: () => true, atStart: true },
  'stiff-for-paint': { before: 'cutting', applies: paintedOutside, atStart: false },
  'colour-and-bake': {
    before: 'order',
    of: 'resin',
    applies: (build) => wantedFinish(build) !== 'hidden',
    atStart: true,
  },
  'who-carries': { before: 'outside', applies: () => true, atStart: true },
};

const CODES = Object.keys(USUAL) as UsualQuestionCode[];

const asQuestion = (code: UsualQuestionCode): UsualQuestion => ({
  id: code,
  text: USUAL_QUESTIONS[code],
  before: USUAL[code].before,
  of: USUAL[code].of ?? null,
  answer: null,
});

/** What a new build begins with: asked early, they cost least. */
export const startingQuestions = (): UsualQuestion[] =>
  CODES.filter((code) => USUAL[code].atStart).map(asQuestion);

/** Usual questions that bear on this build and are not in its list yet, by id, in the order of work. */
export function usualQuestions(build: FullBuild): UsualQuestion[] {
  const asked = new Set(build.part.questions.map((question) => question.id));
  return CODES.filter((code) => !asked.has(code) && USUAL[code].applies(build)).map(asQuestion);
}
