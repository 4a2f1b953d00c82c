/** What a fault of a document says was found and is expected, from plain values. */

import type { Fault } from './faults.ts';
import { fieldWords } from './fields.ts';

/** `Unveiling: found "2027-03-28T02:30", expected a time that exists in Europe/Berlin` */
export const faultWords = ({ path, found, expected }: Fault): string =>
  `${path === '(file)' ? 'This edit' : fieldWords(path)}: found ${found}, expected ${expected}`;

/** What is expected, by kind of fault. */
export const EXPECTED = {
  buildFile: () => 'a build file in JSON',
  oneObject: () => 'one JSON object that describes a build',
  noSuchField: () => 'no such field (check its spelling)',
  allowedForm: () => 'one of the allowed forms',
  validValue: () => 'a valid value',
  ofType: (a: { type: string }) => `a value of type ${a.type}`,
  oneOf: (a: { values: readonly string[] }) => `one of ${a.values.join(', ')}`,
  anyOf: (a: { forms: readonly string[] }) => a.forms.join(', or '),
  atMostCharacters: (a: { most: number }) => `at most ${a.most} characters`,
  version: (a: { newest: number }) =>
    `at most ${a.newest}: the file was written by a newer program`,
  timeThatExists: (a: { zone: string }) =>
    `a time that exists in ${a.zone} (the clocks skip this one)`,
  idUsedOnce: () => 'an id used once',
  knownRow: (a: { what: string; known: readonly string[] }) =>
    `a known ${a.what} (${a.known.join(', ') || 'none in the library'})`,
  someone: (a: { what: string; known: readonly string[] }) =>
    `the id of ${a.what} (${a.known.join(', ') || 'there is none'})`,
  visit: (a: { visits: readonly string[] }) =>
    'null, or the id of an outside party that the part goes to ' +
    `(${a.visits.join(', ') || 'none: the part goes nowhere'})`,
  orderWithEnd: () => 'an order with an end',
} as const;

/** What was found, where it is not the value itself. */
export const FOUND = {
  unknownField: () => 'a field that is not known',
  characters: (a: { count: number }) => `${a.count} characters`,
  circle: (a: { stages: readonly string[] }) => `a circle: ${a.stages.join(' -> ')}`,
} as const;

/** A least or greatest value, length of a text or of a list. */
export function boundWords(of: string, words: string, limit: number | bigint): string {
  if (of === 'string') return `text of ${words} ${limit} characters`;
  if (of === 'array') return `a list of ${words} ${limit} entries`;
  return `${words} ${limit}`;
}
