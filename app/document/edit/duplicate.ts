/** A build begun from another one. */
import type { Build } from '../schema.ts';
import type { Draft } from './path.ts';

/** What belongs to the job that was built, and not to the next one like it. */
const OF_THE_JOB = [
  'id',
  'records',
  'printed',
  'lessons',
  'pins',
] as const satisfies readonly (keyof Build)[];

/**
 * The same part, crew, room and library without what happened on the floor, what was printed, and stages
 * fixed by hand.
 */
export function duplicateOf(document: Draft, name: string): Draft {
  const copy: Draft = { ...document, name };
  for (const key of OF_THE_JOB) delete copy[key];
  return copy;
}
