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
}

interface Usual {
  readonly before: StageKind;
  readonly applies: (build: FullBuild) => boolean;
  /** Asked of every new build, before much is known of it. */
  readonly atStart: boolean;
}

const paintedOutside = ({ part, outside }: FullBuild): boolean =>
  zonesFinished({ part }, ['painted']).length > 0 &&
  outside.some((party) => party.kind === 'paint');

/** In the order of work. */
const USUAL: Readonly<Record<UsualQuestionCode, Usual>> = {
  'length-and-trim': { before: 'mould', applies: ({ mould }) => !mould.sealed, atStart: true },
  'trim-line': { before: 'trim', applies: ({ mould }) => mould.sealed, atStart: false },
  'features-and-holes': { before: 'cutting', applies: () => true, atStart: true },
  'stiff-for-paint': { before: 'cutting', applies: paintedOutside, atStart: false },
  'finish-and-sheen': {
    before: 'fair',
    applies: (build) => wantedFinish(build) !== 'hidden',
    atStart: true,
  },
  'who-carries': { before: 'hand-over', applies: () => true, atStart: true },
};

const CODES = Object.keys(USUAL) as UsualQuestionCode[];

const asQuestion = (code: UsualQuestionCode): UsualQuestion => ({
  id: code,
  text: USUAL_QUESTIONS[code],
  before: USUAL[code].before,
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
