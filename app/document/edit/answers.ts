/** An answer and who gave it, in the one line that the build keeps. */
import type { Build } from '../schema.ts';
import { change, type Change } from './change.ts';
import type { Draft } from './path.ts';

/** A question as the document lists it. */
export type Question = NonNullable<Build['part']['questions']>[number];

const BY = ' — by ';

export interface Answer {
  readonly text: string;
  readonly by: string;
}

export function readAnswer(answer: string | null | undefined): Answer {
  const line = answer ?? '';
  const cut = line.lastIndexOf(BY);
  return cut < 0
    ? { text: line, by: '' }
    : { text: line.slice(0, cut), by: line.slice(cut + BY.length) };
}

/** Empty while there is no answer, also where a name was typed. */
export function writeAnswer({ text, by }: Answer): string {
  const [said, who] = [text.trim(), by.trim()];
  if (said === '') return '';
  return who === '' ? said : `${said}${BY}${who}`;
}

/** Usual questions put on the list in one gesture. */
export function askUsual(document: Draft, questions: readonly Question[]): Change {
  const [first] = questions;
  const what = questions.length === 1 ? `question: ${first!.text}` : 'the usual questions';
  const part = {
    ...document.part,
    questions: [...(document.part?.questions ?? []), ...questions],
  };
  return change(`Add ${what}`, { ...document, part: part as NonNullable<Draft['part']> });
}
