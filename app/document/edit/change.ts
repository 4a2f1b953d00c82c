/** Edits of the document: pure functions from one document to the next, each with words for undo. */
import { readStageId } from '../ids.ts';
import type { Build, JointState } from '../schema.ts';
import { append, getIn, removeAt, setIn, type Draft } from './path.ts';

/** One gesture. Gestures that share `merge` and follow closely (a stepper held down) are one revision. */
export interface Change {
  readonly label: string;
  readonly document: Draft;
  readonly merge?: string;
  /** The one field that was typed or picked, by its path. */
  readonly field?: string;
}

/** Longest label that the history takes. */
const LABEL_LENGTH = 120;

/** A gesture, its words cut to what the history takes. */
export const change = (label: string, document: Draft, merge?: string): Change => {
  const short = label.length > LABEL_LENGTH ? `${label.slice(0, LABEL_LENGTH - 1)}…` : label;
  return merge === undefined ? { label: short, document } : { label: short, document, merge };
};

/** One field typed or picked. `said` is the value in words. */
export function setField(
  document: Draft,
  path: string,
  value: unknown,
  name: string,
  said: string,
  merge?: string,
): Change {
  return { ...change(`${name}: ${said}`, setIn(document, path, value), merge), field: path };
}

/** A typed value taken out again: the stated assumption holds. */
export const assumeField = (document: Draft, path: string, name: string): Change => ({
  ...change(`${name}: as assumed`, setIn(document, path, undefined)),
  field: path,
});

export const addEntry = (document: Draft, path: string, item: unknown, what: string): Change =>
  change(`Add ${what}`, append(document, path, item));

export const removeEntry = (document: Draft, path: string, index: number, what: string): Change =>
  change(`Remove ${what}`, removeAt(document, path, index));

/** An id of the list that is not taken: `zone-3`. */
export function freeId(document: Draft, path: string, stem: string): string {
  const list = (getIn(document, path) ?? []) as readonly { id?: string }[];
  // An entry without an id is read as the one of its place.
  const taken = new Set(list.map((item, i) => item.id ?? `${stem}-${i + 1}`));
  let number = list.length + 1;
  while (taken.has(`${stem}-${number}`)) number += 1;
  return `${stem}-${number}`;
}

/** A route chosen by hand, or left to the program. */
export function chooseRoute(
  document: Draft,
  joints: Readonly<Record<string, JointState>> | 'best',
  name: string,
): Change {
  const route = joints === 'best' ? 'best' : { joints: { ...joints } };
  return change(`Route: ${name}`, { ...document, route });
}

/** A stage fixed at a wall-clock time of the build's zone. */
export function pinStage(document: Draft, stage: string, start: string, name: string): Change {
  const others = (document.pins ?? []).filter((pin) => pin.stage !== stage);
  return change(`Pin ${name}`, { ...document, pins: [...others, { stage, start }] });
}

export function unpinStage(document: Draft, stage: string, name: string): Change {
  const pins = (document.pins ?? []).filter((pin) => pin.stage !== stage);
  return change(`Unpin ${name}`, { ...document, pins });
}

/**
 * What really happened; a correction is a later record of the same stage. The first layup
 * fixes the route: from then on no other is considered for what was laid by it.
 * @param joints of the route that is being worked by
 */
export function recordStage(
  document: Draft,
  record: NonNullable<Build['records']>[number] & { readonly end: string | null },
  name: string,
  joints: Readonly<Record<string, JointState>> | null,
): Change {
  const what = record.end === null ? 'started' : 'finished';
  const open = document.route === undefined || document.route === 'best';
  const settled = open && joints && readStageId(record.stage)?.what === 'layup';
  return change(`${name} ${what}`, {
    ...document,
    ...(settled ? { route: { joints: { ...joints } } } : {}),
    records: [...(document.records ?? []), record],
  });
}

/** An answer to an open question; empty text opens it again. */
export function answerQuestion(document: Draft, index: number, answer: string): Change {
  const text = answer.trim();
  const next = setIn(document, `part.questions[${index}].answer`, text === '' ? null : text);
  return change(text === '' ? 'Question opened again' : `Answer: ${text}`, next);
}
